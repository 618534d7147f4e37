#!/bin/sh
# SPDX-License-Identifier: ISC
# Every test program once more, built with the address and undefined-behaviour
# sanitizers (the Makefile builds them in build/sanitize).
set -u
here=$(dirname "$0")
. "$here/tally.sh"
folder=$1/sanitize
export ASAN_OPTIONS=detect_leaks=1:abort_on_error=0 UBSAN_OPTIONS=print_stacktrace=1
export LSAN_OPTIONS=suppressions=$(cd "$here" && pwd)/leaks.txt:print_suppressions=0

planted_overflow_is_found() {
	printf 'int main(int n, char** v) { int a[4] = {0}; (void)v; return a[n + 3]; }\n' >"$folder/planted.c"
	cc -g -fsanitize=address,undefined -fno-sanitize-recover=all -o "$folder/planted" "$folder/planted.c" || return 1
	! "$folder/planted" >/dev/null 2>&1
}

for program in "$folder"/tests/*/test_*; do
	# test_cycles measures memory, of which sanitizers take their own share.
	case $program in *.o | *.d | */live/* | */pane/test_cycles) continue ;; esac
	check "no sanitizer complains of $(basename "$program")" "$program"
done
check "an overflow would be found" planted_overflow_is_found
tally
