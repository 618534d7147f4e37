#!/bin/sh
# SPDX-License-Identifier: ISC
# learn.sh BUILD - pads in a host: jalv.gtk3 on a screen and a JACK server of its own
# without a sound card.  A note that is played in at jalv's MIDI input goes through; while
# Learn keys is on it becomes a voice's key in the user's kit map and isn't heard.  Waits for
# what is to happen, however long the machine takes.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
pad=$build/tests/live/pad
export JACK_DEFAULT_SERVER="fourlimb-learn-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2" NO_AT_BRIDGE=1 GDK_BACKEND=x11
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS

# waits_until WORD...: true as soon as a command succeeds, false once a program has ended
# or after four minutes.
waits_until() {
	tries=0
	until "$@" >last.txt 2>&1; do
		tries=$((tries + 1))
		[ $tries -lt 2400 ] && all_run || { cat last.txt; return 1; }
		sleep 0.1
	done
}

# starts NAME WORD...: a program of this script's, ended by number at its end.
starts() {
	name=$1
	shift
	"$@" >"$name.txt" 2>&1 &
	echo $! >"$name.pid"
}

all_run() {
	for file in *.pid; do
		kill -0 "$(cat "$file")" 2>/dev/null || { echo "$file ended"; return 1; }
	done
}

end_all() {
	for name in host screen server; do
		[ -f $name.pid ] && kill "$(cat $name.pid)" 2>/dev/null
	done
	rm -rf "$work"
}
trap end_all EXIT
trap 'exit 1' HUP INT TERM

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
	xdotool mousemove --window "$pane" "$1" "$2" sleep 0.1 click 1 sleep 0.2
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

# The Output tab, then Learn keys.
a_pad_teaches_its_key() {
	click 60 512
	click 633 502
	waits_until teach
}

while_keys_are_learned_pads_are_not_heard() {
	same "$(heard 70)" ""
}

after_learning_pads_are_heard_again() {
	click 633 502
	waits_until goes_through 62
}

need jackd jalv.gtk3 Xvfb xdotool
[ -x "$pad" ] || { skip "all of learn.sh" "tests/live/pad is not built"; tally; exit; }
starts screen Xvfb -displayfd 3 -screen 0 1280x900x24 3>display.txt
starts server jackd -r -m -S -n "$JACK_DEFAULT_SERVER" -t 5000 -d dummy -r 48000 -p 256
if ! waits_until has_display || ! waits_until jack_lsp; then
	skip "all of learn.sh" "no screen or JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
starts host jalv.gtk3 --jack-name=fourlimb urn:fourlimb:groove
waits_until find_pane
check "jalv offers MIDI in and lets it through" jalv_offers_midi_in_and_lets_it_through
check "a pad teaches its key" a_pad_teaches_its_key
check "while keys are learned pads are not heard" while_keys_are_learned_pads_are_not_heard
check "after learning, pads are heard again" after_learning_pads_are_heard_again
tally
