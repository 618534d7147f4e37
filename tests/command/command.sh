#!/bin/sh
# SPDX-License-Identifier: ISC
# command.sh BUILD - the command line as people and scripts use it: what it writes, what
# it says, what it leaves alone.  Files are read back by midicsv and by mido; the notes
# expected come from check_render.py, which reads the Turtle by itself.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

# ---- Words

help_names_every_command_and_option() {
	run --help
	same "$status" 0 || return
	for word in render show list --help --version --groove --bars --tempo --meter --hands \
		--feet --turnaround --kit --set --title --out --bundle --force; do
		has "$out" "$word" || return
	done
}

version_is_a_name_and_a_number() {
	run --version
	same "$status" 0 || return
	same "$(sed -E 's/[0-9]+/N/g' out.txt)" "fourlimb N.N.N"
}

without_a_command_it_says_what_there_is() {
	run
	same "$status" 1 && has "$out$err" "fourlimb render"
}

# Neither cut nor rounded: told, with what it can have, and nothing written.
what_a_control_cannot_have_is_refused() {
	for pair in "tempo=5000|from 20 to 400" "feet_cycle=2.5|a whole number from 0 to 64" \
		"right_hand=0.5|a whole number from 0 to 1" "looseness=9x|number"; do
		run render --groove 1 --bars 1 --set "${pair%|*}" --out refused.mid
		same "$status" 1 && has "$err" "${pair#*|}" && same "$(ls refused.mid 2>/dev/null)" "" || return
	done
	for option in "--tempo 5000" "--tempo 9x" "--bars 1.5"; do
		# shellcheck disable=SC2086
		run render --groove 1 $option --out refused.mid
		same "$status" 1 && has "$err" "expected" || return
	done
}

# labels KIND: every label in a file of the presets, a line each.
labels() {
	sed -n 's/^\trdfs:label "\(.*\)" ;$/\1/p' "$presets/$1.ttl"
}

list_names_every_entry() {
	for kind in grooves hands feet turnarounds kits; do
		run list $kind
		same "$status" 0 || return
		labels "$kind" >labels.txt
		[ -s labels.txt ] || same "no labels in $kind.ttl" "labels" || return
		while read -r label; do
			has "$out" "$label" || return
		done <labels.txt
	done
}

# "ID BEATS/UNIT TEMPO" of each groove as the presets have it: the meter and tempo come after the id.
written_meters() {
	awk '$1 == "fl:id" { id = $2 } $1 == "fl:tempo" { tempo = $2 } $1 == "fl:beatsPerBar" { beats = $2 }
		$1 == "fl:beatUnit" { print id, beats "/" $2, tempo }' "$presets/grooves.ttl" | sort
}

list_tells_meter_and_tempo() {
	written_meters >want.txt
	[ -s want.txt ] || return
	"$fourlimb" list grooves >listed.txt
	sed -nE 's/^ +([0-9]+)  .{34}  [1-5] +([0-9]+\/[0-9]+)  .{9} +([0-9]+)  .*/\1 \2 \3/p' listed.txt | sort | diff - want.txt
}

list_can_be_narrowed() {
	for meter in 4/4 7/8 13/8 1/2; do
		run list grooves --meter "$meter"
		same "$status $(echo "$out" | head -n 1)" \
			"0 $(written_meters | grep -c " $meter ") of $(written_meters | wc -l) grooves: in $meter" || return
	done
	run list --family Gallop
	same "$status" 0 && has "$out" "Reverse gallop" && echo "$out" | grep -q "^0 of [0-9]* kit maps: Gallop" || return
	same "$(echo "$out" | grep -c "Herta")" 0
}

the_readme_counts_the_meters() {
	same "$(written_meters | cut -d' ' -f2 | sort -u | wc -l)" 16 &&
		has "$(cat "$here/../../README.md")" "in sixteen meters from"
}

list_names_every_control() {
	run list controls
	same "$status" 0 || return
	for symbol in enabled groove hands feet phrase_bars turnaround right_hand left_hand \
		right_foot left_foot channel kit split_feet through; do
		has "$out" "$symbol" || return
	done
}

