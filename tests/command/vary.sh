#!/bin/sh
# SPDX-License-Identifier: ISC
# vary.sh BUILD - `fourlimb vary` as a drummer reads it: each variation once, offered or with the
# reason; strokes and stickings from common practice (no source), rates by counting, limits as published.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
export XDG_DATA_HOME="$work/data"

# vary ARGUMENT...: what it says stands in varied.txt.
vary() {
	"$fourlimb" vary "$@" >varied.txt 2>err.txt || { cat err.txt; return 1; }
}

# row NAME: what is said of a variation, up to the next.
row() {
	awk -v name="$1" '/^[ 0-9][0-9] / { within = index($0, " " name ":") } /^not offered/ { within = 0 } within' varied.txt
}

# foot SIDE NAME: its steps in the row, first bar.
foot() {
	row "$2" | sed -n "s/^  $1 foot, kick  *//p" | head -n 1
}

each_variation_is_told_once_offered_or_with_a_reason() {
	for feet in sixteenths gallop herta one-and-three; do
		vary --groove 1 --feet "$feet" || return
		sed -nE 's/^ ?([0-9]+) .*/\1/p' varied.txt | grep -v '^0$' | sort -n | uniq >told.txt
		seq 41 | diff - told.txt || { echo "of $feet"; return 1; }
		same "$(sed -n 's/^\([0-9]*\) variations of 41.*/\1/p' varied.txt)" \
			"$(sed '/^not offered/q' varied.txt | grep -c '^ *[1-9][0-9]* .*: right foot')" || return
	done
}

eighteen_are_offered_for_sixteenths_a_gallop_and_a_herta() {
	for feet in sixteenths gallop herta; do
		vary --groove 1 --feet "$feet" || return
		offered=$(sed -n 's/^\([0-9]*\) variations of.*/\1/p' varied.txt)
		[ "$offered" -ge 18 ] || same "$offered of $feet" "18 and more" || return
	done
}

a_row_shows_what_a_drummer_would_play() {
	vary --groove 1 --feet sixteenths --meter 4/4 || return
	same "$(foot right "as gallops") / $(foot left "as gallops")" "o.o. o.o. o.o. o.o. / ...o ...o ...o ...o" &&
		same "$(foot right "as reverse gallops")" "o.o. o.o. o.o. o.o." &&
		same "$(foot left "as reverse gallops")" ".o.. .o.. .o.. .o.." &&
		same "$(foot right "in threes over the bar")" "O..O ..O. .O.. O..O"
}

# One foot in sixteenths at 120 has 8 strokes in a second.
rates_are_strokes_in_a_second() {
	vary --groove 1 --feet sixteenths --tempo 120 || return
	has "$(row "one foot alone")" "right foot 8 a second, left foot 0;" &&
		has "$(row "as gallops")" "right foot 4 a second, left foot 2;"
}

# 1034 strokes of two feet in a minute, 517 of each (press, 2007; play_limits.c): sixteenths of
# one foot at 129.25.
what_is_beyond_the_record_is_marked() {
	vary --groove 1 --feet sixteenths --tempo 129 --minutes 1 || return
	has "$(row "one foot alone")" "left foot 0; playable" || return
	vary --groove 1 --feet sixteenths --tempo 140 --minutes 1 || return
	has "$(row "one foot alone")" "beyond a person: too fast" && same "$(row "one foot alone" | grep -c playable)" 0
}

a_second_bar_is_shown_where_it_differs() {
	vary --groove 1 --feet sixteenths || return
	has "$(row "a bar on, a bar off")" "second bar: rests" &&
		has "$(row "in fives over the bar")" "after 5 bars it comes round"
}

# Two deep: a gallop turned round is the reverse gallop, and half a beat later it is the gallop
# again (common practice, no source).
a_variation_can_be_varied_further() {
	vary --groove 1 --feet gallop --variation "As Reverse Gallops" || return
	same "$(foot left "as chosen")" ".o.. .o.. .o.. .o.." && same "$(foot left "as gallops")" "...o ...o ...o ...o" || return
	mv varied.txt named.txt
	vary --groove 1 --feet gallop --variation 14 || return
	diff named.txt varied.txt && has "$(head -n 1 varied.txt)" ", as reverse gallops, 4/4" || return
	run vary --groove 1 --feet sixteenths --variation "filled in"
	same "$status" 1 && has "$err" "runs of singles have no gaps" || return
	run vary --groove 1 --variation upside-down
	same "$status" 1 && has "$err" "there is no such variation"
}

need "$fourlimb"
check "each variation is told once, offered or with a reason" each_variation_is_told_once_offered_or_with_a_reason
check "eighteen are offered for sixteenths, a gallop and a herta" eighteen_are_offered_for_sixteenths_a_gallop_and_a_herta
check "a row shows what a drummer would play" a_row_shows_what_a_drummer_would_play
check "rates are strokes in a second" rates_are_strokes_in_a_second
check "what is beyond the record is marked" what_is_beyond_the_record_is_marked
check "a second bar is shown where it differs" a_second_bar_is_shown_where_it_differs
check "a variation can be varied further" a_variation_can_be_varied_further
tally
