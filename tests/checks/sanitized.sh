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

# "undefined" alone leaves this out.
planted_conversion_is_found() {
	printf 'int main(int n, char** v) { double wild = 1e30 * n; (void)v; return (long)wild != 0; }\n' >"$folder/planted.c"
	cc -g $(sed -n 's/^SAN := //p' "$here/../../Makefile") -o "$folder/planted" "$folder/planted.c" || return 1
	"$folder/planted" 2>&1 | grep -q "outside the range"
}

# As many at once as there are processors; each leaves its output and its status.
# test_cycles measures memory, of which sanitizers take their own share.
outputs=$(mktemp -d)
trap 'rm -rf "$outputs"' EXIT
trap 'exit 1' HUP INT TERM
programs=$(cd "$here/../.." && ls tests/*/test_*.c | sed 's/\.c$//' | grep -vE '/live/|/pane/test_cycles$')
printf '%s\n' "$programs" | xargs -P "$(nproc)" -I {} sh -c '
	name=$(printf %s "{}" | tr / _)
	"$2/{}" >"$1/$name.out" 2>&1
	echo $? >"$1/$name.status"' sh "$outputs" "$folder"

# The failed tests' words, then the sanitizer's, or those last said.
ended_well() {
	name=$(printf %s "$1" | tr / _)
	status=$(cat "$outputs/$name.status")
	[ "$status" = 0 ] && return
	echo "status $status"
	awk '/^(ok|skip) - / { said = "" } /^#/ { said = said $0 "\n" }
		/^not ok - / { printf "%s%s\n", said, $0; said = "" }' "$outputs/$name.out"
	if grep -q 'ERROR: \|runtime error:' "$outputs/$name.out"; then
		sed -n '/ERROR: \|runtime error:/,$p' "$outputs/$name.out" | head -n 25
	else
		tail -n 10 "$outputs/$name.out"
	fi
	return 1
}

for program in $programs; do
	check "no sanitizer complains of $(basename "$program")" ended_well "$program"
done
check "an overflow would be found" planted_overflow_is_found
check "a number too large for a whole one would be found" planted_conversion_is_found
tally
