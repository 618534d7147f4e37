#!/bin/sh
# SPDX-License-Identifier: ISC
# session.sh BUILD - an edit in a host's session: jalv.gtk3 on a screen and a JACK server of
# its own without a sound card.  A stroke is clicked into the plugin's window, the session is
# saved by jalv's menu, and opened again by another jalv without a window: eight bars of MIDI
# are the same, byte for byte and frame for frame.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/programs.inc"
take=$build/tests/live/take
export JACK_DEFAULT_SERVER="fourlimb-session-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2" NO_AT_BRIDGE=1 GDK_BACKEND=x11
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS

# The whole line, or none yet.
has_display() {
	read -r number <display.txt && [ -n "$number" ]
}

display_or_end() {
	has_display || has_ended screen
}

# The inner of the two windows of that name, the plugin's own, once both can be seen.
find_pane() {
	pane=$(xdotool search --onlyvisible --name '^Fourlimb$' 2>/dev/null | sed -n 2p)
	[ -n "$pane" ] || return
	[ "$(xdotool getwindowgeometry "$pane" | sed -n 's/.*Geometry: //p')" = 960x540 ]
}

pane_or_end() {
	find_pane || has_ended host
}

# What the window shows, as a number: its picture's.
picture() {
	import -silent -window "$pane" rgb:- | cksum
}

# Nothing has been painted for a second: the window has been told all there is.
is_settled() {
	last=$(picture)
	sleep 1
	[ "$(picture)" = "$last" ]
}

differs() {
	[ "$(picture)" != "$shown" ]
}

# click X Y in the plugin's window.
click() {
	xdotool mousemove --window "$pane" "$1" "$2" click 1
}

the_window_opens_in_jalv() {
	find_pane || { cat screen.txt host.txt; return 1; }
}

plays_something_else() {
	"$take" "$JACK_DEFAULT_SERVER" 8 >edited.txt && ! cmp -s before.txt edited.txt
}

# Edit, then the left foot's row at the second sixteenth of bar 1.
a_click_in_the_window_is_an_edit_that_plays() {
	"$take" "$JACK_DEFAULT_SERVER" 8 >before.txt || return
	awaits "the window shows all that it was told" is_settled || return
	shown=$(picture)
	click 620 345
	awaits "the Edit tab is shown" differs && awaits "it is shown whole" is_settled || return
	click 370 264
	awaits "the edit plays" plays_something_else || return
	more=$(grep -c '3 99 24' edited.txt)
	less=$(grep -c '3 99 24' before.txt)
	[ "$more" -gt "$less" ] || { echo "kicks: $less before, $more after"; return 1; }
}

# How many windows of the screen's own, menus among them, can be seen.
count_windows() {
	for window in $(xwininfo -root -children | sed -n 's/^ *\(0x[0-9a-f]*\) .*/\1/p'); do
		xwininfo -id "$window" | grep -q 'Map State: IsViewable' && echo "$window"
	done | wc -l
}

has_more_windows() {
	[ "$(count_windows)" -gt "$windows" ]
}

is_asked() {
	dialog=$(xdotool search --onlyvisible --name '^Save State$' 2>/dev/null | head -n 1)
	[ -n "$dialog" ]
}

# GTK's dialog, while it still reads its folder, is deaf to Return.
answers() {
	! is_asked && return
	xdotool key Return
	sleep 1
	! is_asked
}

has_the_keys() {
	xdotool windowfocus "$dialog" && [ "$(xdotool getwindowfocus)" = "$dialog" ]
}

# jalv's menu File, Save; a folder's name.  It saves before the dialog goes.
jalv_saves_its_session() {
	top=$(xdotool search --onlyvisible --name '^Fourlimb$' | sed -n 1p)
	windows=$(count_windows)
	xdotool mousemove --window "$top" 19 12 click 1
	awaits "jalv's menu is open" has_more_windows || return
	xdotool mousemove --window "$top" 47 38 click 1
	awaits "jalv asks where to save" is_asked && awaits "the dialog has the keys" has_the_keys || return
	xdotool type kept
	awaits "jalv has saved" answers || return
	grep -q feetDraft kept/state.ttl
}

host_has_gone() {
	! jack_lsp | grep midi_out
}

the_session_opened_again_plays_the_same_bytes() {
	ends host
	awaits "the server knows that the host has gone" host_has_gone || return
	starts again jalv -i -l "$work/kept" urn:fourlimb:groove
	"$take" "$JACK_DEFAULT_SERVER" 8 >reopened.txt || { cat again.txt; return 1; }
	[ "$(wc -l <reopened.txt)" -gt 200 ] && cmp edited.txt reopened.txt
}

need jackd jalv jalv.gtk3 Xvfb xdotool import xwininfo
[ -x "$take" ] || { skip "all of session.sh" "tests/live/take is not built"; tally; exit; }
if ! starts_server -m -S -t 5000; then
	skip "all of session.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
: >display.txt
starts screen Xvfb -displayfd 3 -screen 0 1280x900x24 3>display.txt
awaits "Xvfb says its display's number" display_or_end
has_display && export DISPLAY=":$number"
starts host jalv.gtk3 --jack-name=fourlimb urn:fourlimb:groove
awaits "the plugin's window is there" pane_or_end
check "the window opens in jalv" the_window_opens_in_jalv
check "a click in the window is an edit that plays" a_click_in_the_window_is_an_edit_that_plays
check "jalv saves its session" jalv_saves_its_session
check "the session opened again plays the same bytes" the_session_opened_again_plays_the_same_bytes
tally
