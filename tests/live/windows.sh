#!/bin/sh
# SPDX-License-Identifier: ISC
# windows.sh BUILD - the plugin's window in jalv.gtk3 and jalv.qt5 under a window manager,
# driven as a person would: it opens, gets and gives keys, is resized, closed, opened again,
# and two of them are open at once.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/programs.inc"
export JACK_DEFAULT_SERVER="fourlimb-windows-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2"
. "$here/screen.inc"
. "$here/window.inc"

# tells NAME WORD...: runs it and leaves its status in NAME.status.
tells() {
	told=$1
	shift
	"$@" &
	child=$!
	trap 'kill "$child"; wait "$child"; exit' TERM
	wait "$child"
	echo $? >"$told.status"
}

pane_or_end() {
	finds "$2" || has_ended "$1"
}

# opens NAME COUNT: a host, so that there are so many.
opens() {
	rm -f "$1.status"
	starts "$1" tells "$1" "$host" urn:fourlimb:groove
	awaits "the plugin's window is there" pane_or_end "$1" "$2"
}

the_host_has_the_keys_again() {
	activates "$top" && xdotool windowfocus "$top"
	awaits "the host has the keys" has_focus "$top"
}

the_first_closes_and_the_second_stays() {
	closes && awaits "the host has ended" has_ended host || return
	same "$(cat host.status)" 0 || { tail -n 3 host.txt; return 1; }
	awaits "one is left" finds 1
}

a_key_that_is_no_use_to_it_is_the_hosts() {
	clicks "$second" || return
	types ctrl+q
	awaits "jalv has ended" has_ended another && same "$(cat another.status)" 0
}

need jackd Xvfb openbox xdotool import identify convert xwininfo xprop
if ! starts_server -m -S -t 5000; then
	skip "all of windows.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
starts_screen
for host in jalv.gtk3 jalv.qt5; do
	if ! command -v $host >/dev/null; then
		skip "the window in $host" "it is not there"
		continue
	fi
	opens host 1 && pane=$(panes) && top=$(top_of "$pane")
	check "in $host it opens and draws" it_is_drawn
	ground=$(corner "$pane")
	check "in $host it takes no keys as it opens" it_takes_no_keys_as_it_opens
	check "in $host a key with the pointer over it is its own" a_key_with_the_pointer_over_it_is_its_own
	check "in $host a click gives it the keys, wherever the pointer goes" \
		a_click_gives_it_the_keys_wherever_the_pointer_goes
	check "in $host the host gets them back" the_host_has_the_keys_again
	check "in $host it is as large as the host makes it" it_is_as_large_as_the_host_makes_it
	opens another 2 && second=$(panes | grep -vx "$pane")
	xdotool windowmove "$top" 10 30 windowmove "$(top_of "$second")" 900 800
	check "in $host another beside it is its own" another_beside_it_is_its_own
	check "in $host the first closes and the second stays" the_first_closes_and_the_second_stays
	check "in $host a key that is no use to it is the host's" a_key_that_is_no_use_to_it_is_the_hosts
	opens host 1 && pane=$(panes)
	check "in $host it opens again and draws" it_is_drawn
	ends host
done
tally
