#!/bin/sh
# SPDX-License-Identifier: ISC
# Gates on instruction counts, not on time: what a block may cost.  A limit is what was
# measured when it was set and a tenth more.
set -u
here=$(dirname "$0")
. "$here/tally.sh"
. "$here/../bench/instructions.sh"
build=$1

costs_at_most() {
	got=$(instructions "$build" "$1")
	echo "got ${got:-nothing}, want at most $2"
	[ -n "$got" ] && [ "$got" -le "$2" ]
}

check "a silent block costs at most 600 instructions" costs_at_most silent 600
adds_at_most() {
	with=$(instructions "$build" "$1")
	without=$(instructions "$build" "$2")
	echo "got ${with:-nothing} against ${without:-nothing}, want at most $3 more"
	[ -n "$with" ] && [ -n "$without" ] && [ $((with - without)) -le "$3" ]
}

check "a click in its gap adds at most 300 instructions to a block" adds_at_most gap busy 300
check "a busy block costs at most 4000 instructions" costs_at_most busy 4000
check "a block at the fastest tempo costs at most 5300 instructions" costs_at_most fastest 5300
check "a block with a position costs at most 6700 instructions" costs_at_most position 6700
check "a block wound too fast to be played costs no more than silence" costs_at_most wound 600
tally
