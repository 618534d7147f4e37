#!/bin/sh
# SPDX-License-Identifier: ISC
# pictures.sh BUILD - what "make feel" makes: the promised files, and in feel.txt, which has
# the figures that are drawn, what check_pictures.py finds in the MIDI files by mido and in
# tests/data/drummers.tsv (Groove MIDI Dataset).
here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
need midicsv convert
sh "$here/draw.sh" "$build" demo || exit 1

agree() {
	"$python" "$here/check_pictures.py" "$here/../data/drummers.tsv" demo "$1"
}

# The inks of three takes' marks and of the drummers' bands.
is_drawn() {
	convert "demo/feel-$1.png" -unique-colors txt: >colours || return
	for ink in $2; do
		grep -q "#$ink" colours || { echo "$1: nothing is drawn in #$ink"; return 1; }
	done
}

check "the spread of eight bars is the MIDI file's" agree spread
check "the habits of the places are the MIDI files'" agree habit
check "the loudness of the places is the MIDI files'" agree contour
check "the likeness of bars at three liberties is the MIDI files'" agree likeness
check "the eight bars as text are the MIDI files'" agree bars
check "every statistic says whether it is in the table's band" agree statistics
check "offsets are drawn with the band of their spread" is_drawn offsets "1A1A1A CCDCCC CC5A00"
check "three takes' habits are drawn on the bands" is_drawn habits "1A1A1A CCDCCC 005AB4 CC5A00"
check "three takes' loudness is drawn on the bands" is_drawn contour "1A1A1A CCDCCC 005AB4 CC5A00"
check "three liberties are drawn on the bands" is_drawn liberty "1A1A1A CCDCCC 005AB4 CC5A00"
tally
