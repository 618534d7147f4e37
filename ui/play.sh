#!/bin/sh
# SPDX-License-Identifier: ISC
# play.sh BUILD - opens the built plugin in jalv on the running JACK server, with fluidsynth
# behind it to be heard; ends what it started when jalv is closed.
set -u
build=$(realpath "${1:?usage: play.sh BUILD_FOLDER}")
export LV2_PATH="$build/lv2${LV2_PATH:+:$LV2_PATH}:/usr/local/lib/lv2:/usr/lib/lv2"
name=fourlimb-play synth=fourlimb-drums

if ! jack_lsp >/dev/null 2>&1; then
	echo "No JACK server is running.  Start one, such as \"jackd -d alsa\", and try again; where sound"
	echo "is PipeWire's, try \"pw-jack make play\"."
	exit 1
fi

# The window if there is a screen, the console of jalv if not.
jalv="jalv -n $name"
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ] && command -v jalv.gtk3 >/dev/null; then
	jalv="jalv.gtk3 --jack-name=$name"
fi

# Its console's input ends with this script, and with it the synthesizer.
tail -f /dev/null --pid=$$ | fluidsynth -q -a jack -j -m jack -o midi.jack.id=$synth \
	-o audio.jack.id=$synth >/dev/null 2>&1 &
drums=$!

# connect: the plugin to the drums, as soon as both are there.
connect() {
	tries=0
	while [ $tries -lt 100 ]; do
		to=$(jack_lsp 2>/dev/null | grep -m1 "^$synth.*:midi")
		[ -n "$to" ] && jack_connect $name:midi_out "$to" >/dev/null 2>&1 && return
		tries=$((tries + 1))
		sleep 0.1
	done
	echo "The plugin's midi_out could not be connected to fluidsynth; connect it to any drum synthesizer."
}
connect &
connecting=$!
trap 'kill $drums $connecting 2>/dev/null' EXIT

echo "Keep the volume low at first.  Clock \"own\" plays at once, \"host's\" with the JACK transport."
echo "Close the window (or end the input) to stop.  Presets are in the window's menu."
# shellcheck disable=SC2086
$jalv urn:fourlimb:groove
