#!/bin/sh
# SPDX-License-Identifier: ISC
# qtractor.sh BUILD - the plugin's windows in Qtractor, driven as a person would, on a JACK
# server without a sound card: they open, get and give keys, are resized, closed and opened
# again, and two of them are open at once.  Qtractor's shortcuts are its main window's, and
# no plugin's window has them, so Space is tried there.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/../live/programs.inc"
export JACK_DEFAULT_SERVER="fourlimb-qtractor-$$" JACK_NO_START_SERVER=1
export HOME="$work" XDG_DATA_HOME="$work/data" XDG_CONFIG_HOME="$work/config"
export LV2_PATH="$build/lv2" TMPDIR="$work" # where it looks for another of its own
. "$here/../live/screen.inc"
. "$here/../live/window.inc"

# In Qtractor's main window: the plugin in the list of each track, and the clock's figures.
drums="178 180" more="178 276" clock=120x24+348+66

opens_qtractor() {
	cp "$here/two_tracks.qtr" "$work/two.qtr"
	gcc -shared -fPIC -o no_sequencer.so "$here/no_sequencer.c" || return
	starts host env LD_PRELOAD="$work/no_sequencer.so" qtractor "$work/two.qtr"
	awaits "Qtractor's window is there" has_main 'two\.qtr'
	! has_ended host || { tail -n 5 host.txt; return 1; }
}

need jackd qtractor gcc Xvfb openbox xdotool import identify convert xwininfo xprop
if ! starts_server -m -t 1000; then
	skip "all of qtractor.sh" "no JACK server: $(tail -n 1 server.txt)"
	tally
	exit
fi
starts_screen
check "Qtractor opens on a screen" opens_qtractor
main=$(main_window 'two\.qtr')
xdotool windowsize "$main" 1024 768 windowmove "$main" 10 30
opens "$drums" 1 && pane=$(panes) && top=$(top_of "$pane")
xdotool windowmove "$top" 10 860
check "in Qtractor it opens and draws" it_is_drawn
ground=$(corner "$pane")
check "in Qtractor it takes no keys as it opens" it_takes_no_keys_as_it_opens
check "in Qtractor a key with the pointer over it is its own" a_key_with_the_pointer_over_it_is_its_own
check "Space starts and stops Qtractor while the window is open" space_in_the_main_window
check "in Qtractor after a click its own keys are its own" its_own_keys_are_not_the_hosts
check "Space starts and stops Qtractor after a click into the window" space_in_the_main_window
check "in Qtractor it is as large as the host makes it" it_is_as_large_as_the_host_makes_it
becomes 960 540
opens "$more" 2 && second=$(panes | grep -vx "$pane")
xdotool windowmove "$(top_of "$second")" 1010 860
check "in Qtractor another beside it is its own" another_beside_it_is_its_own
check "in Qtractor it closes, and the host goes on" it_closes_and_the_host_goes_on
opens "$drums" 2 && pane=$(panes | grep -vx "$second")
check "in Qtractor it opens again and draws" it_is_drawn
# Asked to end it would ask in turn whether to save.
kill -9 "$(cat host.pid)"
tally
