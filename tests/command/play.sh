#!/bin/sh
# SPDX-License-Identifier: ISC
# play.sh BUILD - whether a person can play it: `fourlimb check --groove` against MIDI files that
# midicsv reads and check_play.py counts; places, limits of the user's own, and what is left out.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
export XDG_DATA_HOME="$work/data"
own=$XDG_DATA_HOME/fourlimb
mkdir -p "$own"

limbs="right_hand left_hand right_foot left_foot"

# Flams and drags: files have their grace notes, which bounce and aren't counted.
has_grace() {
	sed -n 's/^  [a-z]* [a-z]*, [a-z -]*   *\([.goOfd ]*\)$/\1/p' shown.txt | grep -q '[fd]'
}

# counted ARGUMENT...: the table of a selection is what its files have, limb by limb.
counted() {
	"$fourlimb" check --minutes 1.5 "$@" >table.txt
	bars=$(sed -n '1s/.* minutes, \([0-9]*\) bars$/\1/p' table.txt)
	for limb in $limbs; do
		others=$(for other in $limbs; do [ "$other" = "$limb" ] || echo "--set $other=0"; done)
		# shellcheck disable=SC2086
		render "$@" --bars "$bars" --set looseness=0 --set touch=0 --set liberty=0 $others --out "$limb.mid"
		midicsv "$limb.mid" "$limb.csv" || return
	done
	"$python" "$here/check_play.py" rendered table.txt right_hand.csv left_hand.csv right_foot.csv left_foot.csv
}

# A groove of each meter that the bank has, without flams and drags.
meters_of_the_bank() {
	: >meters.txt
	for id in $("$fourlimb" list grooves | sed -nE 's/^ +([0-9]+)  .*/\1/p'); do
		"$fourlimb" show --groove "$id" >shown.txt
		meter=$(sed -nE '1s/.*, ([0-9]+\/[0-9]+) at .*/\1/p' shown.txt)
		grep -q "^$meter " meters.txt || has_grace || echo "$meter $id" >>meters.txt
	done
	[ "$(wc -l <meters.txt)" -ge 8 ]
}

each_meter_of_the_bank_is_counted_right() {
	meters_of_the_bank || return
	while read -r meter id; do
		counted --groove "$id" || { echo "groove $id in $meter"; return 1; }
	done <meters.txt
}

picks_and_other_meters_are_counted_right() {
	counted --groove 1 --feet gallop --meter 7/8 --tempo 211.3 && counted --groove 1 --hands 3 --meter 5/4 --tempo 187.7 &&
		counted --groove 3 --turnaround none --tempo 173.3 && counted --groove 1 --set feet_grid=6 --tempo 143.7
}

# Eighths are a foot's 6.67 a second at 200, and sixteenths of both feet 13.3; at half the rate half.
the_practice_rate_is_heeded() {
	"$fourlimb" check --groove 1 --tempo 200 --set practice_rate=2 >slow.txt
	"$fourlimb" check --groove 1 --tempo 100 >half.txt
	diff half.txt slow.txt
}

# Phrases of 8 bars, 19.2 seconds at 100: at 160 in the eighth; of half a minute the second is at 110.
the_tempo_ladder_is_heeded() {
	set -- --groove 1 --set clock=1 --set tempo=100 --set ladder_step=10 --set ladder_every=1
	"$fourlimb" check "$@" --set ladder_top=160 >climbs.txt
	"$fourlimb" check --groove 1 --tempo 160 >there.txt
	has "$(cat climbs.txt)" "The tempo ladder goes from 100 to 160 in that time" || return
	sed '/^The tempo ladder/d' climbs.txt | diff there.txt - || return
	run check "$@" --minutes 0.5
	has "$out" "goes from 100 to 110 in that time" || return
	run check "$@" --minutes 0.3
	same "$(echo "$out" | grep -c ladder)" 0
}

a_wrong_table_is_found() {
	counted --groove 3 >/dev/null || return
	for wrong in "s/^busiest second *\([0-9]*\)/busiest second          \11/" "s/^  seconds *[0-9]*/  seconds               9999/" \
		"s/^minutes *[0-9]*/minutes                  7/" "s/^closest two ms *[0-9]*/closest two ms           1/"; do
		"$python" "$here/check_play.py" rendered table.txt right_hand.csv left_hand.csv right_foot.csv left_foot.csv >/dev/null || return
		cp table.txt right.txt
		sed -i "$wrong" table.txt
		cmp -s table.txt right.txt && { echo "not planted: $wrong"; return 1; }
		if "$python" "$here/check_play.py" rendered table.txt right_hand.csv left_hand.csv right_foot.csv left_foot.csv >/dev/null; then
			echo "passed: $wrong"
			return 1
		fi
		mv right.txt table.txt
	done
}

what_can_be_played_is_said() {
	run check --groove "Lower Station" --tempo 200 --minutes 4
	same "$status $err" "0 " && has "$out" "A person can play this." && has "$out" "can hurt limbs" &&
		has "$(head -1 out.txt)" "4/4 at 200, 4 minutes, 200 bars"
}

