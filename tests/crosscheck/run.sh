#!/bin/sh
# SPDX-License-Identifier: ISC
# The program against outside tools that do the same: the npm package
# euclidean-rhythms spreads strokes evenly, LilyPond plays tuplets as MIDI.
# Usage: tests/crosscheck/run.sh BUILD_FOLDER
set -u
here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "$1" && pwd)
. "$here/../checks/tally.sh"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# ---- Even spreading.  Both begin on the first stroke, so the steps must be the
# ---- same sign for sign, not only begun somewhere.
PACKAGE=euclidean-rhythms@3.1.1

has() {
	for tool; do
		command -v "$tool" >/dev/null || return 1
	done
}

install_package() {
	(cd "$work" && npm install --silent --no-audit --no-fund --no-save --prefix "$work" "$PACKAGE")
}

spreadings_are_the_same() {
	"${CC:-cc}" -std=c11 -o "$work/even" "$here/even.c" "$here/../../plugin/bank/steps.c" \
		"$here/../../plugin/engine/written/even.c" || return 1
	"$work/even" >"$work/ours.txt" || return 1
	node "$here/even.js" "$work" >"$work/theirs.txt" || return 1
	[ "$(wc -l <"$work/theirs.txt")" -eq 528 ] || { echo "the package gave no 528 patterns"; return 1; }
	diff "$work/theirs.txt" "$work/ours.txt"
}

sentence="k strokes among n steps are spread as by $PACKAGE, all k to n to 32"
if ! has node npm; then
	skip "$sentence" "node and npm are not installed"
elif ! install_package >"$work/npm.txt" 2>&1; then
	skip "$sentence" "npm can't install $PACKAGE: $(head -n 1 "$work/npm.txt")"
else
	check "$sentence" spreadings_are_the_same
fi

# ---- Tuplets.  LilyPond writes 384 ticks a quarter and rounds down, so places
# ---- agree within one of these.

# Prints the places of the kicks in ticks of 1/384 quarter.
kicks() {
	midicsv "$1" | awk -F ', *' '
		$3 == "Header" { division = $6 }
		$3 == "Note_on_c" && $5 == 36 && $6 > 0 { printf "%.3f\n", $2 * 384 / division }' | sort -n
}

# score N, then options of fourlimb render: one bar, feet alone.
agrees_with_score() {
	midi=$work/tuplets-$1.midi
	[ "$1" -eq 0 ] && midi=$work/tuplets.midi
	shift
	XDG_DATA_HOME=$work/data "$build/fourlimb" render --groove "Upper Station" --bars 1 --tempo 120 --set looseness=0 --set liberty=0 \
		--turnaround none --set right_hand=0 --set left_hand=0 "$@" --out "$work/ours.mid" --force || return 1
	kicks "$midi" >"$work/theirs.txt"
	kicks "$work/ours.mid" >"$work/ours.txt"
	paste "$work/theirs.txt" "$work/ours.txt" | awk '
		NF != 2 || $2 - $1 < -1 || $2 - $1 > 1 { print "stroke " NR ": LilyPond and ours at " $0; bad = 1 }
		END { if (NR < 5) { print "only " NR " strokes"; bad = 1 } exit bad }'
}

# What a notation program makes of a straight file: midi2ly, which comes with LilyPond.
reads_as_strokes() {
	"$build/fourlimb" render --bars 4 --turnaround none --set looseness=0 --set liberty=0 --groove "$1" --out "$work/$1.mid" --force >/dev/null &&
		midi2ly --quiet -o "$work/$1.ly" "$work/$1.mid" 2>/dev/null || return 1
	sed -n '/trackBchannelB/,$p' "$work/$1.ly" | grep -v '^ *%\|skip' | grep -oE "[a-gr>][is,']*[0-9]+" | sed 's/.*[^0-9]//' |
		sort -n | uniq -c >"$work/lengths.txt"
	awk '$2 > 16 { print $1 " notes or rests of a " $2 "th"; bad = 1 } END { exit bad || !NR }' "$work/lengths.txt"
}

# ---- Charts on five lines: LilyPond plays what we wrote for it.  A groove of each meter,
# ---- tuplets over a beat and over the bar, flams, repeats and endings; none is swung, as sheets
# ---- have a shuffle in words alone.
SHEETS="1 4 5 9 29 30 101 130 131 140 144 146 148 149 160 267 273 281"

