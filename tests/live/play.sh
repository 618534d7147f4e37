#!/bin/sh
# SPDX-License-Identifier: ISC
# play.sh BUILD - `make play` on a JACK server of its own without a sound card: the plugin
# opens, is connected to the synthesizer, and jalv's own list has every preset.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
play=$here/../../ui/play.sh
export JACK_DEFAULT_SERVER="fourlimb-play-$$" JACK_NO_START_SERVER=1
export XDG_RUNTIME_DIR="$work" # no PipeWire of whoever runs this
unset DISPLAY WAYLAND_DISPLAY PIPEWIRE_REMOTE PIPEWIRE_RUNTIME_DIR

without_a_server_it_says_how_to_start_one() {
	sh "$play" "$build" >said.txt 2>&1
	same "$?" 1 && has "$(cat said.txt)" "jackd -d alsa"
}

# waits_for WORD...: true as soon as a command succeeds, within ten seconds.
waits_for() {
	tries=0
	until "$@"; do
		tries=$((tries + 1))
		[ $tries -lt 100 ] || return
		sleep 0.1
	done
}

is_connected() {
	jack_lsp -c 2>/dev/null | grep -A1 '^fourlimb-play:midi_out' | grep -q '^   fourlimb-drums'
}

plugin_and_drums_are_connected() {
	jackd -n "$JACK_DEFAULT_SERVER" -d dummy -r 48000 -p 256 >jackd.txt 2>&1 &
	echo $! >jackd.pid
	waits_for eval 'jack_lsp >/dev/null 2>&1' || return
	mkfifo input
	stdbuf -oL sh "$play" "$build" <input >said.txt 2>&1 & # else jalv keeps its words to the end
	echo $! >play.pid
	exec 3>input
	waits_for is_connected
	connected=$?
	echo presets >&3
	waits_for grep -q 'writing\|toms_for_the_intro' said.txt
	exec 3>&-
	waits_for eval '! kill -0 "$(cat play.pid)" 2>/dev/null'
	[ $connected -eq 0 ] || cat said.txt
	return $connected
}

jalv_lists_every_preset() {
	same "$(grep -cE '^(> )?urn:fourlimb:preset:' said.txt)" "$(cat "$presets"/ports/*.in | grep -c 'a pset:Preset')"
}

nothing_is_left_behind() {
	waits_for eval '! jack_lsp 2>/dev/null | grep -q fourlimb'
	left=$?
	kill "$(cat jackd.pid)"
	return $left
}

need jackd jack_lsp jalv fluidsynth
check "without a server it says how to start one" without_a_server_it_says_how_to_start_one
check "plugin and drums are connected" plugin_and_drums_are_connected
check "jalv lists every preset" jalv_lists_every_preset
check "nothing is left behind" nothing_is_left_behind
tally
