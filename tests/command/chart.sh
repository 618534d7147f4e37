#!/bin/sh
# SPDX-License-Identifier: ISC
# chart.sh BUILD - charts as files: each kind is what its name says, the words are in it,
# one that is there stays.  Signatures: PNG (W3C), PDF (ISO 32000), SVG (W3C); MusicXML 4.0
# (W3C Music Notation Community Group), of which tests/notation has the whole bank.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

a_png_is_two_pixels_a_point_of_a4() {
	run chart --groove "The Switchman" --out a.png
	same "$status" 0 || return
	same "$(head -c 8 a.png | od -An -tx1 | tr -d ' \n')" 89504e470d0a1a0a || return
	same "$(od -An -tu1 -j16 -N8 a.png | xargs)" "0 0 4 166 0 0 6 148" # 1190 by 1684
}

a_pdf_has_as_many_pages_as_its_rows_need() {
	run chart --groove 1 --out a.pdf
	same "$(head -c 5 a.pdf)" "%PDF-" || return
	has "$out" "8 bars on 1 page" || return
	run chart --groove "Salt Funicular" --out b.pdf
	has "$out" "on 3 pages"
}

a_chart_names_what_its_letters_play_and_what_feet_have_to_do() {
	run chart --groove "Winter Timetable" --out names.pdf
	words=$(pdftotext -layout names.pdf -)
	has "$words" "A: hands Seven, 2+2+3; feet Seven kick, 2+2+3" || return
	has "$words" "fill: Seven: down the toms" || return
	has "$words" "right foot 5, closest 208 ms apart" # 144 a minute: an eighth is 60 / 288 s
}

an_svg_is_well_formed() {
	run chart --groove 140 --out a.svg && "$python" -c 'import sys, xml.dom.minidom as m
root = m.parse(sys.argv[1]).documentElement
sys.exit(root.tagName != "svg")' a.svg
}

a_chart_that_is_there_stays() {
	echo mine >mine.pdf
	run chart --groove 1 --out mine.pdf
	same "$status" 2 && has "$err" "--force" && same "$(cat mine.pdf)" mine
}

another_kind_of_file_is_refused() {
	run chart --groove 1 --out a.gif
	same "$status" 1 && has "$err" ".pdf" && [ ! -e a.gif ]
}

# Two ratios differ in the words for them, not in where strokes stand: 36 lines did.
a_shuffle_is_drawn_as_it_is_written() {
	run chart --groove "Reading Room" --set swing_ratio=2.25 --out less.svg
	run chart --groove "Reading Room" --set swing_ratio=2.75 --out more.svg
	differ=$(diff less.svg more.svg | grep -c '^<')
	[ "$differ" -ge 1 ] && [ "$differ" -le 8 ] || { echo "$differ lines differ"; return 1; }
}

# Two columns a beat.
a_shuffle_is_shown_as_it_is_written() {
	run show --groove "Reading Room" --set turnaround=-1 --set swing_ratio=2.75
	has "$out" "at 132, Swing eighths, 2.75 to 1" || return
	same "$(printf '%s\n' "$out" | sed -n 's/^  right hand, ride  *//p' | head -n 1)" "o. Oo o. Oo"
}

# of FILE PATH...: the text of each element, by python's own reader.
of() {
	"$python" -c 'import sys, xml.etree.ElementTree as e
root = e.parse(sys.argv[1]).getroot()
print(" ".join(root.find(path).text for path in sys.argv[2:]))' "$@"
}

notation_says_a_shuffle_in_its_sound_and_in_words() {
	run chart --groove "Reading Room" --notation a.musicxml
	same "$status" 0 && has "$out" "a.musicxml: 8 bars" || return
	first=part/measure/direction
	same "$(of a.musicxml $first/sound/swing/first $first/sound/swing/second $first/sound/swing/swing-type)" "2 1 eighth" || return
	same "$(of a.musicxml "$first/direction-type/words")" "Swing eighths, 2 to 1"
}

# Three eighths a beat: 105 quarters a minute are 70 beats.
notation_tells_a_tempo_in_the_beats_of_its_meter() {
	run chart --groove "Grey Water" --tempo 105 --notation b.musicxml
	beat=part/measure/direction/direction-type/metronome
	same "$(of b.musicxml $beat/beat-unit $beat/per-minute)" "quarter 70" && grep -q '<beat-unit-dot/>' b.musicxml || return
	grep -q '<sound tempo="105">' b.musicxml
}

