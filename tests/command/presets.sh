#!/bin/sh
# SPDX-License-Identifier: ISC
# presets.sh BUILD - the plugin's presets by name: as our program lists and plays them, and
# as another program of LV2 (lv2info, of lilv) finds them in the bundle.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

labels() {
	sed -n '/a pset:Preset/,/@others@/s/^\trdfs:label "\(.*\)" ;$/\1/p' "$presets"/ports/*.ttl.in
}

the_list_has_every_preset_and_what_it_is_for() {
	run list --presets
	same "$status" 0 || return
	labels >labels.txt
	same "$(($(wc -l <labels.txt) >= 32))" 1 || return
	has "$out" "$(wc -l <labels.txt) presets" || return
	while read -r label; do
		has "$out" "  ${label#*: }  " || return # under its bank
	done <labels.txt
	has "$out" "Song sketch" && has "$out" "straight: change Feet bar by bar"
}

another_host_finds_them_all() {
	LV2_PATH=$build/lv2:/usr/lib/lv2 lv2info -p urn:fourlimb:groove >/dev/null 2>&1
	LV2_PATH=$build/lv2:/usr/lib/lv2 lv2info urn:fourlimb:groove >info.txt 2>/dev/null
	sed -n '/Presets:/,/^$/p' info.txt | sed 's/^[[:space:]]*//' >found.txt
	while read -r label; do
		grep -qxF "$label" found.txt || { echo "lv2info has no $label"; return 1; }
	done <labels.txt
}

# What the Turtle of "Seven under the Bell" says, said by options.
a_preset_is_its_controls() {
	render --preset "seven under the bell" --bars 16 --out a.mid
	render --groove "Cable Hum" --hands quarter-hats --set ride_on=5 --feet running-four-four-three-three-two --tempo 140 \
		--set feet_cycle=7 --set phrase_bars=8 --set looseness=0 --set liberty=0 --bars 16 --out b.mid
	cmp a.mid b.mid
}

what_is_typed_after_it_wins() {
	render --preset "Seven under the Bell" --tempo 120 --hands eighth-hats --set feet_cycle=5 --out a.mid
	render --groove "Cable Hum" --hands eighth-hats --set ride_on=5 --feet running-four-four-three-three-two --tempo 120 \
		--set feet_cycle=5 --set phrase_bars=8 --set looseness=0 --set liberty=0 --out b.mid
	cmp a.mid b.mid
}

presets_and_grooves_follow_each_other() {
	render --preset "Verse in the Fog" --bars 4 --preset "Song sketch: Chorus at the Summit" --bars 4 --groove 3 \
		--bars 2 --out song.mid
	same "$(midicsv song.mid | sed -n 's/.*Marker_t, "\(.*\), phrase 1".*/\1/p' | tr '\n' ';')" \
		"Weighbridge;The Whole Town Awake;Upper Station;" || return
	same "$(midicsv song.mid | awk -F', ' '$3 == "Tempo" { printf "%.0f ", 60000000 / $4 }')" "92 138 120 "
}

# 80 and 4 more each sixteen bars (four phrases of four); a bar to count in: microseconds a
# quarter note by the definition of the tempo event, SMF 1.0.
a_ladder_is_the_files_tempo() {
	render --preset "First Eighths" --bars 48 --out ladder.mid
	same "$(midicsv ladder.mid | awk -F', ' '$3 == "Tempo" { printf "%d:%d ", $2 / 40320, $4 }')" \
		"0:750000 17:714286 33:681818 "
}

# Eighths, as loose as can be: each of 48 bars' eight once, though some come before the line
# where the tempo rises (ticks of 10080 a quarter; the first of the bar after may be early).
where_the_ladder_rises_no_stroke_is_lost_or_doubled() {
	render --preset "First Eighths" --bars 48 --set looseness=30 --set push_feet=-20 --out ladder.mid
	midicsv ladder.mid | awk -F', ' '$3 == "Note_on_c" && ($5 == 36 || $5 == 35) { print int($2 / 5040 + 0.5) - 8 }' |
		grep -vx 384 | sort -n >got.txt
	seq 0 383 >want.txt
	diff got.txt want.txt
}

show_and_chart_take_presets() {
	run show --preset "Blank Sheet in Seven"
	same "$status" 0 && has "$out" "7/8" || return
	run chart --preset "Blank Sheet in Seven" --out a.pdf
	same "$status" 0 && same "$(head -c 5 a.pdf)" "%PDF-"
}

a_set_can_be_made_of_a_preset() {
	run practice --preset "Herta at Work" --bars 2 --out set
	same "$status" 0 || return
	same "$(ls set | grep -c -e '-080-' -e '-120-')" 6 # its ladder's ends, three files each
}

an_unknown_preset_is_refused() {
	run render --preset "Blanket" --out a.mid
	same "$status" 1 && has "$err" "no preset called \"Blanket\"; near it: \"Blank Sheet" || return
	run render --presets --out c.mid
	same "$status" 1 && has "$err" "fourlimb list"
}

need "$fourlimb" lv2info midicsv
check "the list has every preset and what it is for" the_list_has_every_preset_and_what_it_is_for
labels >labels.txt
check "another host finds them all" another_host_finds_them_all
check "a preset is its controls" a_preset_is_its_controls
check "what is typed after it wins" what_is_typed_after_it_wins
check "presets and grooves follow each other" presets_and_grooves_follow_each_other
check "a ladder is the file's tempo" a_ladder_is_the_files_tempo
check "where the ladder rises no stroke is lost or doubled" where_the_ladder_rises_no_stroke_is_lost_or_doubled
check "show and chart take presets" show_and_chart_take_presets
check "a set can be made of a preset" a_set_can_be_made_of_a_preset
check "an unknown preset is refused" an_unknown_preset_is_refused
tally
