# SPDX-License-Identifier: ISC
"""check_play.py - `fourlimb check --groove` against counts of its own.

rendered TABLE CSV RH LH RF LF   the table (a file) of so many seconds is what midicsv says of
                                 files with one limb each
lightened TEXT RATE LIMB         what `--lighten` printed: the limb's strokes are some of those
                                 before, no second has more than RATE, all other limbs are whole

Limits are those published: 10 a second for a hand (Fujii, Kudo, Ohtsuki, Oda 2009); 1208 strokes
of two hands in a minute (competition record, 2013); 1034, 4595 and 13309 of two feet in 1, 5 and
15 minutes (competition, 30 January 2007)."""
import math
import re
import sys

BLUR = 0.0005  # a file's ticks are rounded
HAND, FOOT, HANDS, FEET = 10.0, 1034 / 120, 1208 / 60, 1034 / 60
RATES = [HAND, HAND, FOOT, FOOT, HANDS, FEET]
RUN_GAPS = [0.25] * 4 + [0.125] * 2
ROWS = ["strokes", "busiest second", "at most", "", "mean a second", "longest run", "seconds", "closest two ms",
        "at least", "", "close in a row", "at most", "", "tightest move", "needs, ms", "", "minutes",
        "at a second", "at most", ""]


def share(minutes):
    """Of the rate that is kept up for a minute: straight on logarithmic axes."""
    a, b, c = (1, 1.0), (5, 4595 / 5 / 1034), (15, 13309 / 15 / 1034)
    if minutes <= 1:
        return 1.0
    (m1, s1), (m2, s2) = (a, b) if minutes <= 5 else (b, c)
    return s1 * (minutes / m1) ** (math.log(s2 / s1) / math.log(m2 / m1))


def notes(path):
    """Seconds at which notes begin, notes together once."""
    division = tempo = None
    found = []
    for line in open(path, encoding="latin-1"):
        cells = line.split(", ")
        if cells[2] == "Header":
            division = int(cells[5])
        elif cells[2] == "Tempo":
            tempo = int(cells[3]) / 1e6
        elif cells[2] == "Note_on_c" and int(cells[5]) > 0:
            found.append(int(cells[1]) / division * tempo)
    return once(found)


def once(times):
    kept = []
    for time in sorted(times):
        if not kept or time - kept[-1] > BLUR:
            kept.append(time)
    return kept


def table(path):
    """The cells of each row, and bars, beats a minute and meter from the head."""
    lines = open(path).read().splitlines()
    meter = re.search(r", (\d+)/(\d+) at ([\d.]+), [\d.]+ minutes, (\d+) bars$", lines[0])
    at = next(i for i, line in enumerate(lines) if "both feet" in line) + 1
    rows = []
    for label, line in zip(ROWS, lines[at:]):
        if line[:14].strip() != label:
            raise SystemExit(f"got the row {line!r}, want {label!r}")
        rows.append(line[14:].split())
    return rows, [float(text) for text in meter.groups()]


def hardness(times, rate):
    """(minutes at each number of strokes a second, kept up, of what can be)"""
    busy = [sum(1 for other in times[max(0, i - 80):i + 1] if times[i] - other < 1 - BLUR) for i in range(len(times))]
    found = []
    for least in range(1, max(busy, default=0) + 1):
        gaps = [times[i] - times[i - 1] for i in range(1, len(times)) if busy[i] >= max(least, 2)]
        minutes = sum(gaps) / 60
        kept = min(least, len(gaps) / sum(gaps)) if gaps else 0.0
        most = rate * share(minutes)
        found.append((minutes, kept, most))
    lasting = [row for row in found if row[0] >= 1 - 1e-6]
    return lasting or found, max(busy, default=0)


def near(got, want, off):
    return abs(float(got) - want) <= off + 1e-9


