#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""check_pictures.py TABLE FOLDER WHAT - do the figures of FOLDER/feel.txt, which are those that
are drawn, agree with the MIDI files beside it, read by mido, and with the bands of TABLE
(tests/data/drummers.tsv)?  WHAT: spread, habit, contour, likeness, bars or statistics.

Definitions are those on top of TABLE.  Prints what differs; exit status 1 if anything does."""

import statistics as st
import sys
from collections import defaultdict

import mido

LIMBS = {"kick": (35, 36), "snare": (37, 38, 40), "cymbal": (22, 42, 26, 46, 51, 53, 59),
         "hat, foot": (44,), "crash": (49, 52, 55, 57)}
OPEN = (26, 46)
BARS = 64
table, folder, what = sys.argv[1:]
bad = compared = 0


def limb_of(key):
    return next((limb for limb, keys in LIMBS.items() if key in keys), "toms")


def read(name):
    """limb -> slot -> (ms off the click, velocity, key), the loudest of a slot."""
    file = mido.MidiFile(f"{folder}/feel-{name}.mid")
    tempo, strokes = None, defaultdict(dict)
    for track in file.tracks:
        tick = 0
        for message in track:
            tick += message.time
            if message.type == "set_tempo":
                tempo = message.tempo
            elif message.type == "note_on" and message.velocity:
                at = 4 * tick / file.ticks_per_beat
                slot = int(at + 0.5)
                of_limb = strokes[limb_of(message.note)]
                if abs(at - slot) <= 0.42 and of_limb.get(slot, (0, 0))[1] < message.velocity:
                    of_limb[slot] = ((at - slot) / 4 * tempo / 1000, message.velocity, message.note)
    return strokes


def rows():
    with open(table, encoding="utf-8") as file:
        for line in file:
            if not line.startswith("#"):
                yield line.rstrip("\n").split("\t")


BANDS = {tuple(row[:3]): row[3:] for row in rows()}
with open(f"{folder}/feel.txt", encoding="utf-8") as file:
    LINES = [line.rstrip("\n") for line in file]


def same(label, got, want, near):
    """got: text of feel.txt; want: None for a dash."""
    global bad, compared
    compared += 1
    is_same = got == "-" if want is None else got != "-" and abs(float(got) - want) <= near
    if not is_same:
        bad += 1
        print(f"{label}: feel.txt has {got}, want {want}")


def same_band(label, got, row):
    for text, want in zip(got, BANDS.get(row, ["", "", ""])):
        same(f"{label}, band", text, float(want) if want else None, 0.006)


def lines_of(word, count):
    found = [line.split() for line in LINES if line.startswith(word + " ")]
    if len(found) != count:
        sys.exit(f"{len(found)} lines of {word}, want {count}")
    return found


def spread():
    take = read("eighths-1")
    for _, limb, *figures in lines_of("spread", 3):
        same_band(limb, figures, ("timing", "offset sd", limb))
        for part, got in enumerate(figures[3:]):
            x = [ms for slot, (ms, _, _) in take[limb].items() if slot // 128 == part]
            same(f"{limb}, bars from {8 * part + 1}", got, st.pstdev(x), 0.01)


def place_means(strokes, which):
    at = defaultdict(list)
    for slot, stroke in strokes.items():
        at[slot % 16].append(stroke[which])
    return {place: st.mean(x) for place, x in at.items() if len(x) >= 8}


def same_places(label, got, place, takes, limb, which, less):
    for text, take in zip(got, takes, strict=True):
        want = place_means(take[limb], which).get(place)
        if want is not None and less:
            want -= st.mean(stroke[which] for stroke in take[limb].values())
        same(label, text, want, 0.01)


EIGHTHS, SIXTEENTHS = ([f"{name}-{take}" for take in (1, 2, 3)] for name in ("eighths", "sixteenths"))


def habit():
    takes = {limb: [read(n) for n in (SIXTEENTHS if limb == "cymbal" else EIGHTHS)]
             for limb in ("kick", "snare", "cymbal")}
    for _, limb, place, *figures in lines_of("habit", 48):
        label = f"{limb} at {place}"
        same_band(label, figures, ("timing-by-place", f"place {place}", limb))
        same_places(label, figures[3:], int(place) - 1, takes[limb], limb, 0, True)


def contour():
    takes = {"eighths": [read(n) for n in EIGHTHS], "sixteenths": [read(n) for n in SIXTEENTHS]}
    for _, limb, stream, place, *figures in lines_of("contour", 64):
        label = f"{limb} at {place}, hat keeps {stream}"
        row = ("loudness-by-place", f"place {place}", stream)
        same_band(label, figures, row if limb == "cymbal" else None)
        of = takes["eighths" if stream == "-" else stream]
        same_places(label, figures[3:], int(place) - 1, of, limb, 1, limb == "cymbal")
    for _, limb, level, _, *figures in lines_of("levels", 6):
        same_band(f"{limb}, {level}", figures, ("loudness", f"{level}: mean", limb))


def middle(level):
    return float(BANDS["loudness", f"{level}: mean", "snare"][1])


SOFT = (middle("ghosts") + middle("normal")) / 2
LIBERTIES = ("liberty-0", "liberty-dial", "liberty-100")


def bars_of(take, part):
    """Sets of (limb, place), bar by bar."""
    bars = [set() for _ in range(BARS)]
    for limb, strokes in take.items():
        for slot, (_, velocity, _) in strokes.items():
            if slot // 16 < BARS and (
                    part == "all" and limb != "crash" or part == "kick" == limb
                    or part == "hat" and limb == "cymbal"
                    or limb == "snare" and (part == "ghosts" and velocity < SOFT
                                            or part == "snare" and velocity >= SOFT
                                            or part == "backbeat" and velocity >= SOFT
                                            and slot % 16 in (4, 12))):
                bars[slot // 16].add((limb, slot % 16))
    return bars


def alike(take, part):
    bars = bars_of(take, part)
    shares = [len(a & b) / len(a | b) for a, b in zip(bars, bars[1:]) if a | b]
    return st.mean(shares) if shares else None


def absent(take, part):
    """What the next bar lacks, at whatever loudness."""
    bars, every = bars_of(take, part), bars_of(take, "all")
    here = sum(len(bar) for bar in bars[:-1])
    return sum(len(a - b) for a, b in zip(bars, every[1:])) / here if here else None


def likeness():
    takes = [read(name) for name in LIBERTIES]
    of = {"hat": "cymbal"}
    for _, part, *figures in lines_of("likeness", 5):
        same_band(part, figures, ("liberty-likeness", "Jaccard, one bar on", of.get(part, part)))
        for got, take in zip(figures[3:], takes, strict=True):
            same(f"likeness, {part}", got, alike(take, part), 0.001)
    of = {"hat": "hat or ride", "ghosts": "snare ghost", "backbeat": "snare on the backbeat"}
    for _, part, *figures in lines_of("absent", 5):
        same_band(part, figures, ("liberty-strokes", "absent in the next bar, all strokes together",
                                  of.get(part, part)))
        for got, take in zip(figures[3:], takes, strict=True):
            same(f"absent, {part}", got, absent(take, part), 0.001)


def sign(limb, before, now):
    if not before or not now:
        return "." if not before and not now else "-" if before else "+"
    was_open, is_open = before[2] in OPEN, now[2] in OPEN
    return ("^" if is_open and not was_open else "v" if was_open and not is_open
            else "g" if limb == "snare" and now[1] < SOFT else "o")


def bars():
    """The text of eight bars: liberty after liberty, four bars a line."""
    global bad, compared
    takes = [read(name) for name in LIBERTIES]
    liberty, first = -1, 0
    got = {}
    for line in LINES:
        if line.startswith("Liberty "):
            liberty += 1
        elif line.startswith("  bars "):
            first = int(line.split()[1]) - 1
        elif "|" in line:
            limb = {"hat": "cymbal"}.get(line[2:12].strip(), line[2:12].strip())
            for place, one in enumerate(line[12:].replace("|", "").strip()):
                got[liberty, limb, 16 * first + place] = one
    for number, take in enumerate(takes):
        for limb in set(takes[0]) | set(take):
            for slot in range(128):
                want = sign(limb, takes[0][limb].get(slot), take[limb].get(slot))
                compared += 1
                if got.get((number, limb, slot), ".") != want:
                    bad += 1
                    print(f"{LIBERTIES[number]}, {limb}, sixteenth {slot}: "
                          f"{got.get((number, limb, slot))}, want {want}")


def statistics():
    """Each row: its band is the table's, and it says "in" where the figure is in it."""
    global bad, compared
    start = next(i for i, line in enumerate(LINES) if line.startswith("table "))
    for line in LINES[start + 1:]:
        name, statistic, limb, p10, p50, p90, *models = line[:15].split() + [
            line[16:67].strip()] + line[68:].split()
        band = [row[3:] for key, row in ((k, list(k) + v) for k, v in BANDS.items())
                if key[:2] == (name, statistic) and [f"{float(x):.3g}" for x in row[3:] if x]
                == [f"{float(x):.3g}" for x in (p10, p50, p90)]]
        said = [word == "in" for word in models[1::2]]
        want = [float(p10) <= float(x) <= float(p90) for x in models[::2]]
        on_edge = [x in (p10, p90) for x in models[::2]]  # within what is printed
        compared += 1
        if not band or len(models) != 6 or any(
                a != b and not edge for a, b, edge in zip(said, want, on_edge)):
            bad += 1
            print(f"{line}: band in the table {bool(band)}, in or out should be {want}")
    if compared < 120:
        sys.exit(f"{compared} rows, want 120 or more")


globals()[what]()
print(f"{compared} compared, {bad} differ")
sys.exit(bad > 0 or compared == 0)
