#!/bin/sh
# SPDX-License-Identifier: ISC
# song.sh BUILD - songs from plans, as people type it: a plan that is begun is a plan that can be
# played; a file's markers, meters and tempi are where arithmetic has them, as two other programs
# read them; what can't be played is told.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
demo=$here/../../presets/songs/last-car-to-ostrel.ttl

cat >plan.ttl <<'END'
@prefix : <#> .
@prefix fl: <urn:fourlimb:terms#> .
@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .
:song a fl:Song ; rdfs:label "Try" ; fl:tempo 140 ; fl:sections ( :p :v :t :c :e ) .
:p rdfs:label "Pickup" ; fl:beats 2 ; fl:groove "Lower Station" ; fl:ending "fill 2" .
:v rdfs:label "Verse" ; fl:bars 8 ; fl:groove "Winter Timetable" ; fl:meter "7/8 7/8 7/8 8/8" .
:t rdfs:label "Turn" ; fl:bars 1 ; fl:groove "Lower Station" ; fl:meter "2/4" .
:c rdfs:label "Chorus" ; fl:bars 8 ; fl:groove "Fog Bell" ; fl:tempoTo 152 ; fl:levelTo 90 .
:e rdfs:label "End" ; fl:bars 2 ; fl:groove "Fog Bell" ; fl:ritardando 8 ; fl:ritardandoTo 76 .
END

a_files_map_is_as_counted() {
	run song plan.ttl --out plan.mid
	same "$status $err" "0 " && "$python" "$here/check_song.py" plan.mid
}

# By midicsv: as many seconds, and the markers once more.
another_program_reads_the_same() {
	midicsv plan.mid >plan.csv || return
	same "$(awk -F', ' '$3 == "Marker_t" { printf "%s ", $2 }' plan.csv)" "0 20160 312480 332640 655200 " &&
		same "$(awk -F', ' '$3 == "Header" { print $6 }' plan.csv)" 10080
}

the_same_plan_is_the_same_file() {
	run song plan.ttl --out again.mid
	same "$status" 0 && cmp plan.mid again.mid
}

a_click_and_a_count_in_go_with_it() {
	run song plan.ttl --out counted.mid --count-in 1 --click always --set right_hand=0 --set left_hand=0
	same "$status" 0 || return
	midicsv counted.mid >counted.csv || return
	same "$(awk -F', ' '$3 == "Marker_t" { printf "%s ", $2 }' counted.csv)" "0 20160 40320 332640 352800 675360 " &&
		same "$(($(grep -c ' Note_on_c, 9, 3[34], [1-9]' counted.csv) > 60))" 1
}

sound_is_as_long_as_the_song() {
	run song plan.ttl --out plan.wav
	same "$status" 0 && has "$out" "wrote plan.wav"
}

a_plan_that_is_begun_can_be_played() {
	run song --new 'A "quoted" one' --sections "intro 2, Verse one 4, turn 1 2/4, chorus 2 x2, Verse one 4" --out new.ttl
	same "$status $out" "0 wrote new.ttl" || return
	run check new.ttl
	same "$out" 'right: song "A "quoted" one", 5 sections' || return
	run song new.ttl --out new.mid
	same "$status $err" "0 " || return
	midicsv new.mid | awk -F', ' '$3 == "Marker_t" { printf "%s %s;", $2, $4 }' >got.txt
	same "$(cat got.txt)" '0 "intro";80640 "Verse one 1";241920 "turn";262080 "chorus";342720 "chorus (2)";423360 "Verse one 2";'
}

# In any order, with any name.
strange_names_are_names() {
	run song --new Ü --sections "Übergang 2, 7 2, verse \\ 2, verse - 2"
	same "$status" 0 || return
	cp out.txt strange.ttl
	run check strange.ttl
	same "$status $out" '0 right: song "Ü", 4 sections'
}

refuses() {
	want=$1
	shift
	run song "$@"
	same "$status" 1 && has "$err" "$want" && same "$(wc -l <err.txt)" 1
}