# An eighth of a quarter at 240 is 31.25 ms; a record's double strokes are 42.6 apart.
own_entries() {
	cat >"$own/own.ttl" <<'END'
@prefix fl: <urn:fourlimb:terms#> .
@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .
<urn:example:close> a fl:FeetFigure ; fl:id 1000 ; rdfs:label "Close" ;
	fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 8 ;
		fl:steps "o.......o.......o.......o.......o.......o.......oo......o......." ] .
<urn:example:reach> a fl:HandsFigure ; fl:id 1001 ; rdfs:label "Reach" ;
	fl:line [ fl:limb fl:rightHand ; fl:voice fl:china ; fl:grid 4 ; fl:steps "........o......." ] ,
		[ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 4 ; fl:steps "o........o......" ] .
END
}

what_cannot_is_said_with_its_place() {
	own_entries
	run check --groove 1 --turnaround none --feet 1000 --tempo 240
	same "$status" 2 && has "$out" "The right foot has 31.2 ms between two strokes at bar 2, beat 3.125; 42.6 is the least (published)." &&
		has "$out" "As it is, this is beyond the limits above." || return
	run check --groove 1 --turnaround none --hands 1001 --tempo 240
	same "$status" 2 && has "$out" "ms from china to closed hat at bar 1, beat 3.25 and needs"
}

# 8 strokes a second of one foot for four minutes are within half of what a person's two feet
# had in the record (1034 a minute), but not after twenty.
length_counts() {
	cat >"$own/long.ttl" <<'END'
@prefix fl: <urn:fourlimb:terms#> .
@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .
<urn:example:long> a fl:FeetFigure ; fl:id 1002 ; rdfs:label "Long" ;
	fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps "o" ] .
END
	run check --groove 1 --turnaround none --feet 1002 --tempo 112.5 --minutes 4
	same "$status" 0 || return
	run check --groove 1 --turnaround none --feet 1002 --tempo 112.5 --minutes 20
	same "$status" 2 && has "$out" "The right foot plays 7.5 strokes a second for 20.0 minutes in all"
}

# ---- The user's own limits

limits() {
	cat >"$own/limits.ttl"
}

own_limits_are_heeded() {
	run check --groove 1 --tempo 200
	same "$status" 0 || return
	limits <<'END'
@prefix fl: <urn:fourlimb:terms#> .
<urn:example:me> a fl:Limits ;
	fl:limit [ fl:of fl:rightHand ; fl:rate 5.5 ] ;
	fl:keeps [ fl:minutes 10 ; fl:share 0.5 ] , [ fl:minutes 1 ; fl:share 1 ] , [ fl:minutes 3 ; fl:share 0.7 ] .
END
	run check --groove 1 --tempo 200
	same "$status $err" "2 " && has "$out" "The right hand has 7 strokes in the second" && has "$out" "5.5 a second (yours)" &&
		has "$(grep '^  at most' out.txt | head -1)" "5.5       10.0"
}

# The crash is struck on four, and stopped an eighth after: at 120 that is 250 ms.
the_time_to_grip_a_cymbal_is_ones_own_too() {
	for grip in 249 251; do
		printf '@prefix fl: <urn:fourlimb:terms#> .\n<urn:a> a fl:Limits ; fl:gripTime %s.0 .\n' $grip | limits
		run check --groove 1 --turnaround "Crash and choke" --tempo 120 --minutes 1
		same "$grip ms: $status $err" "$grip ms: $([ $grip = 249 ] && echo 0 || echo 2) " || return
	done
}

they_are_no_part_of_the_bank() {
	run check
	same "$status" 0 || return
	"$fourlimb" list >/dev/null 2>err.txt
	same "$(cat err.txt)" ""
}

wrong_limits_are_told_with_file_and_line() {
	limits <<'END'
@prefix fl: <urn:fourlimb:terms#> .
<urn:example:me> a fl:Limits ;
	fl:limit [ fl:of fl:rightHand ; fl:rate 100 ] ,
		[ fl:of fl:tail ] ;
	fl:limit [ fl:of fl:rightFoot ; fl:rat 4 ; fl:rate 2.0 ] ;
	fl:keeps [ fl:minutes 1 ; fl:share 1 ] ;
	fl:moveTime -1 .
END
	run check
	same "$status" 2 || return
	for want in "limits.ttl:3: urn:example:me: fl:rate: \"100\": expected a number from 0.5 to 60" "limits.ttl:4: urn:example:me: fl:of" \
		"limits.ttl:5: urn:example:me: fl:rat:" "limits.ttl:6: urn:example:me: fl:keeps" "limits.ttl:7: urn:example:me: fl:moveTime"; do
		has "$out" "wrong: $want" || return
	done
	run check --groove 1 --tempo 200
	has "$err" "limits.ttl:3: " && has "$out" "(yours)" && has "$(grep '^  at most' out.txt | head -1)" "10.0       10.0        2.0"
}

