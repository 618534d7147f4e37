#!/bin/sh
# SPDX-License-Identifier: ISC
# refusals.sh BUILD - wrong requests: each is answered by exit status 1 (asked wrongly,
# ui/command/commands.h), a line that says what is wrong, and no file.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

# refused WORD ARGUMENT...: WORD must stand in the message.
refused() {
	word=$1
	shift
	run "$@"
	same "$status" 1 && has "$err" "$word" && same "$(wc -l <err.txt)" 1 && [ ! -e refused.mid ]
}

# unrendered SENTENCE WORD ARGUMENT...: the same of a rendering that names its file.
unrendered() {
	sentence=$1
	word=$2
	shift 2
	check "$sentence" refused "$word" render --out refused.mid "$@"
}

help_after_a_command_is_help() {
	run render --help
	same "$status" 0 && has "$out" "--groove"
}

# Either it is refused, or the file says what is played: 7/8 in this case.
a_groove_set_as_a_control_is_refused_or_told_of() {
	run render --groove 1 --bars 4 --set groove=140 --out set.mid
	[ "$status" -eq 1 ] || has "$(midicsv set.mid | grep Time_signature)" "7, 3"
}

need "$fourlimb" midicsv
check "an unknown command is refused" refused "frobnicate" frobnicate
unrendered "an unknown option is refused" "--frobnicate" --frobnicate 3
unrendered "an unknown option at the end is refused as unknown" "no option" --frobnicate
unrendered "a missing value is refused" "--tempo" --tempo
check "a missing file name is refused" refused "--out" render --groove 1
unrendered "a word too many is refused" "many" one two
unrendered "an unknown groove is refused" "Nowhere Beat" --groove "Nowhere Beat"
unrendered "near an unknown groove others are named" "Lower Station" --groove "lower statoin"
unrendered "unknown feet are refused" "Nowhere" --feet Nowhere
check "unknown feet are refused to show, too" refused "Nowhere" show --feet Nowhere
unrendered "an unknown turnaround is refused" "Nowhere" --turnaround Nowhere
unrendered "a tempo in words is refused" "--tempo fast" --tempo fast
unrendered "a tempo out of range is refused" "20 to 400" --tempo 401
unrendered "a tempo that is no number is refused" "--tempo nan" --tempo nan
unrendered "no bars are refused" "--bars 0" --bars 0
unrendered "half a bar is refused" "--bars 1.5" --bars 1.5
unrendered "a meter of thirds is refused" "--meter 4/3" --meter 4/3
unrendered "an unknown control is refused" "volume" --set volume=1
unrendered "a control to press is refused" "fill_every" --set fill_now=1
unrendered "a control out of range is refused" "1 to 16" --set channel=17
unrendered "a control without a value is refused" "symbol=number" --set channel
check "a tempo to look for that can't be is refused" refused "20 to 400" list feet gallop at 18
check "a limit to look for that can't be is refused" refused "1 to 40" list feet under 99
check "a limit without a number is refused" refused "after under" list feet gallop under
check "a grid that is none is refused" refused "quintuplets" list feet --grid nonsense
check "words behind controls are refused" refused "nothing after" list controls gallop
check "help after a command is help" help_after_a_command_is_help
check "a groove set as a control is refused or told of" a_groove_set_as_a_control_is_refused_or_told_of
tally
