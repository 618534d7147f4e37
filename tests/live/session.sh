#!/bin/sh
# SPDX-License-Identifier: ISC
# session.sh BUILD - an edit in a host's session: jalv.gtk3 on a screen and a JACK server of
# its own without a sound card.  A stroke is clicked into the plugin's window, the session is
# saved by jalv's menu, and opened again by another jalv without a window: eight bars of MIDI
# are the same, byte for byte and frame for frame.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
take=$build/tests/live/take
export JACK_DEFAULT_SERVER="fourlimb-session-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2" NO_AT_BRIDGE=1 GDK_BACKEND=x11
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS

# waits_for WORD...: true as soon as a command succeeds, within ten seconds.
waits_for() {
	tries=0
	until "$@"; do
		tries=$((tries + 1))
		[ $tries -lt 100 ] || return
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

ends() {
	[ -f "$1.pid" ] || return 0
	kill "$(cat "$1.pid")" 2>/dev/null
	wait "$(cat "$1.pid")" 2>/dev/null
	rm -f "$1.pid"
}

# The server tidies up after its clients by itself, which may take ten seconds.
end_all() {
	for program in host again screen; do
		ends $program
	done
	[ -f server.pid ] && kill "$(cat server.pid)" 2>/dev/null
	rm -rf "$work"
}
trap end_all EXIT

has_display() {
	DISPLAY=$(cat display.txt)
	[ -n "$DISPLAY" ] && DISPLAY=:$DISPLAY && export DISPLAY
}

# The inner of the two windows of that name: the plugin's own.
find_pane() {
	pane=$(xdotool search --name '^Fourlimb$' 2>/dev/null | sed -n 2p)
	[ -n "$pane" ] || return
	[ "$(xdotool getwindowgeometry "$pane" | sed -n 's/.*Geometry: //p')" = 960x540 ]
}

# click X Y in the plugin's window.
click() {
	xdotool mousemove --window "$pane" "$1" "$2" sleep 0.1 click 1 sleep 0.2
}

the_window_opens_in_jalv() {
	find_pane || { cat host.txt; return 1; }
}

# The Edit tab, then the left foot's row at the second sixteenth of bar 1.
a_click_in_the_window_is_an_edit_that_plays() {
	"$take" "$JACK_DEFAULT_SERVER" 8 >before.txt || return
	click 60 494
	click 363 272
	tries=0
	until "$take" "$JACK_DEFAULT_SERVER" 8 >edited.txt && ! cmp -s before.txt edited.txt; do
		tries=$((tries + 1))
		[ $tries -lt 5 ] || return
	done
	more=$(grep -c '3 99 24' edited.txt)
	less=$(grep -c '3 99 24' before.txt)
	[ "$more" -gt "$less" ] || { echo "kicks: $less before, $more after"; return 1; }
}

is_asked() {
	dialog=$(xdotool search --name '^Save State$' 2>/dev/null | head -n 1)
	[ -n "$dialog" ]
}

# jalv's menu File, Save; a folder's name.
jalv_saves_its_session() {
	top=$(xdotool search --name '^Fourlimb$' | sed -n 1p)
	xdotool mousemove --window "$top" 19 12 click 1 sleep 0.3 mousemove --window "$top" 47 38 click 1
	waits_for is_asked || return
	xdotool windowfocus "$dialog" sleep 0.3 type kept
	xdotool sleep 0.2 key Return
	waits_for [ -f kept/state.ttl ] && grep -q feetDraft kept/state.ttl
}

the_session_opened_again_plays_the_same_bytes() {
	ends host
	waits_for eval '! jack_lsp | grep -q midi_out' || return # the server takes its time
	starts again jalv -i -l "$work/kept" urn:fourlimb:groove
	"$take" "$JACK_DEFAULT_SERVER" 8 >reopened.txt || { cat again.txt; return 1; }
	[ "$(wc -l <reopened.txt)" -gt 200 ] && cmp edited.txt reopened.txt
}

need jackd jalv jalv.gtk3 Xvfb xdotool
[ -x "$take" ] || { skip "all of session.sh" "tests/live/take is not built"; tally; exit; }
starts screen Xvfb -displayfd 3 -screen 0 1280x900x24 3>display.txt
starts server jackd -r -m -S -n "$JACK_DEFAULT_SERVER" -t 5000 -d dummy -r 48000 -p 256
waits_for has_display
waits_for eval 'jack_lsp >/dev/null 2>&1'
starts host jalv.gtk3 --jack-name=fourlimb urn:fourlimb:groove
waits_for find_pane
if ! [ -f server.pid ] || ! kill -0 "$(cat server.pid)" 2>/dev/null; then
	skip "all of session.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
check "the window opens in jalv" the_window_opens_in_jalv
check "a click in the window is an edit that plays" a_click_in_the_window_is_an_edit_that_plays
check "jalv saves its session" jalv_saves_its_session
check "the session opened again plays the same bytes" the_session_opened_again_plays_the_same_bytes
tally