what_makes_no_sense_is_refused() {
	refuses "needs a plan" && refuses "and no file" --new A && refuses "and no file" --sections "a 1" &&
		refuses "and no file" --new A --sections "a 1" plan.ttl && refuses ".mid or .wav" plan.ttl --out plan.pdf &&
		refuses "is in its plan" plan.ttl --groove 1 && refuses '"verse": expected a name and its bars' --new A --sections "verse" &&
		refuses '"verse 8 9/9": expected' --new A --sections "intro 4, verse 8 9/9" &&
		refuses '"verse 0": expected' --new A --sections "verse 0" && refuses '"": expected' --new A --sections "" &&
		refuses "no groove called" --new A --sections "a 1" --groove Nowhere
}

# With line and section; nothing is written.
a_wrong_plan_is_told_and_not_played() {
	sed 's/fl:bars 8 ; fl:groove "Fog/fl:bars 8 ; fl:hits "9:1" ; fl:groove "Fog/' plan.ttl >wrong.ttl
	run song wrong.ttl --out wrong.mid
	same "$status" 2 && has "$err" "wrong.ttl:8: :c: fl:hits: hit 1 is beyond the section's bars" && [ ! -e wrong.mid ] || return
	run song nowhere.ttl
	same "$status" 2 && has "$err" "nowhere.ttl: there is no such file" || return
	echo "# nothing" >none.ttl
	run song none.ttl
	same "$status" 2 && has "$err" "expected one fl:Song, but there is none"
}

what_is_not_heard_is_told() {
	sed 's/fl:levelTo 90/fl:hits "8:1" ; fl:ending "let ring"/' plan.ttl >hits.ttl
	run song hits.ttl --out hits.mid
	same "$status" 0 && has "$err" "Chorus: its hits aren't struck yet" && has "$err" "Chorus: what its ending strikes"
}

the_demos_plan_is_right_and_short() {
	run check "$demo"
	same "$status $out" '0 right: song "Last Car to Ostrel", 12 sections' || return
	run song "$demo" --out demo.mid
	same "$status $err $(($(wc -l <"$demo") < 60))" "0  1"
}

# A second is 25200 ticks at 150; feet on the grid, each on its own key.  The phrase comes round, so the
# last bars are the first ones' past.
the_feets_busiest_second_is_that_of_the_file() {
	"$fourlimb" song --new Feet --sections "a 16" --groove "Salt Funicular" | sed 's/fl:bars/fl:tempo 150 ; fl:bars/' >feet.ttl
	run song feet.ttl --out feet.mid --set split_feet=1 --set looseness=0 --set liberty=0 --set touch=0
	same "$status" 0 || return
	counted=$(midicsv feet.mid | awk -F', ' '$3 == "Note_on_c" && $6 > 0 && ($5 == 35 || $5 == 36) {
			at[$5, ++n[$5]] = $2
			for (count = 0; n[$5] - count > 0 && at[$5, n[$5] - count] > $2 - 25200; ++count);
			most = count > most ? count : most
		} END { printf "%.1f", most }')
	has "$out" "hardest for the feet: a, $counted strokes a second of one foot"
}

need "$fourlimb" midicsv "$python"
export XDG_DATA_HOME="$work/data"
check "markers, meters and tempi are where arithmetic has them" a_files_map_is_as_counted
check "another program reads the same" another_program_reads_the_same
check "the same plan is the same file" the_same_plan_is_the_same_file
check "a click and a count-in go with it" a_click_and_a_count_in_go_with_it
check "sound is written too" sound_is_as_long_as_the_song
check "a plan that is begun can be played" a_plan_that_is_begun_can_be_played
check "strange names are names" strange_names_are_names
check "what makes no sense is refused" what_makes_no_sense_is_refused
check "a wrong plan is told and not played" a_wrong_plan_is_told_and_not_played
check "what isn't heard is told" what_is_not_heard_is_told
check "the feet's busiest second is that of the file" the_feets_busiest_second_is_that_of_the_file
check "the demo's plan is right and short" the_demos_plan_is_right_and_short
tally
