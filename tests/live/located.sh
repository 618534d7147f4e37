#!/bin/sh
# SPDX-License-Identifier: ISC
# located.sh BUILD - a locate while the transport stands, in a host on JACK: jalv.gtk3 prints
# what the plugin tells its window, and JACK's own jack_transport is timebase master, at 120
# in 4/4, and locates.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/programs.inc"
export JACK_DEFAULT_SERVER="fourlimb-located-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2" NO_AT_BRIDGE=1 GDK_BACKEND=x11
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS

has_display() {
	read -r number <display.txt && [ -n "$number" ]
}

display_or_end() {
	has_display || has_ended screen
}

# The bar and the tick that the window was told last: the first two of a vector.
place() {
	awk '/terms#place> \[/ { left = 6 } left && --left < 2 { print $1 }' host.txt | tail -n 2 |
		sed 's/^"\([^"]*\)".*/\1/' | tr '\n' ' '
}

is_told() {
	told=$(place)
	[ "$told" = "$1 " ] || has_ended host || { echo "told: $told"; return 1; }
}

# 120 in 4/4 at 48,000 frames a second: a bar has 96,000, a beat 24,000.
followed() {
	echo "locate $1" >&3
	awaits "the window is told $2" is_told "$2" && same "$(place)" "$2 "
}


need jackd jack_transport jalv.gtk3 Xvfb stdbuf
if ! starts_server -m -S -t 5000; then
	skip "all of located.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
: >display.txt
starts screen Xvfb -displayfd 3 -screen 0 1280x900x24 3>display.txt
awaits "Xvfb says its display's number" display_or_end
has_display && export DISPLAY=":$number"
starts host stdbuf -oL jalv.gtk3 --dump --jack-name=fourlimb urn:fourlimb:groove
mkfifo transport
exec 3<>transport # opened so, nobody waits for anybody
jack_transport <transport >hand.txt 2>&1 3>&- &
echo $! >hand.pid
echo master >&3
check "a locate while stopped is followed" followed 384000 "4.0 0.0"
check "a locate back while stopped is followed" followed 96000 "1.0 0.0"
check "a locate into a bar while stopped is followed" followed 504000 "5.0 1441440.0"
tally
