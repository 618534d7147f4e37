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
	awk -v name="$1" '/^ *[0-9]+  / { said = substr($0, 6, 28); sub(/ *$/, "", said); within = said == name }
		/^(not offered|more than)/ { within = 0 } within' varied.txt
}

# bars NAME: its sticking.
bars() {
	row "$1" | sed -n 's/^  *\(|.*|\).*/\1/p' | head -n 1
}

# rates NAME: right and left, strokes a second.
rates() {
	row "$1" | sed -nE '1s/^.{33} +([0-9]+) +([0-9]+)  .*/\1 \2/p'
}

# offered: numbers of the rows.
offered() {
	sed '/^not offered/q; /^more than/q' varied.txt | sed -nE 's/^ *([0-9]+)  .*/\1/p'
}

each_variation_is_told_once_offered_or_with_a_reason() {
	for feet in sixteenths gallop herta one-and-three; do
		vary --groove 1 --feet "$feet" || return
		sed -nE 's/^ *([0-9]+)  .*/\1/p' varied.txt | grep -v '^0$' | sort -n >told.txt
		seq 41 | diff - told.txt || { echo "of $feet"; return 1; }
		same "$(sed -n 's/^\([0-9]*\) variations of 41.*/\1/p' varied.txt)" "$(offered | grep -vc '^0$')" || return
	done
}

eighteen_are_offered_for_sixteenths_a_gallop_and_a_herta() {
	for feet in sixteenths gallop herta; do
		vary --groove 1 --feet "$feet" || return
		offered=$(sed -n 's/^\([0-9]*\) variations of.*/\1/p' varied.txt)
		[ "$offered" -ge 18 ] || same "$offered of $feet" "18 and more" || return
	done
}

# played NUMBER: the sticking of bar 1 as show has it, under a variation.
played() {
	"$fourlimb" show --groove 1 --feet sixteenths --set variation="$1" >played.txt || return
	awk '/^bar 2/ { exit } /right foot, kick/ { right = substr($0, 31) } /left foot, kick/ { left = substr($0, 31) }
		END {
			for (i = 1; i <= length(right) || i <= length(left); ++i) {
				r = substr(right, i, 1); l = substr(left, i, 1)
				printf "%s", r ~ /[oO]/ ? (r == "o" ? "r" : "R") : l ~ /[oO]/ ? (l == "o" ? "l" : "L") : r == "" ? l : r
			}
		}' played.txt
}

a_row_is_what_show_has_under_its_name() {
	vary --groove 1 --feet sixteenths --meter 4/4 || return
	for row in "1 thinned" "9 in threes over the bar" "13 as gallops" "14 as reverse gallops" "25 half a bar on, half off" \
		"32 in doubles" "34 accents in threes"; do
		want=$(bars "${row#* }" | cut -d'|' -f2)
		[ -n "$want" ] || same "nothing" "a bar of ${row#* }" || return
		same "$(played "${row%% *}")" "$want" || return
		grep -q "Sixteenths, ${row#* }:" played.txt || same "$(head -n 1 played.txt)" "a title with ${row#* }" || return
	done
}

a_row_shows_what_a_drummer_would_play() {
	vary --groove 1 --feet sixteenths --meter 4/4 || return
	same "$(bars "as gallops")" "|r.rl r.rl r.rl r.rl|" && same "$(bars "as reverse gallops")" "|rlr. rlr. rlr. rlr.|" &&
		same "$(bars "in threes over the bar" | cut -d'|' -f2)" "Rl.R l.Rl .Rl. Rl.R" || return
	vary --groove 1 --feet sixteenths --meter 7/8 || return
	same "$(bars "as chosen")" "|rl rl rl rl rl rl rl|"
}

# A beat of sextuplets has six letters, one of sixteenths four, as both last as long.
each_beat_has_as_many_letters_as_steps() {
	vary --groove 1 --feet gallop --meter 4/4 || return
	same "$(bars "last beat in sextuplets")" "|r.rl r.rl r.rl rlrlrl|" &&
		same "$(bars "as triplets")" "|r.l r.l r.l r.l|" && same "$(bars "thinned")" "|rr rr rr rr|"
}

# Accents, ghosts, a foot on the hat: as the presets have them, letter for letter.
levels_and_the_hat_foot_are_told() {
	vary --groove 1 --feet 45 || return
	same "$(bars "as chosen")" "|Rl rL rl Rl|" || return
	vary --groove 70 || return
	row "as chosen" | grep -q '^ *|.*x.*| hat foot$' || { row "as chosen"; return 1; }
}

# Singles that are moved, or led by the other foot, are one thing with three names.
a_row_tells_its_other_names() {
	vary --groove 1 --feet sixteenths || return
	has "$(row "a step earlier")" "the same as 4, a step later; 5, other foot leads" &&
		same "$(row "as gallops" | grep -c "the same")" 0
}

# One foot in sixteenths at 120 has 8 strokes in a second.
rates_are_strokes_in_a_second() {
	vary --groove 1 --feet sixteenths --tempo 120 || return
	same "$(rates "one foot alone")" "8 0" && same "$(rates "as gallops")" "4 2"
}