# README: "a chart holds what is written, a MIDI file what is played".
what_is_written_knows_no_liberty() {
	for free in 0 100; do
		for label in "Left Luggage" "Winter Timetable" "Lights of Ostrel"; do
			"$fourlimb" show --groove "$label" --set liberty=$free || return
			"$fourlimb" chart --groove "$label" --set liberty=$free --out one.svg --force >said.txt || return
			cat one.svg
			"$fourlimb" chart --groove "$label" --set liberty=$free --notation one.musicxml --force >said.txt || return
			cat one.musicxml
		done >"written-$free.txt"
		render --groove "Left Luggage" --bars 16 --set liberty=$free --out "played-$free.mid"
	done
	cmp written-0.txt written-100.txt || return
	! cmp -s played-0.mid played-100.mid
}

# The six strokes between hat and snare as tests/bank has them: "R L R L R L".
show_prints_a_groove_limb_by_limb() {
	run show --groove "Brake Wheel"
	same "$status" 0 || return
	has "$out" "Brake Wheel" && has "$out" "4/4" || return
	same "$(grep -m1 'right foot, kick' out.txt | tr -s ' ')" \
		" right foot, kick o.o.o. ...... o.o.o. ......" || return
	same "$(grep -m1 'left foot, kick' out.txt | tr -s ' ')" \
		" left foot, kick .o.o.o ...... .o.o.o ......"
}

# limb_lines FILE: the rows of the first bar.
limb_lines() {
	sed -n '/^bar 1/,/^bar 2/p' "$1" | grep -E ' (hand|foot),' | sort
}

# In a mirror: each line is the other side's, and its strokes stay.
left_handed_each_line_is_the_other_sides() {
	run show --groove "Lower Station"
	limb_lines out.txt | sed -E 's/right/RIGHT/; s/left/right/; s/RIGHT/left/' | tr -s ' ' | sort >mirror.txt
	run show --groove "Lower Station" --left-handed
	same "$status" 0 && same "$(limb_lines out.txt | tr -s ' ' | sort)" "$(cat mirror.txt)" || return
	same "$(grep -c snare mirror.txt)" 1
}

# A chart too, and of nothing but the limbs: the page's other words stand where they stood.
a_left_handed_chart_is_another() {
	run chart --groove "Lower Station" --out plain.svg
	run chart --groove "Lower Station" --left-handed --out left.svg
	same "$status" 0 && ! cmp -s plain.svg left.svg || return
	same "$(wc -l <plain.svg)" "$(wc -l <left.svg)"
}

# ---- Files