def stream_faults(rows, column, times, seconds):
    rate = RATES[column]
    got = [row[column] for row in rows]
    if not times:
        return [] if got[0] == "0" and set(got[1:]) == {"-"} else [f"silent, but {got}"]
    found, busiest = hardness(times, rate)
    runs, begin = [], 0
    for i in range(1, len(times) + 1):
        if i == len(times) or times[i] - times[i - 1] > RUN_GAPS[column] + BLUR:
            runs.append((i - begin, times[i - 1] - times[begin]))
            begin = i
    longest = max(runs, key=lambda run: run[0])
    gaps = [b - a for a, b in zip(times, times[1:])]
    wanted = {0: (len(times), 0), 1: (busiest, 0), 2: (rate, 0.05), 4: (len(times) / seconds, 0.051),
              5: (longest[0], 0), 6: (longest[1], 0.051), 7: (1000 * min(gaps), 0.55)} if gaps else {0: (len(times), 0)}
    faults = [f"{ROWS[i]}: got {got[i]}, want {want}" for i, (want, off) in wanted.items() if not near(got[i], want, off)]
    hardest = max((kept / most for _, kept, most in found), default=0)
    told = [float(got[i]) for i in (16, 17, 18)]
    for minutes, kept, most in found:
        if kept / most > hardest - 0.002 and all(near(a, b, c) for a, b, c in zip(told, (minutes, kept, most), (0.011, 0.06, 0.06))):
            return faults
    return faults + [f"kept up: got {told}, want the hardest of {found}"]


def rendered(path, *files):
    rows, (beats, unit, tempo, bars) = table(path)
    seconds = bars * beats * 4 / unit * 60 / tempo
    limbs = [notes(name) for name in files]
    streams = limbs + [once(limbs[0] + limbs[1]), once(limbs[2] + limbs[3])]
    faults = []
    for column, times in enumerate(streams):
        faults += [f"column {column + 1}: {fault}" for fault in stream_faults(rows, column, times, seconds)]
    if not faults:
        print(sum(len(times) for times in limbs), "strokes")
    print("\n".join(faults))
    return not faults and sum(len(times) for times in limbs) > 0


def bars_of(text):
    """Each bar of the phrase: {limb and voice: signs} before and after."""
    bars, part = [], None
    for line in text.split("Lightened to")[1].splitlines()[1:]:
        head = re.match(r"bar (\d+)(, before|, after|: as bar \d+|: nothing is left out)$", line)
        if head and head[2] == ", before":
            bars.append({"before": {}, "after": {}})
        if head:
            part = head[2][2:] if head[2].startswith(", ") else None
            if head[2].startswith(": as bar"):
                bars.append(bars[-1])
            if head[2].startswith(": nothing"):
                return None
        elif "both feet" in line:
            break
        elif part and "," in line:
            name, signs = line[:30].strip(), line[30:].replace(" ", "")
            bars[-1][part][name] = signs
    return bars


def struck(bars, part, limb, seconds):
    times = []
    for turn in range(4):
        for i, bar in enumerate(bars):
            for name, signs in bar[part].items():
                if name.startswith(limb):
                    times += [(turn * len(bars) + i + at / len(signs)) * seconds for at, sign in enumerate(signs) if sign != "."]
    return once(times)


def lightened(path, rate, limb):
    text = open(path).read()
    beats, unit, tempo = (float(found) for found in re.search(r", (\d+)/(\d+) at ([\d.]+),", text).groups())
    seconds = beats * 4 / unit * 60 / tempo
    bars = bars_of(text)
    before, after = struck(bars, "before", limb, seconds), struck(bars, "after", limb, seconds)
    print(limb, len(before), "strokes, then", len(after))
    if not 0 < len(after) < len(before) or not set(after) <= set(before):
        return False
    for bar in bars:
        for name, signs in bar["before"].items():
            if not name.startswith(limb) and bar["after"].get(name) != signs:
                print(name, "changed")
                return False
    busiest = max(sum(1 for other in after if 0 <= time - other < 1 - BLUR) for time in after)
    was = max(sum(1 for other in before if 0 <= time - other < 1 - BLUR) for time in before)
    print("busiest second", was, "then", busiest, "of", rate)
    return busiest <= int(rate) < was


if __name__ == "__main__":
    checks = {check.__name__: check for check in (rendered, lightened)}
    sys.exit(not checks[sys.argv[1]](*sys.argv[2:]))
