#!/bin/sh
# SPDX-License-Identifier: ISC
# Every cure in ui/pane is needed: with one taken out, its test fails.  Builds
# a copy of the room without it and runs the test program that is about it.  Those that only
# the first Pugl needs are looked at where the build has that.
set -u
here=$(dirname "$0")
. "$here/../checks/tally.sh"
root=$here/../..
build=$1/tests/pane/without
ours="$1/tests/help/check.o $1/tests/help/wait.o $1/tests/live/child.o $1/tests/pane/host.o $1/tests/pane/xvfb.o"
mkdir -p "$build"
folder=$1/tests/pane
room=$1/ui/pane
pugl=$(sed -n 's/^PUGL=//p' "$1/flags")
view=pane_view_first.c other=pane_view_current.c
[ "$pugl" = pugl-0 ] || { view=pane_view_current.c other=pane_view_first.c; }
# The room's other objects, as they are.
whole() {
	for source in $(cd "$root/ui/pane" && echo pane*.c); do
		[ "$source" = "$1" ] || [ "$source" = "$other" ] || echo "$room/${source%.c}.o"
	done
}

# without NAME FILE SED PROGRAM ARGUMENT: whether PROGRAM fails if FILE is
# changed by SED; no change, or a program that doesn't build, is no answer.
without() {
	copy=$build/$1
	rm -rf "$copy"
	mkdir -p "$copy/ui/pane" || return 1
	cp "$root"/ui/pane/pane*.[ch] "$copy/ui/pane"
	sed "$3" "$root/ui/pane/$2" >"$copy/ui/pane/$2"
	! cmp -s "$root/ui/pane/$2" "$copy/ui/pane/$2" || { echo "$2 has no such line: $3"; return 1; }
	# shellcheck disable=SC2046,SC2086
	cc -std=c11 -D_POSIX_C_SOURCE=200809L -D_XOPEN_SOURCE=700 -O1 -w $(pkg-config --cflags "$pugl") \
		-rdynamic -o "$copy/program" "$copy/ui/pane/$2" $(whole "$2") "$folder/$4.o" $ours \
		$(pkg-config --libs "$pugl" gl x11) -ldl -lm || return 1
	FOURLIMB_PATIENCE=20 "$copy/program" "$5" >"$copy/said" 2>&1
	status=$?
	grep -E '^# |^not ok' "$copy/said" | head -n 3
	[ "$status" -ne 0 ] && grep -q '^not ok' "$copy/said"
}

# Needed by the first Pugl alone.
check_first() {
	[ "$pugl" != pugl-0 ] || check "$@"
}

check_first "without waiting for a size, others don't find the window" \
	without 1 pane_view_first.c 's/^        wait_for_the_first_size(&opening);/        ;/' test_pane 1
check_first "without letting go of the context, windows leave memory or kill" \
	without 2 pane.c '/^static void finish/,/^}/ { s/glXMakeCurrent(pane->display, None, NULL);/;/; s/pane_guard_leave(.*/XSetErrorHandler(NULL);/; }' test_cycles 40
check "without putting it back, the host's context is lost" \
	without 3 pane_guard.c 's/^    if (glXGetCurrentContext() != .*/    if (0) {/' test_pane 2
check "without looking for its end, a pane goes on without a window" \
	without 4 pane_input.c 's/^        pane->gone = .*/        ;/' test_pane 3
check "without an error handler, the host ends with its window" \
	without 5 pane_guard.c 's/XSetErrorHandler(on_error)/NULL/' test_pane 3
check_first "without looking first, no display is a null pointer" \
	without 6 pane_view_first.c 's/= try_display(why);/= NULL;/; s/^    if (!trial) {/    if (0) {/; s/XCloseDisplay(trial)/(void)try_display/' test_pane 4
check_first "without looking first, no GLX is a null pointer" \
	without 7 pane_view_first.c 's/= try_display(why);/= XOpenDisplay(NULL); (void)try_display;/' test_pane 5
check "without taking messages, a window of its own can't be asked to close" \
	without 8 pane_input.c 's/^    case ClientMessage:/    case LASTEvent:/' test_input 8
check "without an exit handler of the pane's, a connection that is cut ends the host" \
	without 9 "$view" 's/^ *pane_guard_display(pane);/        ;/' test_pane 7
check "without an I/O error handler, the host's own ends it" \
	without 10 pane_guard.c 's/XSetIOErrorHandler(on_io_error)/NULL/' test_pane 7
check "without giving keys back, Space is dead in the host" \
	without 11 pane.c 's/^        pane_return_press(pane, &news->key);/        ;/' test_keys_back 1
check "without asking who sent it, a key goes round and round" \
	without 12 pane_return.c 's/ && !key->send_event//' test_keys_back 2
tally