# What midicsv says, in the words of midi_lines.py.
csv_lines() {
	midicsv "$1" | awk -F', ' '
		$3 == "Header" { print "format " $4 " tracks " $5 " division " $6 }
		$3 == "Note_on_c" { print $1, $2, ($6 > 0 ? "on" : "off"), $4, $5, $6 }
		$3 == "Note_off_c" { print $1, $2, "off", $4, $5, $6 }
		$3 == "Tempo" { print $1, $2, "tempo " $4 }
		$3 == "Time_signature" { print $1, $2, "meter " $4 "/" 2 ^ $5 }
		$3 == "Marker_t" || $3 == "Title_t" {
			text = $0
			sub(/^[^"]*"/, "", text)
			sub(/"$/, "", text)
			gsub(/""/, "\"", text)
			print $1, $2, ($3 == "Marker_t" ? "marker " : "track_name ") text
		}
		$3 == "End_track" { print $1, $2, "end" }'
}

two_readers_agree_on_a_song() {
	render --title 'Song of "two"' --groove "Lower Station" --bars 8 --groove "Winter Timetable" \
		--bars 5 --tempo 133.7 --groove 17 --bars 4 --out song.mid
	csv_lines song.mid >csv.txt
	"$python" "$here/midi_lines.py" song.mid >mido.txt || return
	same "$(($(grep -c ' on ' csv.txt) > 200))" 1 || return
	diff csv.txt mido.txt
}

a_song_has_a_tempo_track_and_a_drum_track() {
	head -n 1 mido.txt >head.txt
	same "$(cat head.txt)" "format 1 tracks 2 division 10080" || return
	same "$(grep -cE '^1 [0-9]+ (on|off) ' mido.txt)" 0 || return
	same "$(grep -cE '^2 [0-9]+ (tempo|meter|marker)' mido.txt)" 0
}

# Bars 8 x 4/4, 5 x 7/8, 4 x 4/4 in ticks of 10080 a quarter.
tempo_and_meter_stand_where_sections_begin() {
	grep -E '^1 [0-9]+ (tempo|meter)' mido.txt >got.txt
	cat >want.txt <<'END'
1 0 tempo 375000
1 0 meter 4/4
1 322560 tempo 448766
1 322560 meter 7/8
1 498960 tempo 545455
1 498960 meter 4/4
END
	diff got.txt want.txt
}

# Phrases of 8, 4 and 4 bars: the forms' lengths in presets/grooves.ttl.
a_marker_stands_at_each_phrase() {
	grep 'marker' mido.txt >got.txt
	cat >want.txt <<'END'
1 0 marker Lower Station, phrase 1
1 322560 marker Winter Timetable, phrase 1
1 463680 marker Winter Timetable, phrase 2
1 498960 marker Brake Wheel, phrase 1
END
	diff got.txt want.txt
}

a_shorter_phrase_has_more_markers() {
	render --groove "Lower Station" --bars 7 --set phrase_bars=3 --out short.mid
	same "$("$python" "$here/midi_lines.py" short.mid | grep marker | cut -d' ' -f2 | xargs)" \
		"0 120960 241920"
}

names_stand_at_time_0() {
	same "$(grep 'track_name' mido.txt)" '1 0 track_name Song of "two"
2 0 track_name Drums'
}

drums_are_on_channel_10() {
	same "$(grep -E ' (on|off) ' mido.txt | cut -d' ' -f4 | sort -u)" 9
}

every_note_is_ended_before_it_begins_again() {
	"$python" "$here/midi_lines.py" --pairs song.mid
}

# No 64ths in a notation program: lengths go to the limb's next stroke.
notes_of_a_straight_file_are_sixteenths_to_quarters() {
	run render --groove "Lower Station" --bars 8 --set looseness=0 --out straight.mid || return 1
	"$python" "$here/midi_lines.py" --pairs straight.mid && "$python" "$here/midi_lines.py" --lengths straight.mid
}

tracks_end_on_the_bar_line() {
	same "$(grep ' end' mido.txt)" "1 660240 end
2 660240 end"
}

# rendered_exactly BARS LABEL: without feel, and without the swing that a groove may
# have written, which 1.0 would leave in place; 1.0001 is under half a tick.
rendered_exactly() {
	render --groove "$2" --bars "$1" --set looseness=0 --set touch=0 --set liberty=0 --set accent_feet=60 --set swing_ratio=1.0001 \
		--set "fill_every=${3:-0}" --set "fill_beats=${4:-0}" --out one.mid &&
		"$python" "$here/check_render.py" "$presets" one.mid "$@"
}

all_grooves_are_rendered_exactly() {
	faults=0
	labels grooves >labels.txt
	while read -r label; do
		rendered_exactly 17 "$label" || faults=1
	done <labels.txt
	return $faults
}

# Every eleventh, in meters of all kinds.
fills_are_rendered_where_they_are_asked_for() {
	faults=0
	labels grooves | awk 'NR % 11 == 5' >labels.txt
	while read -r label; do
		rendered_exactly 17 "$label" 3 2 && rendered_exactly 17 "$label" 5 || faults=1
	done <labels.txt
	return $faults
}

# Each section counts its fills from its own first bar: as if it stood alone.
sections_have_fills_of_their_own() {
	render --groove "Pump House" --bars 6 --set fill_every=4 --set fill_beats=2 --set looseness=0 --set touch=0 --set liberty=0 \
		--groove "Pump House" --bars 7 --turnaround "Four shots" --set fill_every=3 --set looseness=0 --set touch=0 --set liberty=0 --out two.mid || return
	render --groove "Pump House" --bars 7 --turnaround "Four shots" --set fill_every=3 --set looseness=0 --set touch=0 --set liberty=0 --out alone.mid || return
	bar=$("$python" "$here/midi_lines.py" alone.mid | awk '{ print $2 }' | sort -n | tail -1)
	"$python" "$here/midi_lines.py" alone.mid | grep ' on ' | cut -d' ' -f2,5 >alone.txt
	"$python" "$here/midi_lines.py" two.mid | grep ' on ' |
		awk -v from=$((bar / 7 * 6)) '$2 >= from { print $2 - from, $5 }' >second.txt
	[ -s second.txt ] && diff alone.txt second.txt
}

a_wrong_note_is_found_by_the_check() {
	render --groove "Brake Wheel" --bars 4 --set looseness=0 --set touch=0 --set liberty=0 --out one.mid
	! "$python" "$here/check_render.py" "$presets" one.mid 4 "Pump House" >/dev/null
}

limbs_can_be_left_out() {
	render --groove "Lower Station" --bars 4 --set right_hand=0 --set left_hand=0 --out feet.mid
	same "$("$python" "$here/midi_lines.py" feet.mid | grep ' on ' | cut -d' ' -f5 | sort -u)" 36
}

# clicks FILE: tick, channel and key of each, 33 and 34 being General MIDI 2's.
clicks() {
	"$python" "$here/midi_lines.py" "$1" | grep -E ' on [0-9]+ (33|34) ' | cut -d' ' -f2,4,5 | xargs
}

a_click_can_be_rendered_too() {
	render --groove "Lower Station" --bars 2 --set click=2 --set click_channel=3 --out click.mid
	same "$(clicks click.mid)" "0 2 34 10080 2 33 20160 2 33 30240 2 33 40320 2 34 50400 2 33 60480 2 33 70560 2 33" ||
		return
	render --groove "Lower Station" --bars 2 --out click.mid
	same "$(clicks click.mid)" ""
}

# Four bars of the song are two of the groove.
at_half_speed_bars_are_twice_as_long() {
	render --groove "Lower Station" --bars 4 --set practice_rate=2 --set click=2 --out slow.mid
	same "$(clicks slow.mid)" "0 9 34 20160 9 33 40320 9 33 60480 9 33 80640 9 34 100800 9 33 120960 9 33 141120 9 33" ||
		return
	same "$("$python" "$here/midi_lines.py" slow.mid | grep '^2 .* end')" "2 161280 end"
}

the_same_request_gives_the_same_bytes() {
	render --groove 21 --bars 9 --tempo 97.3 --out a.mid
	render --groove 21 --bars 9 --tempo 97.3 --out b.mid
	cmp a.mid b.mid
}

# ---- Care for what is there

a_file_that_is_there_stays() {
	echo "mine" >mine.mid
	run render --groove 1 --bars 1 --out mine.mid
	same "$status" 2 && same "$(cat mine.mid)" "mine" && has "$err" "mine.mid" && has "$err" "--force"
}

with_force_it_is_replaced() {
	run render --groove 1 --bars 1 --out mine.mid --force
	same "$status" 0 && same "$(head -c 4 mine.mid)" "MThd"
}

a_link_that_is_there_stays() {
	ln -s nowhere link.mid
	run render --groove 1 --bars 1 --out link.mid
	same "$status" 2 && [ -L link.mid ] && [ ! -e nowhere ]
}

nothing_is_left_lying_about() {
	same "$(find . -name '*part*')" ""
}

a_missing_folder_is_told_of() {
	run render --groove 1 --bars 1 --out nowhere/x.mid
	same "$status" 2 && has "$err" "nowhere/x.mid" && has "$err" "folder"
}

files_get_the_rights_that_umask_says() {
	(umask 027 && render --groove 1 --bars 1 --out rights.mid)
	same "$(stat -c %a rights.mid)" 640
}

# Past the limit write() fails as on a full disk, and a signal comes that ends whoever lets it.
a_write_that_fails_leaves_the_old_file() {
	echo "old" >old.mid
	(
		ulimit -f 1
		"$fourlimb" render --groove 1 --bars 200 --out old.mid --force >/dev/null 2>full.txt
	)
	same $? 2 && same "$(cat old.mid)" "old" && has "$(cat full.txt)" "old.mid" &&
		same "$(find . -name '*part*')" ""
}

a_full_disk_leaves_the_old_file() {
	mkdir -p disk && mount -t tmpfs -o size=16k none disk || return
	echo "old" >disk/old.mid
	run render --groove 1 --bars 200 --out disk/old.mid --force
	left=$(ls disk)
	kept=$(cat disk/old.mid)
	umount disk
	same "$status" 2 && same "$kept" "old" && same "$left" "old.mid" && has "$err" "No space"
}

a_folder_without_rights_is_told_of() {
	mkdir -p locked && chmod 500 locked
	run render --groove 1 --bars 1 --out locked/x.mid
	chmod 700 locked
	same "$status" 2 && has "$err" "locked/x.mid" && has "$err" "ermission"
}

# The factory's own file, as it is and with an id given twice.
the_factorys_own_file_is_right_in_its_place() {
	presets=$here/../../presets
	for file in feet hands turnarounds grooves kits; do
		run check "$presets/$file.ttl"
		same "$status" 0 && has "$out" "right: $presets/$file.ttl" || return
	done
	sed 's/fl:id 441 ;/fl:id 440 ;/' "$presets/feet.ttl" >feet.ttl
	run check feet.ttl
	line=$(grep -n '^	fl:id 441 ;' "$presets/feet.ttl" | cut -d: -f1)
	same "$status" 2 && has "$out" "feet.ttl:$line: feet:march-kick-pedal-pair: fl:id: 440"
}

# Quarters are the factory's already; a reason is enough, and what was noted plays.
what_loads_and_is_no_good_is_noted() {
	cat >mine.ttl <<'END'
@prefix fl: <urn:fourlimb:terms#> .
@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .
<urn:mine:a> a fl:FeetFigure ; fl:id 1000 ; rdfs:label "Quarters again" ;
	fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps "o" ] .
END
	run check mine.ttl
	same "$status" 0 && has "$out" "right: feet figure" && has "$out" "note: mine.ttl:3: " &&
		has "$out" "say why by fl:differs" && has "$out" "say why by fl:standsAlone" || return
	sed -i 's/fl:line/fl:differs "Mine" ; fl:standsAlone "An exercise" ; fl:line/' mine.ttl
	run check mine.ttl
	same "$status $(echo "$out" | grep -c note:)" "0 0"
}

check_says_how_the_factorys_bank_is() {
	XDG_DATA_HOME=$PWD/nothing run check
	same "$status" 0 && has "$out" "right: the factory's bank, $(cat "$presets"/*.ttl | grep -c '^	rdfs:label') entries"
}

# ---- The checks

check_words() {
	check "help names every command and option" help_names_every_command_and_option
	check "version is a name and a number" version_is_a_name_and_a_number
	check "without a command it says what there is" without_a_command_it_says_what_there_is
	check "what a control cannot have is refused" what_a_control_cannot_have_is_refused
	check "the factory's own file is right in its place" the_factorys_own_file_is_right_in_its_place
	check "what loads and is no good is noted" what_loads_and_is_no_good_is_noted
	check "check says how the factory's bank is" check_says_how_the_factorys_bank_is
	check "list names every entry" list_names_every_entry
	check "list tells meter and tempo" list_tells_meter_and_tempo
	check "list can be narrowed" list_can_be_narrowed
	check "the README counts the bank's meters" the_readme_counts_the_meters
	check "list names every control" list_names_every_control
	check "show prints a groove limb by limb" show_prints_a_groove_limb_by_limb
	check "charts hold what is written at any liberty, MIDI files what is played" what_is_written_knows_no_liberty
	check "left-handed each line is the other side's" left_handed_each_line_is_the_other_sides
	check "a left-handed chart is another" a_left_handed_chart_is_another
}

check_files() {
	check "two readers agree on a song" two_readers_agree_on_a_song
	check "a song has a tempo track and a drum track" a_song_has_a_tempo_track_and_a_drum_track
	check "tempo and meter stand where sections begin" tempo_and_meter_stand_where_sections_begin
	check "a marker stands at each phrase" a_marker_stands_at_each_phrase
	check "a shorter phrase has more markers" a_shorter_phrase_has_more_markers
	check "names stand at time 0" names_stand_at_time_0
	check "drums are on channel 10" drums_are_on_channel_10
	check "every note is ended before it begins again" every_note_is_ended_before_it_begins_again
	check "notes of a straight file are sixteenths to quarters" notes_of_a_straight_file_are_sixteenths_to_quarters
	check "tracks end on the bar line" tracks_end_on_the_bar_line
	check "a groove in four is rendered exactly" rendered_exactly 20 "Lower Station"
	check "a groove in seven is rendered exactly" rendered_exactly 13 "Winter Timetable"
	check "sextuplets are rendered exactly" rendered_exactly 9 "Brake Wheel"
	check "all grooves are rendered exactly" all_grooves_are_rendered_exactly
	check "fills are rendered where they are asked for" fills_are_rendered_where_they_are_asked_for
	check "sections have fills of their own" sections_have_fills_of_their_own
	check "a wrong note is found by the check" a_wrong_note_is_found_by_the_check
	check "limbs can be left out" limbs_can_be_left_out
	check "a click can be rendered too" a_click_can_be_rendered_too
	check "at half speed bars are twice as long" at_half_speed_bars_are_twice_as_long
	check "the same request gives the same bytes" the_same_request_gives_the_same_bytes
}

check_care() {
	check "a file that is there stays" a_file_that_is_there_stays
	check "with force it is replaced" with_force_it_is_replaced
	check "a link that is there stays" a_link_that_is_there_stays
	check "nothing is left lying about" nothing_is_left_lying_about
	check "a missing folder is told of" a_missing_folder_is_told_of
	check "files get the rights that umask says" files_get_the_rights_that_umask_says
	check "a write that fails leaves the old file" a_write_that_fails_leaves_the_old_file
	if [ "$(id -u)" = 0 ] && mkdir -p probe && mount -t tmpfs none probe 2>/dev/null; then
		umount probe
		check "a full disk leaves the old file" a_full_disk_leaves_the_old_file
		skip "a folder without rights is told of" "the superuser may write everywhere"
	else
		skip "a full disk leaves the old file" "only the superuser can make a small disk"
		check "a folder without rights is told of" a_folder_without_rights_is_told_of
	fi
}

# A German comma would turn 133.7 into 133.
a_users_locale_changes_nothing() {
	render --groove 1 --bars 2 --tempo 133.7 --out plain.mid
	LOCPATH=$1 LC_ALL=de_DE.UTF-8 "$fourlimb" render --groove 1 --bars 2 --tempo 133.7 \
		--out german.mid --force >/dev/null &&
		cmp plain.mid german.mid
}

check_locale() {
	name="the user's locale changes nothing"
	if locale -a | grep -qi '^de_DE\.utf-\?8$'; then
		check "$name" a_users_locale_changes_nothing ""
	elif localedef -i de_DE -f UTF-8 ./de_DE.UTF-8 >/dev/null 2>&1; then
		check "$name" a_users_locale_changes_nothing "$work"
	else
		skip "$name" "there is no German locale and none can be made"
	fi
}

need "$fourlimb" "$python" midicsv
check_words
check_files
check_care
check_locale
tally
