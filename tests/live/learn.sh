#!/bin/sh
# SPDX-License-Identifier: ISC
# learn.sh BUILD - pads in a host: jalv.gtk3 on a screen and a JACK server of its own
# without a sound card.  A note that is played in at jalv's MIDI input goes through; while
# Learn keys is on it becomes a voice's key in the user's kit map and isn't heard.  Waits for
# what is to happen, however long the machine takes.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/programs.inc"
pad=$build/tests/live/pad
export JACK_DEFAULT_SERVER="fourlimb-learn-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2" NO_AT_BRIDGE=1 GDK_BACKEND=x11
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS

all_run() {
	for file in *.pid; do
		runs "${file%.pid}" || { echo "${file%.pid} has ended"; return 1; }
	done
}

# reaches WORD...: it is true, or there is nothing to wait for any more.
reaches() {
	"$@" || ! all_run
}

# waits_until WORD...: it is true; false once a program has ended.
waits_until() {
	awaits "$*" reaches "$@" && { "$@" || { all_run; return 1; }; }
}

has_display() {
	read -r number <display.txt && [ -n "$number" ] && DISPLAY=:$number && export DISPLAY
}

# The inner of the two windows of that name: the plugin's own.
find_pane() {
	pane=$(xdotool search --onlyvisible --name '^Fourlimb$' 2>/dev/null | sed -n 2p)
	[ -n "$pane" ] && [ "$(xdotool getwindowgeometry "$pane" | sed -n 's/.*Geometry: //p')" = 960x540 ]
}

# click X Y in the plugin's window.
click() {
	xdotool mousemove --window "$pane" "$1" "$2" click 1
}

# heard KEY: what comes out at midi_out when the key is struck.
heard() {
	"$pad" "$JACK_DEFAULT_SERVER" "$1" 2>&1 | tr '\n' '/'
}

note() {
	printf '3 99 %02x 64/3 89 %02x 00/' "$1" "$1"
}

goes_through() {
	[ "$(heard "$1")" = "$(note "$1")" ]
}

has_learned() {
	cat "$XDG_DATA_HOME"/fourlimb/*.ttl 2>/dev/null | tr -s ' \n\t' '   ' |
		grep -Eq "fl:voice fl:$1 ; fl:note $2 "
}

jalv_offers_midi_in_and_lets_it_through() {
	jack_lsp -t | grep -A1 ':control$' | grep -q midi || { jack_lsp -t; return 1; }
	waits_until goes_through 60
}

# Until the window's wish has reached the plugin the pad is still heard.
teach() {
	heard 61 >/dev/null
	has_learned kick 61
}

# Output, then Learn keys.
a_pad_teaches_its_key() {
	click 690 345
	click 480 502
	waits_until teach
}

while_keys_are_learned_pads_are_not_heard() {
	same "$(heard 70)" ""
}

after_learning_pads_are_heard_again() {
	click 480 502
	waits_until goes_through 62
}

need jackd jalv.gtk3 Xvfb xdotool
[ -x "$pad" ] || { skip "all of learn.sh" "tests/live/pad is not built"; tally; exit; }
if ! starts_server -m -S -t 5000; then
	skip "all of learn.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
: >display.txt
starts screen Xvfb -displayfd 3 -screen 0 1280x900x24 3>display.txt
waits_until has_display
starts host jalv.gtk3 --jack-name=fourlimb urn:fourlimb:groove
waits_until find_pane
check "jalv offers MIDI in and lets it through" jalv_offers_midi_in_and_lets_it_through
check "a pad teaches its key" a_pad_teaches_its_key
check "while keys are learned pads are not heard" while_keys_are_learned_pads_are_not_heard
check "after learning, pads are heard again" after_learning_pads_are_heard_again
tally
