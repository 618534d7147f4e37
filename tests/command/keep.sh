#!/bin/sh
# SPDX-License-Identifier: ISC
# keep.sh BUILD - a folder for a bandmate: what lies in it, put where one's own entries lie, is
# listed and plays the same strokes; its MIDI, read by midicsv, is what a render of the same plays;
# nothing that is there is written over.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
export XDG_DATA_HOME="$work/none"
mkdir -p given bandmate/fourlimb

# strokes ARGUMENT...: of `show`, without what names them.
strokes() {
	"$fourlimb" show "$@" >shown.txt 2>err.txt || { cat err.txt; return 1; }
	sed 1d shown.txt | grep '^[ b]'
}

# Selections, an option list a line.
cat >selections.txt <<'END'
--groove "Fog Bell"
--groove "Fog Bell" --feet gallop
--groove "Brine Stair" --feet gallop --set feet_shift=1 --set feet_cycle=5
--groove "Left Luggage" --set phrase_bars=6 --turnaround none
--groove "Fog Bell" --ride-on china --set crash=1
--groove "Brine Stair" --feet herta --set feet_grid=3 --set lead_foot=1
--groove 3 --feet sixteenths --meter 7/8 --tempo 180
--groove "Brine Stair" --feet gallop --set variation=9 --set feet_shift=2
--groove "Fog Bell" --feet sixteenths --set variation=1 --set variation_then=14
--groove "Left Luggage" --hands quarter-hats --set hands_shift=-1 --set swing_ratio=1.6 --set swing_grid=1
END

# each FUNCTION: with each selection's options.
each() {
	while read -r line; do
		rm -rf given bandmate && mkdir -p given bandmate/fourlimb
		eval "set -- $line"
		"$fourlimb" keep "$@" --title "Left Shoe" --out given >kept.txt 2>err.txt || { cat err.txt; return 1; }
		"$function" "$@" || { echo "of $line"; return 1; }
	done <selections.txt
}

folder_has_four_files() {
	same "$(ls "given/Left Shoe" | tr '\n' ,)" "Left Shoe.mid,Left Shoe.pdf,Left Shoe.ttl,Left Shoe.txt," &&
		same "$(head -c 5 "given/Left Shoe/Left Shoe.pdf")" "%PDF-" &&
		same "$(wc -l <"given/Left Shoe/Left Shoe.txt")" 1 && has "$(cat "given/Left Shoe/Left Shoe.txt")" "Left Shoe: "
}

a_folder_has_turtle_midi_a_chart_and_a_line() {
	function=folder_has_four_files each
}

plays_the_same_for_a_bandmate() {
	strokes "$@" >want.txt || return
	cp "given/Left Shoe/Left Shoe.ttl" bandmate/fourlimb/
	has "$(XDG_DATA_HOME=$work/bandmate "$fourlimb" list grooves Shoe)" "Left Shoe" || return
	XDG_DATA_HOME=$work/bandmate strokes --groove "Left Shoe" >got.txt || return
	[ -s want.txt ] && diff got.txt want.txt
}

what_is_dropped_in_is_listed_and_plays_the_same_strokes() {
	function=plays_the_same_for_a_bandmate each
}

finds_nothing_wrong() {
	"$fourlimb" check "given/Left Shoe/Left Shoe.ttl" >checked.txt 2>&1 || { cat checked.txt; return 1; }
}

what_is_dropped_in_has_nothing_wrong() {
	function=finds_nothing_wrong each
}

# notes FILE: tick, what, key and velocity, one track.
notes() {
	midicsv "$1" | grep -E ', Note_(on|off)_c,' | cut -d, -f2,3,5,6 | sort -n
}

has_the_midi_of_a_render() {
	bars=$(sed -nE 's/.* ([0-9]+) bars?; .*/\1/p' "given/Left Shoe/Left Shoe.txt")
	"$fourlimb" render "$@" --bars "$bars" --out rendered.mid --force >out.txt 2>err.txt || { cat err.txt; return 1; }
	notes rendered.mid >want.txt
	notes "given/Left Shoe/Left Shoe.mid" >got.txt
	[ -s want.txt ] && diff got.txt want.txt | head -n 5 && cmp got.txt want.txt
}

the_midi_is_that_of_a_render() {
	function=has_the_midi_of_a_render each
}

# A gallop's first three steps (right, rest, left) again and again, over the bar line: the right foot
# each third sixteenth, an accent as each of them is.
a_variation_is_in_it() {
	rm -rf given bandmate && mkdir -p given bandmate/fourlimb
	"$fourlimb" keep --groove "Fog Bell" --feet gallop --set variation=9 --title Threes --out given >kept.txt || return
	cp given/Threes/Threes.ttl bandmate/fourlimb/
	XDG_DATA_HOME=$work/bandmate "$fourlimb" show --groove Threes >shown.txt || return
	same "$(sed -n '/^bar 1,/,/^bar 2,/s/.*right foot, kick *//p' shown.txt | head -n 1)" "O..O ..O. .O.. O..O"
}

nothing_is_written_over() {
	rm -rf given && mkdir given
	"$fourlimb" keep --groove 3 --title "One Shoe" --out given >kept.txt && find given -type f -exec cksum {} + >before.txt &&
		"$fourlimb" keep --groove 2 --title "One Shoe" --out given >kept.txt || return
	has "$(cat kept.txt)" "One Shoe 2" && has "$(cat "given/One Shoe 2/One Shoe.txt")" "One Shoe: " || return
	find "given/One Shoe" -type f -exec cksum {} + | diff - before.txt
}

a_name_that_is_no_files_makes_one_all_the_same() {
	rm -rf given && mkdir given
	"$fourlimb" keep --groove 3 --title "../a/b" --out given >kept.txt && same "$(ls given)" "-.-a-b" &&
		same "$(ls "given/-.-a-b" | wc -l)" 4
}

where_nothing_can_be_made_nothing_is_left() {
	"$fourlimb" keep --groove 3 --title Shoe --out no/such/folder >out.txt 2>err.txt
	same "$?" 2 && has "$(cat err.txt)" "can't be made" && [ ! -e no ]
}

# Of an entry of one's own that somebody has under the same id the other one's is told.
an_id_that_is_there_is_told() {
	rm -rf given bandmate && mkdir -p given bandmate/fourlimb
	"$fourlimb" keep --groove "Fog Bell" --feet gallop --set feet_shift=1 --title Shoe --out given >kept.txt || return
	cp given/Shoe/Shoe.ttl bandmate/fourlimb/one.ttl
	sed 's/Shoe/Sandal/' given/Shoe/Shoe.ttl >bandmate/fourlimb/two.ttl
	XDG_DATA_HOME=$work/bandmate "$fourlimb" check >checked.txt 2>&1
	has "$(cat checked.txt)" "already"
}

check "a folder has turtle midi a chart and a line" a_folder_has_turtle_midi_a_chart_and_a_line
check "what is dropped in is listed and plays the same strokes" what_is_dropped_in_is_listed_and_plays_the_same_strokes
check "what is dropped in has nothing wrong" what_is_dropped_in_has_nothing_wrong
check "the midi is that of a render" the_midi_is_that_of_a_render
check "a variation is in it" a_variation_is_in_it
check "nothing is written over" nothing_is_written_over
check "a name that is no files makes one all the same" a_name_that_is_no_files_makes_one_all_the_same
check "where nothing can be made nothing is left" where_nothing_can_be_made_nothing_is_left
check "an id that is there is told" an_id_that_is_there_is_told
tally
