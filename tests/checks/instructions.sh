#!/bin/sh
# SPDX-License-Identifier: ISC
# Gates on instruction counts, not on time: what a block may cost.  The limits
# are about twice what was measured, so that only a change of kind trips them.
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

check "a silent block costs at most 2000 instructions" costs_at_most silent 2000
check "a busy block costs at most 6000 instructions" costs_at_most busy 6000
tally
