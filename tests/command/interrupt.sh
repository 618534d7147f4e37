#!/bin/sh
# SPDX-License-Identifier: ISC
# interrupt.sh BUILD - a program that is ended while it writes leaves no unfinished file:
# each kind of file, each signal, at the moment before the file is on the disk.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

# writes KIND: what makes the first file of the folder `here`.
writes() {
	case $1 in
	mid) set -- render --groove 3 --bars 2 --out here/a.mid ;;
	wav) set -- render --groove 3 --bars 1 --out here/a.wav ;;
	pdf) set -- chart --groove 3 --out here/a.pdf ;;
	set) set -- practice --groove 3 --bars 1 --steps 1 --out here/set ;;
	esac
	"$fourlimb" "$@" --force >said.txt 2>&1
}

# interrupted NUMBER KIND: its exit status is that of a program which the signal ended.
interrupted() {
	rm -rf here && mkdir here
	(LD_PRELOAD=$work/interrupt.so INTERRUPT=$1 writes "$2")
	same "$?" "$((128 + $1))" # POSIX 2.8.2
}

parts_left() {
	find here -name '*.part*' | grep .
}

# Numbers of INT, TERM, HUP, QUIT and PIPE, POSIX kill.
no_signal_leaves_an_unfinished_file() {
	for number in 2 15 1 3 13; do
		for kind in mid wav pdf set; do
			interrupted $number $kind && ! parts_left || { echo "signal $number, $kind"; return 1; }
		done
	done
}

what_is_there_is_whole() {
	writes mid && cp here/a.mid whole.mid || return
	interrupted 15 mid && cmp here/a.mid whole.mid
}

# 9 can't be held back; what it leaves is gone when the file is made again.
what_a_kill_left_is_swept() {
	for kind in mid wav pdf set; do
		interrupted 9 $kind && parts_left >/dev/null || { echo "$kind: the kill came too late"; return 1; }
		writes $kind && ! parts_left || { echo "$kind"; return 1; }
	done
}

an_ignored_signal_stops_nothing() {
	rm -rf here && mkdir here
	(trap '' HUP && LD_PRELOAD=$work/interrupt.so INTERRUPT_EARLY=1 writes wav) || { cat said.txt; return 1; }
	same "$(head -c 4 here/a.wav)" RIFF && ! parts_left
}

need "$fourlimb" cc
ulimit -c 0
cc -shared -fPIC -D_GNU_SOURCE -o interrupt.so "$here/interrupt.c" || exit 2
check "no signal that can be caught leaves an unfinished file" no_signal_leaves_an_unfinished_file
check "what is there is whole" what_is_there_is_whole
check "what a kill left is swept" what_a_kill_left_is_swept
check "an ignored signal stops nothing" an_ignored_signal_stops_nothing
tally
