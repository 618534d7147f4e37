#!/bin/sh
# SPDX-License-Identifier: ISC
# Measures in one run what a host pays for this plugin, for LV2's own examples and for a
# plugin that does nothing, and prints it as tests/bench/RESULTS.md has it.  Instructions
# repeat exactly on one machine; times don't, and say so by being medians.
# Usage: tests/bench/bench.sh BUILD_FOLDER EXAMPLES_FOLDER
set -u
build=$1 examples=$2
. "$(dirname "$0")/instructions.sh"

# bundles PLUGIN: the folder it is in.
bundles() {
	case $1 in
	fourlimb) echo "$build/lv2" ;;
	empty) echo "$build/tests/bench" ;;
	*) echo "$examples" ;;
	esac
}

# A row of KIND, with what the others do there; the ratio is to the one named last.
row() {
	kind=$1 ours=$(instructions "$build/lv2" fourlimb "$1") line= other=
	for plugin in empty fifths metro; do
		other=$(instructions "$(bundles "$plugin")" "$plugin" "$kind")
		line="$line ${other:-–} |"
	done
	shift
	printf '| %s | %s |%s %s |\n' "$*" "$ours" "$line" \
		"$(awk -v ours="$ours" -v metro="${other:-0}" 'BEGIN { printf "%.2f", ours / (metro + !metro) }')"
}

own() {
	printf '| %s | %s |\n' "$2" "$(instructions "$build/lv2" fourlimb "$1")"
}

scanned() {
	printf '| %s | %s |\n' "$1" "$("$build/tests/bench/scan" "$2/" | sed 's/   */ | /g; s/[a-z]* //; s/| [a-z]* /| /g; s/ ms//g')"
}

machine=$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1)
printf 'Measured %s on %s cores of %s, %s, -O2.\n\n' "$(date -u +%Y-%m-%d)" "$(nproc)" "$machine" \
	"$(cc --version | head -n 1)"

echo "Instructions of run() in a block of 64 frames at 48 kHz:"
echo
echo "| what happens in each block | Fourlimb | empty | fifths | metro | Fourlimb : metro |"
echo "| --- | --- | --- | --- | --- | --- |"
row standing nothing is sent
row stopped a position, standing
row start rolling, nothing heard, a position at the start
row position rolling, nothing heard, a position
row notes eight MIDI messages
echo
echo "| Fourlimb alone | instructions |"
echo "| --- | --- |"
own scattered "nothing is sent, each control's value in a place of its own"
own busy "the default groove at 160"
own gap "the same, a click that is silent"
own dense "sextuplets at 240"
own fastest "the default groove at 2000"
own wound "wound too fast to be played"
echo
echo "| found by lilv, ms | manifest | plugin | ports |"
echo "| --- | --- | --- | --- |"
scanned Fourlimb "$(cd "$build/lv2/fourlimb.lv2" && pwd)"
scanned fifths "$examples/eg-fifths.lv2"
scanned metro "$examples/eg-metro.lv2"
echo
echo "Instances in one process, by the plugin's own time:"
echo
"$build/tests/bench/instances" "$build/lv2/fourlimb.lv2/fourlimb.so" "$build/lv2/fourlimb.lv2/"
echo
strip -o "$build/stripped.so" "$build/lv2/fourlimb.lv2/fourlimb.so"
echo "Sizes: plugin $(wc -c <"$build/stripped.so") bytes (stripped), bank $(cat "$build"/lv2/fourlimb.lv2/bank/*.ttl | wc -c)."
echo
echo "A playhead moving over 960 x 540 under software GL, % of one core:"
echo
"$build/tests/bench/pane" | grep '^  '
echo
echo "The plugin's own window, 960 x 540, the same way; the plugin's and the X server's time left out:"
echo
"$build/tests/bench/window" | grep '^  '
