#!/bin/sh
# SPDX-License-Identifier: ISC
# Runs test programs and scripts, shows what they print, adds up their last
# lines ("N passed, N failed, N skipped") and prints the sum in the same form, with what
# failed once more before it.  A program that ends without such a line counts as one
# failure, and so does one that leaves a file in $TMPDIR or a process running.  Both are
# gone afterwards, however the program or this script ends.
# Usage: tests/run.sh BUILD_FOLDER PROGRAM_OR_SCRIPT ...
set -u
here=$(dirname "$0")
build=$1
shift
passed=0 failed=0 skipped=0 test=
LONGEST=${FOURLIMB_LONGEST:-7200} # seconds that one program may take: hours, for slow machines

root=$(mktemp -d "${TMPDIR:-/tmp}/fourlimb-tests-XXXXXX") || exit 2
chmod 711 "$root" # some tests are nobody for a moment, and walk through
log=$root/log
# No bank of whoever runs this is to be heard in the tests.
export TMPDIR="$root/tmp" XDG_DATA_HOME="$root/nobody"
mkdir "$XDG_DATA_HOME" && : >"$log" && : >"$root/failures" && mkfifo "$root/alive" || exit 2

# Who reads the pipe waits until this script is gone, which even a kill -9 can't hide.
setsid sh -c 'read -r _ <"$2/alive"; exec sh "$1" "$2"' sh "$here/sweep.sh" "$root" \
	</dev/null >/dev/null 2>&1 &
exec 9>"$root/alive"

interrupted() {
	trap '' HUP INT TERM
	cat "$log"
	printf '\nnot ok - interrupted in %s, which had said so much\n' "$test"
	exit 130
}
trap 'sh "$here/sweep.sh" "$root"' EXIT
trap interrupted HUP INT TERM

# Each in a session of its own, so that a key on the terminal reaches this script alone,
# and with a mark by which its processes are found.
start() {
	program=$1
	shift
	case $program in
	*.sh) set -- "$(sed -n '1s/^#!//p' "$program")" "$program" "$build" ;;
	*) set -- "$program" ;;
	esac
	FOURLIMB_RUN=$root setsid timeout -k 10 "$LONGEST" "$@" >"$log" 2>&1 9>&- &
}

fail() {
	echo "not ok - $1" | tee -a "$log"
	failed=$((failed + 1))
}

# The words of each failure, those of a program that broke off being its last.
keep_failures() {
	grep -q '^not ok' "$log" || return
	{
		echo "== $test"
		[ -n "$1" ] || tail -n 30 "$log" | grep -v '^not ok'
		awk '/^(ok|skip) - / { said = ""; n = 0 } /^#/ && n++ < 30 { said = said $0 "\n" }
			/^not ok - / { printf "%s%s\n", said, $0; said = ""; n = 0 }' "$log"
	} >>"$root/failures"
}

# What a program that was killed couldn't tidy up is no second failure.
check_left() {
	ended=${1:+wait}
	running=$(sh "$here/sweep.sh" "$root" "${ended:-now}")
	files=$(ls -A "$TMPDIR")
	[ -z "$running" ] || fail "$test left running: $running"
	[ -z "$1" ] || [ -z "$files" ] || fail "$test left in its temporary folder: $files"
	chmod -R u+rwx "$TMPDIR" && rm -rf "$TMPDIR"
}

for test in "$@"; do
	printf '\n%s\n' "== $test"
	mkdir "$TMPDIR" || exit 2
	start "$test"
	wait $!
	status=$?
	cat "$log"
	tally=$(sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed, \([0-9]*\) skipped$/\1 \2 \3/p' "$log" | tail -n 1)
	case $status in
	124 | 137) [ -n "$tally" ] || echo "# $status: after $LONGEST seconds, or by a kill -9" | tee -a "$log" ;;
	esac
	check_left "$tally"
	# shellcheck disable=SC2086
	if [ -z "$tally" ]; then
		fail "$test ended without a tally, with status $status"
	else
		set -- $tally
		passed=$((passed + $1)) failed=$((failed + $2)) skipped=$((skipped + $3))
		[ "$status" -eq 0 ] || [ "$2" -gt 0 ] || fail "$test: status $status"
	fi
	keep_failures "$tally"
done
[ -s "$root/failures" ] && { printf '\nWhat failed, once more:\n'; cat "$root/failures"; }
printf '\n%s passed, %s failed, %s skipped\n' "$passed" "$failed" "$skipped"
[ "$failed" -eq 0 ]
