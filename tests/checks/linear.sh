#!/bin/sh
# SPDX-License-Identifier: ISC
# Reading a bank costs as much again for as much again to read, of whatever shape: a
# gate on instruction counts at two sizes, not on time. 
set -u
here=$(dirname "$0")
. "$here/tally.sh"
build=$1

# Instructions of reading a shape, and of what is made of it.
cost() {
	valgrind --tool=callgrind --callgrind-out-file=/dev/null --toggle-collect='session_init' \
		--toggle-collect='session_restore' "$build/tests/bench/reading" "$1" "$2" 2>&1 |
		sed -n 's/.*Collected : \([0-9]*\)$/\1/p'
}

# What four times the size costs more than once the size, over what twice the size does: 3
# if linear, 5 if quadratic.  Sorting and trees, size times its logarithm, come to 3.2.
is_linear() {
	one=$(cost "$1" "$2") two=$(cost "$1" $((2 * $2))) four=$(cost "$1" $((4 * $2)))
	echo "got ${one:-nothing}, ${two:-nothing}, ${four:-nothing} instructions for $2 and twice and four times of it"
	[ -n "$one" ] && [ -n "$two" ] && [ -n "$four" ] &&
		awk "BEGIN { r = ($four - $one) / ($two - $one + 1); print \"ratio \" r \", want at most 3.4\"; exit !(r <= 3.4) }"
}

check "reading figures is linear" is_linear figures 200
check "reading grooves that name figures is linear" is_linear grooves 200
check "reading files of one figure each is linear" is_linear files 200
check "restoring a session's own entries is linear" is_linear session 200
check "reading statements that are no entries is linear" is_linear strangers 2000
check "reading one subject's statements is linear" is_linear subject 1000
check "reading sentences that don't end is linear" is_linear unended 1000
check "reading figures that are wrong is linear" is_linear wrong 200
tally