limits_without_brackets_are_told() {
	for what in 'fl:keeps 3' 'fl:limit "x"' 'fl:stands [ ]' 'fl:limit [ fl:rate 3.0 ]'; do
		printf '@prefix fl: <urn:fourlimb:terms#> .\n<urn:a> a fl:Limits ;\n\t%s .\n' "$what" | limits
		run check
		want="${what%% *}: expected brackets"
		[ "$what" = "${what#*rate}" ] || want="fl:of: is missing"
		same "$what: $status" "$what: 2" && has "$out" "limits.ttl:3: urn:a: $want" || return
	done
}

a_limits_file_without_limits_is_told() {
	echo '<urn:a> <urn:b> <urn:c> .' | limits
	run check
	same "$status" 2 && has "$out" "limits.ttl: expected one subject that is a fl:Limits" || return
	rm "$own/limits.ttl"
	mkdir "$own/limits.ttl"
	run check
	same "$status" 2 && has "$out" "can't be opened"
	failed=$?
	rmdir "$own/limits.ttl"
	return $failed
}

# ---- Lighten

# At 200 the gallop's right foot has eighths, 6.67 a second.
lightened_is_within_the_limit() {
	run check --groove 1 --feet gallop --tempo 200 --lighten right-foot=5
	same "$status" 0 && "$python" "$here/check_play.py" lightened out.txt 5 "right foot" || return
	run check --groove 1 --tempo 220 --turnaround none --lighten hands=6
	"$python" "$here/check_play.py" lightened out.txt 6 "right hand" || return
	run check --groove 1 --feet gallop --tempo 200 --set lead_foot=1 --lighten left-foot=5
	"$python" "$here/check_play.py" lightened out.txt 5 "left foot"
}

# The groove's fill has two strokes of each hand, in the last beat: before it the hats go on.
a_short_fill_is_lightened_where_it_stands() {
	run check --groove 1 --tempo 200 --lighten 6
	has "$out" "bar 8, after" || return
	for bar in before after; do
		echo "$out" | sed -n "/^bar 8, $bar/,/^bar\|^\$/p" | grep 'hand,' >"$bar.txt"
	done
	[ -s after.txt ] && diff before.txt after.txt
}

what_is_within_stays_whole() {
	run check --groove 1 --tempo 200 --lighten 9
	same "$status" 0 && has "$out" "bar 1: nothing is left out" && has "$out" "Nothing had to be left out."
}

# What is read again asks for what the table after lightening said.
what_is_saved_is_what_was_shown() {
	run check --groove 1 --feet gallop --tempo 200 --turnaround none --lighten right-foot=5 --save "Light Gallop"
	same "$status $err" "0 " && has "$out" "Saved: feet figure \"Light Gallop\", id 1" || return
	sed '1,/^Lightened/d' out.txt | sed -n '/both feet/,/^A person/p' >want.txt
	"$fourlimb" check --groove 1 --feet "light gallop" --tempo 200 --turnaround none 2>err.txt | sed -n '/both feet/,/^A person/p' >got.txt
	same "$(cat err.txt)" "" && [ -s want.txt ] && diff got.txt want.txt || return
	run check
	same "$status" 0 && has "$out" "Light Gallop" || return
	run check --groove 1 --tempo 200 --save Light
	same "$status" 1 && has "$err" "--lighten"
}

odd_wishes_are_refused() {
	for wish in 0 41 7.5 tail=7 feet= =7 "feet=7 " ""; do
		run check --groove 1 --lighten "$wish"
		same "$wish: $status" "$wish: 1" && has "$err" "--lighten" || return
	done
	run check mine.ttl --groove 1
	same "$status" 1 && has "$err" "not both"
}

need "$fourlimb" "$python" midicsv
check "each meter of the bank is counted right" each_meter_of_the_bank_is_counted_right
check "picks and other meters are counted right" picks_and_other_meters_are_counted_right
check "a wrong table is found" a_wrong_table_is_found
check "the practice rate is heeded" the_practice_rate_is_heeded
check "the tempo ladder is heeded" the_tempo_ladder_is_heeded
check "what can be played is said" what_can_be_played_is_said
check "what can't is said, with its place" what_cannot_is_said_with_its_place
check "what a minute allows, twenty may not" length_counts
check "own limits are heeded" own_limits_are_heeded
check "the time to grip a cymbal is one's own too" the_time_to_grip_a_cymbal_is_ones_own_too
check "own limits are no part of the bank" they_are_no_part_of_the_bank
check "wrong limits are told with file and line" wrong_limits_are_told_with_file_and_line
check "limits without brackets are told of" limits_without_brackets_are_told
check "a limits file without limits is told of" a_limits_file_without_limits_is_told
check "what is lightened is within the limit" lightened_is_within_the_limit
check "a short fill is lightened where it stands" a_short_fill_is_lightened_where_it_stands
check "what is within the limit stays whole" what_is_within_stays_whole
check "what is saved is what was shown" what_is_saved_is_what_was_shown
check "odd wishes are refused" odd_wishes_are_refused
tally
