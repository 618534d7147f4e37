#!/bin/sh
# SPDX-License-Identifier: ISC
# audition.sh BUILD - twenty candidates of feet under the same hands, in 7/8 at 180, no foot faster
# than six strokes a second: found, looked at, three of them rendered, as README's "An audition"
# says.  What files hold is read by mido, keys by the General MIDI percussion map.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
export XDG_DATA_HOME="$work/data"
hands="--groove 140 --tempo 180"

# candidates: ids as the list has them, the best first.
candidates() {
	"$fourlimb" list feet in 7/8 under 7 at 180 on sixteenths | sed -nE 's/^ +([0-9]+)  .{34}  [1-5] .*/\1/p' | head -n 20
}

twenty_candidates_are_found() {
	candidates >ids.txt
	same "$(sort -u ids.txt | wc -l)" 20
}

# hands_of ARGUMENT...: the hands' lines of every bar; of "as bar 3" those of bar 3.
hands_of() {
	# shellcheck disable=SC2086
	"$fourlimb" show $hands --turnaround none "$@" |
		awk '/^bar / { bar = $2 + 0; if (/as bar/) text[bar] = text[$NF + 0]; next } /hand, / { text[bar] = text[bar] $0 "\n" }
			END { for (i = 1; i <= bar; i++) printf "bar %d\n%s", i, text[i] }'
}

the_hands_are_the_same_under_each() {
	hands_of >want.txt
	grep -q 'left hand, snare' want.txt || return
	while read -r id; do
		hands_of --feet "$id" | diff want.txt - || return
	done <ids.txt
}

a_person_can_play_each_for_four_minutes() {
	while read -r id; do
		# shellcheck disable=SC2086
		run check $hands --turnaround none --feet "$id" --minutes 4
		same "$id: $status" "$id: 0" || return
	done <ids.txt
}

# The fourth, the eleventh and the last: on the grid the files differ in feet alone.
three_are_rendered_with_the_same_hands_within_the_limit() {
	sed -n '4p;11p;20p' ids.txt >three.txt
	while read -r id; do
		# shellcheck disable=SC2086
		"$fourlimb" render $hands --turnaround none --feet "$id" --bars 8 --set split_feet=1 \
			--set looseness=0 --set touch=0 --set liberty=0 --out "$id.mid" >out.txt || return
		"$python" "$here/check_audition.py" "$id.mid" 6 >"$id.hands" || return
		[ -s "$id.hands" ] || return
	done <three.txt
	first=$(head -n 1 three.txt)
	for hand in *.hands; do
		cmp "$first.hands" "$hand" || return
	done
	same "$(cksum ./*.mid | cut -d' ' -f1 | sort -u | wc -l)" 3
}

# As many again of one figure, plainer and fuller.
one_of_them_has_twenty_variations_within_the_limit() {
	# shellcheck disable=SC2086
	run vary $hands --feet gallop --limit 6
	same "$status" 0 || return
	shown=$(echo "$out" | sed '/^more than/,$d' | grep -cE '^ *[0-9]+  ')
	[ "$shown" -ge 20 ] || same "$shown variations" "20 and more"
}

# Of those three are rendered, too, by name.
variations_are_rendered_with_the_same_hands() {
	for name in "as reverse gallops" "half and answer" "in threes over the bar"; do
		# shellcheck disable=SC2086
		"$fourlimb" render $hands --turnaround none --feet gallop --variation "$name" --bars 8 --set split_feet=1 \
			--set looseness=0 --set touch=0 --set liberty=0 --out "$name.mid" >out.txt &&
			"$python" "$here/check_audition.py" "$name.mid" 6 >"$name.hands" && cmp "$(head -n 1 three.txt).hands" "$name.hands" || return
	done
	same "$(cksum ./*.mid | cut -d' ' -f1 | sort -u | wc -l)" 6
}

# By its name, which says the variation once.
one_is_handed_over_as_a_folder() {
	mkdir -p handed
	# shellcheck disable=SC2086
	run keep $hands --feet gallop --variation "half and answer" --out handed
	same "$status $(ls handed)" "0 Winter Timetable with Gallop, half and answer" && [ -n "$(find handed -name '*.mid')" ] &&
		[ -n "$(find handed -name '*.ttl')" ]
}

need "$fourlimb" "$python"
check "twenty candidates are found" twenty_candidates_are_found
check "the hands are the same under each" the_hands_are_the_same_under_each
check "a person can play each for four minutes" a_person_can_play_each_for_four_minutes
check "three are rendered with the same hands, within the limit" three_are_rendered_with_the_same_hands_within_the_limit
check "one of them has twenty variations within the limit" one_of_them_has_twenty_variations_within_the_limit
check "variations are rendered with the same hands" variations_are_rendered_with_the_same_hands
check "one is handed over as a folder" one_is_handed_over_as_a_folder
tally
