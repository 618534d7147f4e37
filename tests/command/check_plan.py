# SPDX-License-Identifier: ISC
"""check_plan.py FOLDER - everything that a practice set's plan says of its files, against
the files as mido reads them.  Prints what differs; needs a set made with split_feet=1, so
that the feet have a key each (General MIDI Level 1 percussion: 35 and 36 the bass drums,
44 the pedal hi-hat; General MIDI 2: 33 and 34 the metronome).

check_plan.py --stray FOLDER - the looseness it states is that of its files, whose strokes
are written on sixteenths."""
import pathlib
import re
import statistics
import sys

import mido

CLICK, RIGHT_FOOT, LEFT_FOOT = {33, 34}, {36}, {35, 44}
FEET = RIGHT_FOOT | LEFT_FOOT
faults = []


def want(what, got, wanted):
    if got != wanted:
        faults.append(f"{what}: the file has {got}, the plan says {wanted}")


def notes(path):
    now, found = 0.0, []
    for message in mido.MidiFile(path):
        now += message.time
        if message.type == "note_on" and message.velocity > 0:
            found.append((now, message.note))
    return found


def meta(path, kind):
    return [message for track in mido.MidiFile(path).tracks for message in track if message.type == kind]


def table(text):
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line.startswith("|")]
    return [row for row in rows if row[0].endswith(".mid")]


def words_of_limbs(name, what, keys):
    words = what.split(": ")[-1].rsplit(" ", 1)[0]
    keys = keys - CLICK
    want(f"{name}: hands", bool(keys - FEET), "hand" in words)
    want(f"{name}: right foot", bool(keys & RIGHT_FOOT), "right foot" in words or "feet" in words)
    want(f"{name}: left foot", bool(keys & LEFT_FOOT), "left foot" in words or "feet" in words)
    want(f"{name}: alone", what.endswith(" alone"), not bool(keys - FEET) or not keys & FEET)


def clicks_by_bar(path, bar, count):
    found = [0] * count
    for at, key in notes(path):
        if key in CLICK:
            found[min(count - 1, int((at + 0.002) / bar))] += 1
    return found


def words_of_click(words, bars):
    """What each bar should have: None where the number isn't said."""
    first, rest = [], words
    found = re.match(r"(\d+) bars? (counted in|of rest), then (.*)", words)
    if found:
        first = [None if found[2] == "counted in" else 0] * int(found[1])
        rest = found[3]
    if rest == "no click":
        return first, [0] * bars
    found = re.fullmatch(r"(?:(\d+) clicks? a bar|clicks)(?:: (\d+) bars? with, (\d+) without| in (\d+) of (\d+) bars)?", rest)
    each = int(found[1]) if found[1] else None
    if found[4]:
        faults.append(f"a gap that isn't by turns: {words}")
    play, gap = (int(found[2]), int(found[3])) if found[2] else (bars, 0)
    return first, [each if i % (play + gap) < play else 0 for i in range(bars)]


def same_clicks(name, got, wanted):
    good = all(g == w or (w is None and g > 0) for g, w in zip(got, wanted))
    if not good:
        faults.append(f"{name}: clicks a bar are {got}, the plan says {wanted}")


def check_row(folder, row, meter):
    name, what, tempo, bars, length, click = row
    path = folder / name
    want(f"{name}: tempo", [m.tempo for m in meta(path, "set_tempo")], [round(60e6 / int(tempo))])
    want(f"{name}: meter", [(m.numerator, m.denominator) for m in meta(path, "time_signature")], [meter])
    want(f"{name}: tempo in its name", name.split("-")[1], f"{int(tempo):03d}")
    bar = meter[0] * 240 / meter[1] / int(tempo)
    first, rest = words_of_click(click, int(bars))
    seconds = mido.MidiFile(path).length
    want(f"{name}: bars", round(seconds / bar, 2), float(len(first) + int(bars)))
    minutes, over = length.split(":")
    want(f"{name}: length", 0 <= 60 * int(minutes) + int(over) - seconds + 0.01 < 1.02, True)
    same_clicks(name, clicks_by_bar(path, bar, len(first) + int(bars)), first + rest)
    words_of_limbs(name, what, {key for _, key in notes(path)})


def check(folder):
    text = (folder / "plan.md").read_text()
    rows = table(text)
    want("files", sorted(path.name for path in folder.glob("*.mid")), [row[0] for row in rows])
    meter = tuple(int(n) for n in re.search(r"^(\d+)/(\d+)[,;]", text, re.M).groups())
    for row in rows:
        check_row(folder, row, meter)
    parts = sorted({row[1] for row in rows if "warm-up" not in row[1]})
    want("an order of parts", "Each tempo:" in text, len(parts) > 1)
    chart = re.search(r"the chart is (\S+)\.$", text, re.M)[1]
    want("chart", (folder / chart).read_bytes()[:5], b"%PDF-")


def measured(folder):
    """Milliseconds, pooled over files and keys, each key's mean taken away."""
    squares = count = 0
    for row in table((folder / "plan.md").read_text()):
        step = 15 / int(row[2])
        by_key = {}
        for at, key in notes(folder / row[0]):
            if key not in CLICK:
                by_key.setdefault(key, []).append(1000 * (at - step * round(at / step)))
        for offsets in by_key.values():
            squares += len(offsets) * statistics.pvariance(offsets)
            count += len(offsets)
    return (squares / count) ** 0.5


def stray(folder):
    said = re.search(r"stray from the grid by (\d+) ms", (folder / "plan.md").read_text())
    got = measured(folder)
    print("measured", round(got, 2), "said", said and said[1])
    if not said:
        want("looseness", got < 0.5 and "don't stray" in (folder / "plan.md").read_text(), True)
    elif not abs(got - int(said[1])) <= 0.6:
        want("looseness", got, int(said[1]))


if __name__ == "__main__":
    (stray if sys.argv[1] == "--stray" else check)(pathlib.Path(sys.argv[-1]))
    for fault in faults[:10]:
        print(fault)
    sys.exit(bool(faults))