notation_names_the_groove_and_its_fill() {
	run chart --groove "Reading Room" --title 'A <b> & "c"' --notation c.musicxml
	same "$(of c.musicxml work/work-title)" 'A <b> & "c"' || return
	has "$(grep '<words>fill' c.musicxml)" "fill, 1 beat: "
}

a_left_handed_notation_has_the_same_places() {
	run chart --groove "Lower Station" --notation right.musicxml
	run chart --groove "Lower Station" --left-handed --notation left.musicxml
	! cmp -s right.musicxml left.musicxml || return
	places='s/.*<display-step>\(.*\)<.*/\1/p'
	same "$(sed -n "$places" left.musicxml | sort | uniq -c)" "$(sed -n "$places" right.musicxml | sort | uniq -c)"
}

notation_beside_a_chart_is_two_files() {
	run chart --groove 1 --out d.pdf --notation d.musicxml
	same "$status" 0 && [ -s d.pdf ] && [ -s d.musicxml ]
}

# LilyPond's manual, "Percussion staves": names of drums; "Writing grace notes".  That it plays
# and takes them is for make crosscheck.
a_sheet_for_lilypond_names_drums_as_its_manual_does() {
	run chart --groove "Keeper's Lantern" --notation a.ly
	same "$status" 0 && has "$out" "a.ly: 4 bars" || return
	for word in '\\drummode' '\\time 4/4' '\\tempo  4 = 92' '\\parenthesize snare' '\\repeat volta 3' closedhihat bassdrum; do
		grep -q "$word" a.ly || { echo "no $word"; return 1; }
	done
}

a_dotted_beat_is_told_to_lilypond() {
	run chart --groove "Grey Water" --tempo 105 --notation b.ly
	grep -q '\\tempo  4\. = 70' b.ly
}

words_of_people_stay_words_in_lilypond() {
	run chart --groove 1 --title 'a "b" \c #(exit)' --notation words.ly
	grep -qF 'title = "a \"b\" \\c #(exit)"' words.ly
}

without_lilypond_a_pdf_says_what_to_do() {
	mkdir -p work
	PATH=/nowhere TMPDIR=$PWD/work "$fourlimb" chart --groove 1 --notation none.pdf >out.txt 2>err.txt
	status=$? err=$(cat err.txt)
	same "$status" 2 && has "$err" "lilypond isn't installed" && [ ! -e none.pdf ] && [ -z "$(ls work)" ]
}

another_kind_of_notation_is_refused() {
	run chart --groove 1 --notation a.mid
	same "$status" 1 && has "$err" ".musicxml" && [ ! -e a.mid ]
}

notation_that_is_there_stays() {
	echo mine >mine.musicxml
	run chart --groove 1 --notation mine.musicxml
	same "$status" 2 && has "$err" "--force" && same "$(cat mine.musicxml)" mine
}

check "a PNG is two pixels a point of A4" a_png_is_two_pixels_a_point_of_a4
check "a PDF has as many pages as its rows need" a_pdf_has_as_many_pages_as_its_rows_need
check "a chart names what its letters play and what feet have to do" a_chart_names_what_its_letters_play_and_what_feet_have_to_do
check "an SVG is well-formed" an_svg_is_well_formed
check "a chart that is there stays" a_chart_that_is_there_stays
check "another kind of file is refused" another_kind_of_file_is_refused
check "a shuffle is shown as it is written" a_shuffle_is_shown_as_it_is_written
check "a shuffle is drawn as it is written" a_shuffle_is_drawn_as_it_is_written
check "notation says a shuffle in its sound and in words" notation_says_a_shuffle_in_its_sound_and_in_words
check "notation tells a tempo in the beats of its meter" notation_tells_a_tempo_in_the_beats_of_its_meter
check "notation names the groove and its fill" notation_names_the_groove_and_its_fill
check "a left-handed notation has the same places" a_left_handed_notation_has_the_same_places
check "notation beside a chart is two files" notation_beside_a_chart_is_two_files
check "a sheet for LilyPond names drums as its manual does" a_sheet_for_lilypond_names_drums_as_its_manual_does
check "a dotted beat is told to LilyPond" a_dotted_beat_is_told_to_lilypond
check "words of people's stay words in LilyPond" words_of_people_stay_words_in_lilypond
check "without LilyPond a PDF says what to do" without_lilypond_a_pdf_says_what_to_do
check "another kind of notation is refused" another_kind_of_notation_is_refused
check "notation that is there stays" notation_that_is_there_stays
tally
