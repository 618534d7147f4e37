#!/bin/sh
# SPDX-License-Identifier: ISC
# Runs test programs and scripts, shows what they print, adds up their last
# lines ("N passed, N failed, N skipped") and prints the sum in the same form.
# A program that ends without such a line counts as one failure.
# Usage: tests/run.sh BUILD_FOLDER PROGRAM_OR_SCRIPT ...
set -u
build=$1
shift
passed=0 failed=0 skipped=0
# No bank of whoever runs this is to be heard in the tests.
XDG_DATA_HOME=$(mktemp -d)
export XDG_DATA_HOME
log=$(mktemp)
trap 'rm -rf "$log" "$XDG_DATA_HOME"' EXIT
for test in "$@"; do
	printf '\n%s\n' "== $test"
	case $test in
	*.sh) "$(sed -n '1s/^#!//p' "$test")" "$test" "$build" >"$log" 2>&1 ;;
	*) "$test" >"$log" 2>&1 ;;
	esac
	status=$?
	cat "$log"
	tally=$(sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed, \([0-9]*\) skipped$/\1 \2 \3/p' "$log" | tail -n 1)
	if [ -z "$tally" ]; then
		echo "not ok - $test ended without a tally, with status $status"
		tally="0 1 0"
	fi
	set -- $tally "$@"
	[ "$status" -ne 0 ] && [ "$2" -eq 0 ] && set -- "$1" 1 "$3" && echo "not ok - $test: status $status"
	passed=$((passed + $1)) failed=$((failed + $2)) skipped=$((skipped + $3))
done
printf '\n%s passed, %s failed, %s skipped\n' "$passed" "$failed" "$skipped"
[ "$failed" -eq 0 ]
