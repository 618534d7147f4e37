#!/bin/sh
# SPDX-License-Identifier: ISC
# ardour.sh BUILD - the plugin's windows in Ardour, driven as a person would, without a sound
# card: they open, Space goes to Ardour before and after a click, they are resized, closed
# and opened again, and two of them are open at once.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
. "$here/../live/programs.inc"
export HOME="$work/home" LV2_PATH="$build/lv2"
unset XDG_DATA_HOME XDG_CONFIG_HOME XDG_CACHE_HOME
. "$here/../live/screen.inc"
. "$here/../live/window.inc"

# In Ardour's main window, which has its own fonts: the plugin in the mixer's strips of the
# tracks "drums" and "more", and the clock's figures.
drums="444 208" more="334 208" clock=150x24+497+32

opens_ardour() {
	mkdir -p "$HOME/.config/ardour7" && : >"$HOME/.config/ardour7/.a7"
	cp "$here/ardour_config" "$HOME/.config/ardour7/config"
	timeout -k 5 300 ardour7-lua "$here/two_tracks.lua" "$work/two" </dev/null >made.txt 2>&1 ||
		{ tail -n 5 made.txt; return 1; }
	starts host env ARDOUR_DATA_PATH=/usr/share/ardour7 ARDOUR_CONFIG_PATH=/etc/ardour7 \
		ARDOUR_DLL_PATH=/usr/lib/ardour7 GTK_PATH=/etc/ardour7:/usr/lib/ardour7 \
		LD_LIBRARY_PATH=/usr/lib/ardour7 "$ardour" -n "$work/two"
	awaits "Ardour's window is there" has_main '^two - Ardour$'
	! has_ended host || { tail -n 5 host.txt; return 1; }
}

it_shows_the_mixer() {
	xdotool windowsize "$main" 1348 713 windowmove "$main" 10 30
	awaits "it is as large" has_size "$main" 1348x713 && looks "$main" && activates "$main" || return
	types alt+m
	awaits "the mixer is shown" differs "$main" && awaits "it is shown whole" rests "$main"
}

space_with_the_pointer_elsewhere() {
	activates "$top" && point_away && space_starts_and_stops_it
}

space_with_the_pointer_over_it() {
	point_at "$pane" 8 60 && space_starts_and_stops_it
}

space_after_a_click() {
	clicks "$pane" && space_starts_and_stops_it && point_away && space_starts_and_stops_it
}

ardour=$(find /usr/lib/ardour7 -maxdepth 1 -name 'ardour-7*' -perm -u+x 2>/dev/null | head -n 1)
need Xvfb openbox xdotool import identify convert xwininfo xprop ardour7-lua "${ardour:-ardour7}"
starts_screen
check "Ardour opens on a screen" opens_ardour
main=$(main_window '^two - Ardour$')
check "Ardour shows its mixer" it_shows_the_mixer
opens "$drums" 1 && pane=$(panes) && top=$(top_of "$pane")
xdotool windowmove "$top" 10 860
check "in Ardour it opens and draws" it_is_drawn
ground=$(corner "$pane")
check "in Ardour it takes no keys as it opens" it_takes_no_keys_as_it_opens
check "Space starts and stops Ardour with the pointer elsewhere" space_with_the_pointer_elsewhere
check "Space starts and stops Ardour with the pointer over the window" space_with_the_pointer_over_it
check "Space starts and stops Ardour after a click into the window" space_after_a_click
check "in Ardour after a click its own keys are its own" its_own_keys_are_not_the_hosts
check "in Ardour it is as large as the host makes it" it_is_as_large_as_the_host_makes_it
becomes 960 540
opens "$more" 2 && second=$(panes | grep -vx "$pane")
xdotool windowmove "$(top_of "$second")" 1010 860
check "in Ardour another beside it is its own" another_beside_it_is_its_own
check "in Ardour it closes, and the host goes on" it_closes_and_the_host_goes_on
opens "$drums" 2 && pane=$(panes | grep -vx "$second")
check "in Ardour it opens again and draws" it_is_drawn
tally
