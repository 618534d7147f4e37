#!/bin/sh
# SPDX-License-Identifier: ISC
# The inputs that are kept, fed to each program of tests/fuzz once more, plain and, where they
# are built, under the sanitizers.  Finding more is for "make fuzz".
set -u
here=$(dirname "$0")
. "$here/../checks/tally.sh"
build=$1
export ASAN_OPTIONS=detect_leaks=1 LSAN_OPTIONS=suppressions=$(cd "$here/../checks" && pwd)/leaks.txt:print_suppressions=0

takes_its_seeds() {
	"$1/tests/fuzz/fuzz_$2" "$here/seeds/$2"/* >"$replayed" 2>&1 && return
	grep '^# ' "$replayed" | tail -n 2
	grep -A 20 'ERROR: \|runtime error' "$replayed" | head -n 20
	return 1
}

# An input that what is wanted doesn't hold for, and none at all.
planted_fault_is_found() {
	! "$build/tests/fuzz/fuzz_text" "$here/no-such-seed" >"$replayed" 2>&1
}

replayed=$(mktemp)
trap 'rm -f "$replayed"' EXIT
for source in "$here"/fuzz_*.c; do
	name=$(basename "$source" .c | sed 's/^fuzz_//')
	check "nothing kept breaks $name" takes_its_seeds "$build" "$name"
	[ ! -x "$build/sanitize/tests/fuzz/fuzz_$name" ] ||
		check "nor under the sanitizers" takes_its_seeds "$build/sanitize" "$name"
done
check "an input that can't be read would be found" planted_fault_is_found
tally
