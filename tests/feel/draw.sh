#!/bin/sh
# SPDX-License-Identifier: ISC
# draw.sh BUILD FOLDER - renders takes into FOLDER, draws them beside what drummers do
# (feel-*.png) and writes the figures (feel.txt).  "make feel" calls it.
# Needs midicsv, BUILD/picture and BUILD/tests/feel/test_drummers.
set -eu
build=$1 folder=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
mkdir -p "$folder"
# Nobody's own bank: the factory's grooves are drawn.
export XDG_DATA_HOME="$work/nobody"

# take NAME OPTION...: 64 bars without fills as feel-NAME.mid, and as text for the pictures.
take() {
	name=$1
	shift
	"$build/fourlimb" render --force --groove "Left Luggage" --turnaround none --bars 64 "$@" \
		--out "$folder/feel-$name.mid" >"$work/said"
	midicsv "$folder/feel-$name.mid" "$work/feel-$name.csv"
}

# A row of tests/feel/test_drummers has "!" where a model is out of the drummers' band.
statistics() {
	FEEL=1 "$build/tests/feel/test_drummers" >"$work/rows" || echo "(tests/feel/test_drummers fails.)"
	printf '%-15s %-51s %-7s%7s %7s %7s   %8s %-4s %8s %-4s %8s %-4s\n' table statistic limb p10 p50 p90 \
		ours "" first "" white ""
	sed -nE 's/^# ([^ ]+) +(.*[^ ]) +(kick|snare|cymbal) +([^ ]+) +([^ ]+) +([^ ]+) +ours +([^ !]+)(!?) +first +/\1|\2|\3|\4|\5|\6|\7|\8|/p' "$work/rows" |
		sed -E 's/\|([^ !|]+)(!?) +white +([^ !|]+)(!?) *$/|\1|\2|\3|\4/' |
		awk -F '|' 'function of(value, out) { return sprintf("%8s %-4s", value, out) }
			{ sub(/%s/, $3, $2); printf "%-15s %-51s %-7s%7s %7s %7s   %s %s %s\n", $1, $2, $3, $4, $5, $6,
				of($7, $7 + 0 < $4 + 0 || $7 + 0 > $6 + 0 ? "out" : "in"),
				of($9, $10 ? "out" : "in"), of($11, $12 ? "out" : "in") }'
}

dial=$("$build/fourlimb" list controls | sed -n 's/^ *liberty .* at first \([0-9]*\)$/\1/p')
for number in 1 2 3; do
	take eighths-$number --set take=$number
	take sixteenths-$number --set take=$number --hands "Sixteenth hats, one hand"
done
take liberty-0 --set liberty=0
take liberty-dial
take liberty-100 --set liberty=100
{
	echo "How the feel plays beside drummers.  Bands (10, 50, 90 %): Groove MIDI Dataset (Gillick, Roberts, Engel,"
	echo "Eck, Bamman, ICML 2019), CC BY 4.0, as in tests/data/drummers.tsv; \"in\" is within 10 to 90 %."
	"$build/picture" "$folder" "$work" "$dial"
	printf '\nAll statistics of tests/feel/test_drummers: medians of windows; the first model and white noise beside ours\n'
	statistics
} >"$folder/feel.txt"