# Keys and places in ticks of 1/384 quarter, without LilyPond's grace notes: those stand just
# before their stroke and are as soft as it.
strokes_of() {
	midicsv "$1" | awk -F ', *' '
		$3 == "Header" { division = $6 }
		$3 == "Note_on_c" && $6 > 0 { printf "%d %d\n", $2 * 384 / division + 0.5, $5 }' | sort -n -k1,1 -k2,2
}

write_sheets() {
	for sheet in $SHEETS; do
		"$build/fourlimb" chart --groove "$sheet" --notation "$work/sheet-$sheet.ly" --force || return 1
		bars=$("$build/fourlimb" show --groove "$sheet" | grep -c '^bar ')
		"$build/fourlimb" render --groove "$sheet" --bars "$bars" --set looseness=0 --set touch=0 --set liberty=0 \
			--set swing_ratio=1 --out "$work/sheet-$sheet-ours.mid" --force || return 1
	done
}

lilypond_takes_the_sheets() {
	write_sheets >/dev/null || return 1
	(cd "$work" && lilypond --loglevel=WARN -dno-point-and-click $(for sheet in $SHEETS; do echo "sheet-$sheet.ly"; done) 2>&1) | tee "$work/said.txt"
	! [ -s "$work/said.txt" ]
}

# Every stroke of ours is one of LilyPond's, within a tick, but for graces, which are played as
# long before theirs as each likes.
lilypond_plays_the_sheet() {
	strokes_of "$work/sheet-$1-ours.mid" >"$work/ours.txt"
	strokes_of "$work/sheet-$1.midi" >"$work/theirs.txt"
	graces=$(grep -o 'acciaccatura\|grace { [a-z]' "$work/sheet-$1.ly" | wc -l)
	/usr/bin/python3 - "$work/ours.txt" "$work/theirs.txt" "$graces" <<'EOF'
import sys
ours, theirs = ([tuple(map(int, line.split())) for line in open(name)] for name in sys.argv[1:3])
left, graces = list(theirs), int(sys.argv[3])
for place, key in ours:
    near = [one for one in left if one[1] == key and abs(one[0] - place) <= 1]
    is_grace = graces and any(one[1] == key and 0 < one[0] - place <= 48 for one in ours)
    if not near and not is_grace:
        sys.exit(f"LilyPond has no key {key} at {place} of 384 a quarter")
    if near:
        left.remove(near[0])
if len(ours) < 8 or (left and not graces):
    sys.exit(f"{len(ours)} strokes of ours, {len(left)} more of LilyPond's")
EOF
}

lilypond_renders() {
	(cd "$work" && lilypond --silent --output tuplets "$here/tuplets.ly") && [ -s "$work/tuplets-7.midi" ]
}

if ! has lilypond midicsv; then
	skip "tuplets and the shuffle fall where LilyPond has them" "lilypond and midicsv are not installed"
else
	mkdir -p "$work/data/fourlimb" && cp "$here/own.ttl" "$work/data/fourlimb"
	check "LilyPond takes $(echo $SHEETS | wc -w) sheets without a word" lilypond_takes_the_sheets
	for sheet in $SHEETS; do
		check "LilyPond plays the sheet of groove $sheet as it is rendered" lilypond_plays_the_sheet "$sheet"
	done
	check "LilyPond plays the bars of tuplets" lilypond_renders
	check "a straight file reads as sixteenths and longer in a notation program" reads_as_strokes "Lower Station"
	check "so do threes that cross the bar line" reads_as_strokes "Brine Stair"
	check "a beat each of 3, 5, 6 and 7 falls where LilyPond has it" agrees_with_score 0 --feet "A beat each"
	check "five over four falls where LilyPond has it" agrees_with_score 1 --feet "Five over four"
	check "seven over two falls where LilyPond has it" agrees_with_score 2 --feet "Seven over two"
	check "sixteenths re-laid as triplets fall where LilyPond has them" \
		agrees_with_score 3 --feet Sixteenths --set feet_grid=3
	check "sixteenths re-laid as quintuplets fall where LilyPond has them" \
		agrees_with_score 4 --feet Sixteenths --set feet_grid=5
	check "sixteenths re-laid as sextuplets fall where LilyPond has them" \
		agrees_with_score 5 --feet Sixteenths --set feet_grid=6
	check "sixteenths re-laid as septuplets fall where LilyPond has them" \
		agrees_with_score 6 --feet Sixteenths --set feet_grid=7
	check "eighths at a swing of 2 to 1 fall where LilyPond has the shuffle" \
		agrees_with_score 7 --feet Sixteenths --set feet_grid=2 --set swing_ratio=2
fi
tally
