#!/bin/sh
# SPDX-License-Identifier: ISC
# play.sh BUILD - opens the built plugin in jalv on the running JACK server, or on PipeWire
# where that has the sound card, with fluidsynth behind it to be heard; ends what it started
# when jalv is closed.
set -u
build=$(realpath "${1:?usage: play.sh BUILD_FOLDER}")
export LV2_PATH="$build/lv2${LV2_PATH:+:$LV2_PATH}:/usr/local/lib/lv2:/usr/lib/lv2"
name=fourlimb-play synth=fourlimb-drums

# Where PipeWire waits for its clients; a path of its own is a remote's name too.
pipewire_socket() {
	case ${PIPEWIRE_REMOTE:-} in
	/*) echo "$PIPEWIRE_REMOTE" ;;
	*) echo "${PIPEWIRE_RUNTIME_DIR:-${XDG_RUNTIME_DIR:-/run/user/$(id -u)}}/${PIPEWIRE_REMOTE:-pipewire-0}" ;;
	esac
}

# A JACK server beside PipeWire would fight it for the card: PipeWire is one itself, for
# programs that pw-jack starts.
if ! jack_lsp >/dev/null 2>&1; then
	if [ -n "${FOURLIMB_BY_PW_JACK:-}" ]; then
		echo "PipeWire has the sound here, but doesn't answer through pw-jack; \"pw-jack jack_lsp\" says more."
	elif [ ! -S "$(pipewire_socket)" ]; then
		echo "No JACK server is running, and no PipeWire.  Start a JACK server, such as \"jackd -d alsa\", and"
		echo "try again."
	elif command -v pw-jack >/dev/null; then
		FOURLIMB_BY_PW_JACK=yes exec pw-jack sh "$0" "$build"
	else
		echo "PipeWire has the sound here, and pw-jack is missing, by which JACK's programs join it: install"
		echo "the package pipewire-jack (so Debian calls it) and try again."
	fi
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

# connect: the plugin to the drums, as soon as both are there, however long that takes.
connect() {
	tries=0
	while :; do
		to=$(jack_lsp 2>/dev/null | grep -m1 "^$synth.*:midi")
		[ -n "$to" ] && jack_connect $name:midi_out "$to" >/dev/null 2>&1 && return
		tries=$((tries + 1))
		[ $tries -ne 100 ] ||
			echo "The plugin's midi_out isn't connected to fluidsynth yet; any drum synthesizer will do."
		sleep 0.1
	done
}
connect &
connecting=$!
trap 'kill $drums $connecting 2>/dev/null' EXIT

echo "Keep the volume low at first.  Clock \"own\" plays at once, \"host's\" with the JACK transport."
echo "Close the window (or end the input) to stop.  Presets are in the window's menu."
# shellcheck disable=SC2086
$jalv urn:fourlimb:groove
