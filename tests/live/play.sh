#!/bin/sh
# SPDX-License-Identifier: ISC
# play.sh BUILD - `make play` on a JACK server of its own without a sound card: the plugin
# opens, is connected to the synthesizer, and jalv's own list has every preset.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/programs.inc"
play=$here/../../ui/play.sh
export JACK_DEFAULT_SERVER="fourlimb-play-$$" JACK_NO_START_SERVER=1
export XDG_RUNTIME_DIR="$work" # no PipeWire of whoever runs this
unset DISPLAY WAYLAND_DISPLAY PIPEWIRE_REMOTE PIPEWIRE_RUNTIME_DIR

without_a_server_it_says_how_to_start_one() {
	sh "$play" "$build" >said.txt 2>&1
	same "$?" 1 && has "$(cat said.txt)" "jackd -d alsa"
}

is_connected() {
	jack_lsp -c 2>/dev/null | grep -A1 '^fourlimb-play:midi_out' | grep -q '^   fourlimb-drums'
}

is_connected_or_has_ended() {
	is_connected || has_ended play
}

has_listed_all() {
	grep -q 'writing\|toms_for_the_intro' said.txt || has_ended play
}

plugin_and_drums_are_connected() {
	mkfifo input
	exec 3<>input # opened so, nobody waits for anybody
	# Without stdbuf jalv keeps its words to the end.
	stdbuf -oL sh "$play" "$build" <input >said.txt 2>&1 3>&- &
	echo $! >play.pid
	awaits "plugin and drums are connected" is_connected_or_has_ended
	is_connected
	connected=$?
	printf 'controls\npresets\n' >&3
	awaits "jalv has listed its last preset" has_listed_all
	exec 3>&-
	awaits "jalv has ended with its input" has_ended play
	[ $connected -eq 0 ] || { jack_lsp -c; cat said.txt; return 1; }
}

jalv_lists_every_preset() {
	same "$(grep -cE '^(> )?urn:fourlimb:preset:' said.txt)" "$(cat "$presets"/ports/*.in | grep -c 'a pset:Preset')"
}

# Properties that a plugin declares writable stand among them, as sliders.
jalv_lists_ports_as_controls_and_nothing_else() {
	sed -n 's/^\(> \)*\([A-Za-z_]*\) = .*/\2/p' said.txt | sort -u >controls.txt
	sed -n 's/.*lv2:symbol "\(.*\)" ;/\1/p' "$build/lv2/fourlimb.lv2/groove.ttl" | sort -u >symbols.txt
	has "$(cat controls.txt)" through && same "$(comm -23 controls.txt symbols.txt)" ""
}

# As "Parameter <...> has unknown value type, ignored" (jalv 1.6.6).
jalv_warns_of_nothing() {
	same "$(grep -iE 'ignored|unknown|warning' said.txt)" ""
}

no_client_is_left() {
	! jack_lsp | grep fourlimb
}

nothing_is_left_behind() {
	awaits "the server has no client of ours" no_client_is_left
}

need jackd jack_lsp jalv fluidsynth
check "without a server it says how to start one" without_a_server_it_says_how_to_start_one
if ! starts_server; then
	skip "the rest of play.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
check "plugin and drums are connected" plugin_and_drums_are_connected
check "jalv lists every preset" jalv_lists_every_preset
check "jalv lists ports as controls and nothing else" jalv_lists_ports_as_controls_and_nothing_else
check "jalv warns of nothing" jalv_warns_of_nothing
check "nothing is left behind" nothing_is_left_behind
tally
