#!/bin/sh
# SPDX-License-Identifier: ISC
# Gates on instruction counts, not on time: what a block may cost.  A limit is what was
# measured when it was set and a tenth more.
set -u
here=$(dirname "$0")
. "$here/tally.sh"
. "$here/../bench/instructions.sh"
. "$here/../bench/worst.sh"
build=$1

costs_at_most() {
	got=$(instructions "$build/lv2" fourlimb "$1")
	echo "got ${got:-nothing}, want at most $2"
	[ -n "$got" ] && [ "$got" -le "$2" ]
}

adds_at_most() {
	with=$(instructions "$build/lv2" fourlimb "$1")
	without=$(instructions "$build/lv2" fourlimb "$2")
	echo "got ${with:-nothing} against ${without:-nothing}, want at most $3 more"
	[ -n "$with" ] && [ -n "$without" ] && [ $((with - without)) -le "$3" ]
}

check "a block in which nothing happens costs at most 415 instructions" costs_at_most standing 415
check "values far apart in the host's memory cost at most 400 more" adds_at_most scattered standing 400
check "a block with a standing position costs at most 2640 instructions" costs_at_most stopped 2640
check "a silent block costs at most 800 instructions" costs_at_most start 800
check "a silent block with a position costs at most 2750 instructions" costs_at_most position 2750
check "eight notes that go through add at most 5300 instructions" adds_at_most notes standing 5300
check "a click in its gap adds at most 50 instructions to a block" adds_at_most gap busy 50
check "a busy block costs at most 820 instructions" costs_at_most busy 820
check "a block at the fastest tempo costs at most 4000 instructions" costs_at_most fastest 4000
check "a block wound too fast to be played costs no more than silence" costs_at_most wound 415

# The hosts of tests/bench/worst.c: seeds that were worst among some forty, one of each kind.
worst_at_most() {
	got=$(worst_of "$1")
	echo "got ${got:-nothing}, want at most $2"
	[ -n "$got" ] && [ "$got" -le "$2" ]
}

check "a jump every eight frames costs a block at most 270000 instructions" worst_at_most 8 270000
check "a tempo every frame costs a block at most 345000 instructions" worst_at_most 33 345000
check "dials, jumps, tempi, meters and stops cost a block at most 620000" worst_at_most 21 620000
check "dials, and a window that asks anew in every frame, at most 685000" worst_at_most 39 685000
# Feet that grow, asked for and jumped into in one block, whose order nothing had made ahead.
check "likewise with feet that grow, at most 1360000" worst_at_most 34 1360000
# Of all that a stroke asks of the feel; what stands around it isn't counted.
feel_costs_at_most() {
	got=$(valgrind --tool=callgrind --callgrind-out-file=/dev/null --toggle-collect=feel_offset \
		--toggle-collect=feel_velocity "$build/tests/bench/strokes" 2>&1 |
		awk '/^[0-9]+$/ { strokes = $1 } /Collected : / { print int($NF / strokes) }')
	echo "got ${got:-nothing}, want at most $1"
	[ -n "$got" ] && [ "$got" -le "$1" ]
}

check "a stroke's feel costs at most 1200 instructions" feel_costs_at_most 1200
tally