# 1034 strokes of two feet in a minute, 517 of each (press, 2007; play_limits.c): sixteenths of
# one foot at 129.25.
what_is_beyond_the_record_is_marked() {
	vary --groove 1 --feet sixteenths --tempo 129 --minutes 1 || return
	has "$(row "one foot alone" | head -n 1)" "  playable" || return
	vary --groove 1 --feet sixteenths --tempo 140 --minutes 1 || return
	has "$(row "one foot alone" | head -n 1)" "  too fast" && same "$(row "one foot alone" | grep -c playable)" 0
}

# What has more is named and not shown; all that is shown has no more.
a_limit_keeps_out_what_is_faster() {
	vary --groove 1 --feet sixteenths --tempo 180 && offered | sort -n >all.txt || return
	vary --groove 1 --feet sixteenths --tempo 180 --limit 6 || return
	for number in $(offered); do
		awk -v number="$number" 'NR > 4 && $1 == number { rates = substr($0, 34); split(rates, rate, " "); if (rate[1] > 6 || rate[2] > 6) exit 1; exit 0 }' \
			varied.txt || { echo "$number has more"; return 1; }
	done
	sed -n '/^more than 6 a second/,/^not offered/p' varied.txt | sed -nE 's/^ *([0-9]+)  .*/\1/p' >beyond.txt
	{ offered; cat beyond.txt; } | sort -n | diff all.txt - && has "$(xargs <beyond.txt)" "6" &&
		has "$(sed -n '/^more/,$p' varied.txt)" "one foot alone"
}

a_second_bar_is_shown_where_it_differs() {
	vary --groove 1 --feet sixteenths || return
	same "$(bars "a bar on, a bar off")" "|rlrl rlrl rlrl rlrl|.... .... .... ....|" &&
		has "$(row "in fives over the bar")" "comes round after 5 bars"
}

# Two deep: a gallop turned round is the reverse gallop, and half a beat later it is the gallop
# again (common practice, no source).
a_variation_can_be_varied_further() {
	vary --groove 1 --feet gallop --variation "As Reverse Gallops" || return
	same "$(bars "as chosen")" "|rlr. rlr. rlr. rlr.|" && same "$(bars "as gallops")" "|r.rl r.rl r.rl r.rl|" || return
	mv varied.txt named.txt
	vary --groove 1 --feet gallop --variation 14 || return
	diff named.txt varied.txt && has "$(head -n 1 varied.txt)" ", as reverse gallops, 4/4" || return
	run vary --groove 1 --feet sixteenths --variation "filled in"
	same "$status" 1 && has "$err" "runs of singles have no gaps" || return
	run vary --groove 1 --variation upside-down
	same "$status" 1 && has "$err" "there is no such variation"
}

# Every row, by its name: what is told is what plays.
what_is_told_is_what_plays() {
	for feet in gallop herta; do
		vary --groove 3 --feet "$feet" || return
		for number in $(offered); do
			name=$(sed -nE "5,\$s/^ *$number  (.{28}).*/\1/p" varied.txt | sed 's/ *$//')
			"$fourlimb" show --groove 3 --feet "$feet" --variation "$name" >shown.txt || return
			"$python" "$here/check_vary.py" varied.txt shown.txt "$number" || { echo "of $feet"; return 1; }
		done
	done
}

a_variation_that_is_not_heard_is_told() {
	run show --groove "Lower Station" --feet gallop --variation "as gallops"
	same "$status" 0 && has "$err" "\"as gallops\" isn't heard here: the same as chosen" || return
	run show --groove "Lower Station" --feet gallop --variation thinned --variation "one foot alone"
	has "$err" "\"one foot alone\" isn't heard here" || return
	run show --groove "Lower Station" --feet gallop --variation thinned
	same "$err" ""
}

need "$fourlimb" "$python"
check "each variation is told once, offered or with a reason" each_variation_is_told_once_offered_or_with_a_reason
check "eighteen are offered for sixteenths, a gallop and a herta" eighteen_are_offered_for_sixteenths_a_gallop_and_a_herta
check "a row shows what a drummer would play" a_row_shows_what_a_drummer_would_play
check "each beat has as many letters as steps" each_beat_has_as_many_letters_as_steps
check "levels and the hat foot are told" levels_and_the_hat_foot_are_told
check "a row tells its other names" a_row_tells_its_other_names
check "a row is what show has under its name" a_row_is_what_show_has_under_its_name
check "a variation that isn't heard is told" a_variation_that_is_not_heard_is_told
check "a limit keeps out what is faster" a_limit_keeps_out_what_is_faster
check "rates are strokes in a second" rates_are_strokes_in_a_second
check "what is beyond the record is marked" what_is_beyond_the_record_is_marked
check "a second bar is shown where it differs" a_second_bar_is_shown_where_it_differs
check "what is told is what plays" what_is_told_is_what_plays
check "a variation can be varied further" a_variation_can_be_varied_further
tally
