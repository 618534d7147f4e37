#!/bin/sh
# SPDX-License-Identifier: ISC
# Measures what a host pays: instantiation, instructions a block, sizes.
# Usage: tests/bench/bench.sh BUILD_FOLDER
set -u
build=$1
. "$(dirname "$0")/instructions.sh"

echo "Instantiation through lilv, ms (bank read and checked; 15 times):"
"$build/tests/bench/blocks" instantiate 15 | sort -n |
	awk '{ v[NR] = $1 } END { printf "  least %s  median %s  most %s\n", v[1], v[int((NR + 1) / 2)], v[NR] }'
echo "Instances in one process, by the plugin's own time:"
"$build/tests/bench/instances" "$build/lv2/fourlimb.lv2/fourlimb.so" "$build/lv2/fourlimb.lv2/"
echo "Instructions in a block of 64 frames at 48 kHz, the test host's own share included:"
for kind in silent position busy dense gap; do
	printf '  %-9s %s\n' "$kind" "$(instructions "$build" "$kind")"
done
echo "Sizes in bytes:"
strip -o "$build/stripped.so" "$build/lv2/fourlimb.lv2/fourlimb.so"
printf '  plugin %s (stripped)   bank %s\n' "$(wc -c <"$build/stripped.so")" \
	"$(cat "$build"/lv2/fourlimb.lv2/bank/*.ttl | wc -c)"
size "$build/lv2/fourlimb.lv2/fourlimb.so"
echo "A playhead moving over 960 x 540 under software GL, % of one core:"
"$build/tests/bench/pane" | grep '^  '
echo "The plugin's own window, 960 x 540, the same way; the plugin's and the X server's time left out:"
"$build/tests/bench/window" | grep '^  '
