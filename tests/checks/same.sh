#!/bin/sh
# SPDX-License-Identifier: ISC
# The same performance on every machine: tests/feel/test_same.c and the same of liberty, made
# with each compiler, optimisation and processor flag that is here, play the takes that were
# noted.
set -u
here=$(dirname "$0")
. "$here/tally.sh"
root=$(cd "$here/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# As the Makefile's OWN_FLAGS have it, and never -ffast-math.
sum_of_is_noted() {
	test=$1
	shift
	(cd "$root" && "$@" -std=c11 -D_POSIX_C_SOURCE=200809L -D_XOPEN_SOURCE=700 -ffp-contract=off \
		-DFOURLIMB_SOURCE='"."' -DFOURLIMB_BUILD='"."' -o "$work/same" "$test" tests/help/check.c \
		plugin/engine/time/*.c plugin/engine/written/*.c plugin/engine/feel/*.c plugin/engine/varied/*.c plugin/engine/groove/*.c \
		plugin/engine/writing/*.c plugin/engine/play/articulation.c -lm) && "$work/same"
}
sum_is_noted() {
	echo "$*"
	sum_of_is_noted tests/feel/test_same.c "$@" && sum_of_is_noted tests/writing/test_liberty_same.c "$@"
}

fma=
grep -qw fma /proc/cpuinfo 2>/dev/null && fma=-mfma
for compiler in gcc clang; do
	command -v $compiler >/dev/null || continue
	for level in -O0 -O2 -O3; do
		check "$compiler $level plays the same" sum_is_noted $compiler $level
		[ -z "$fma" ] || check "$compiler $level $fma plays the same" sum_is_noted $compiler $level $fma
	done
	[ -z "$fma" ] || check "$compiler -O3 for this processor plays the same" sum_is_noted $compiler -O3 -march=native
done
no_libm_in_feel() {
	! grep -nE '\b(tanh?|sinh?|cosh?|expm?1?2?|log(1p|2|10)?|pow|cbrt|hypot|lround|lrint|rint)\(' "$root"/plugin/engine/feel/*.[ch] "$root"/plugin/engine/writing/liberty*.c
}
check "feel and liberty call nothing whose last bit a C library chooses" no_libm_in_feel
tally
