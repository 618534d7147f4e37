#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""check_render.py PRESETS FILE.mid BARS LABEL - is every note of a rendered groove on
the tick where the groove's Turtle has it, and no note anywhere else?

Reads the Turtle by the few patterns it is written in and works out the strokes by
fractions, after the words of ttl/terms.ttl: nothing of the plugin's is used.  The file
is read by mido.  Prints what differs; exit status 1 if anything does."""

import re
import sys
from fractions import Fraction

import mido

LEVELS = {".": 0, "g": 1, "o": 2, "O": 3}
LIMBS = ("rightHand", "leftHand", "rightFoot", "leftFoot")


def first(pattern, text, otherwise=None):
    found = re.search(pattern, text)
    return found.group(1) if found else otherwise


def entries(path):
    """The entries of a file by name: their text."""
    text = open(path, encoding="utf-8").read()
    blocks = re.split(r"\n\n(?=\w+:[\w-]+\n)", text)
    return {first(r"^(\w+:[\w-]+)\n", block): block for block in blocks[1:]}


class Figure:
    def __init__(self, text):
        self.bars = int(first(r"fl:bars (\d+)", text, "0"))
        self.strokes = []  # quarter notes from the start, limb, voice, level
        self.length = Fraction(0)
        for line in re.findall(r"\[ (fl:limb .*?) \]", text):
            self.add_line(line)

    def add_line(self, line):
        limb = first(r"fl:limb fl:(\w+)", line)
        voice = first(r"fl:voice fl:(\w+)", line)
        grid = int(first(r"fl:grid (\d+)", line))
        step = Fraction(int(first(r"fl:over (\d+)", line, "1")), grid)
        signs = re.sub(r"[ |]", "", first(r'fl:steps "(.*?)"', line))
        for place, sign in enumerate(signs):
            if LEVELS[sign]:
                self.strokes.append((place * step, limb, voice, LEVELS[sign]))
        self.length = max(self.length, step * len(signs))

    def has_feet(self):
        return any(limb.endswith("Foot") for _, limb, _, _ in self.strokes)

    def in_bar(self, in_phrase, bar_length):
        """Strokes of one bar, from its bar line; in_phrase counts bars from 0."""
        if self.bars:
            period = self.length / self.bars
            start = in_phrase % self.bars * period
            shift = Fraction(0)
        else:
            period, start = self.length, Fraction(0)
            shift = -(in_phrase * bar_length % period)
        while shift < bar_length:
            for at, limb, voice, level in self.strokes:
                place = at - start + shift
                if start <= at < start + period and 0 <= place < bar_length:
                    yield place, limb, voice, level
            shift += period


class Groove:
    def __init__(self, presets, label):
        figures = {}
        for name in ("hands", "feet", "turnarounds"):
            figures.update(entries(f"{presets}/{name}.ttl"))
        wanted = f'rdfs:label "{label}" ;'
        text = next(t for t in entries(f"{presets}/grooves.ttl").values() if wanted in t)
        self.form = first(r'fl:form "(\w+)"', text)
        self.bar = Fraction(4 * int(first(r"fl:beatsPerBar (\d+)", text)),
                            int(first(r"fl:beatUnit (\d+)", text)))
        self.beats = (int(first(r"fl:beatsPerBar (\d+)", text)),
                      int(first(r"fl:beatUnit (\d+)", text)))
        self.tempo = int(first(r"fl:tempo (\d+)", text))
        self.crash = "fl:crashStart true" in text
        turnaround = first(r"fl:turnaround ([\w:-]+)", text)
        self.turnaround = Figure(figures[turnaround]) if turnaround else None
        self.parts = {}
        for part in re.findall(r"\[ (fl:letter .*?) \]", text):
            letter = first(r'fl:letter "(\w)"', part)
            names = (first(r"fl:hands ([\w:-]+)", part), first(r"fl:feet ([\w:-]+)", part))
            self.parts[letter] = [Figure(figures[n]) if n else None for n in names]

    def bar_strokes(self, number):
        in_phrase = number % len(self.form)
        hands, feet = self.parts[self.form[in_phrase]]
        if self.turnaround and in_phrase == len(self.form) - 1:
            hands = self.turnaround
            feet = None if hands.has_feet() else feet
        strokes = {}
        for figure in filter(None, (hands, feet)):
            for place, limb, voice, level in figure.in_bar(in_phrase, self.bar):
                strokes[place, limb] = (voice, level)
        if self.crash and in_phrase == 0:
            strokes[Fraction(0), "rightHand"] = ("crash", LEVELS["O"])
        return strokes


def kit_keys(presets):
    """The keys of the kit map with id 1."""
    text = next(t for t in entries(f"{presets}/kits.ttl").values() if "fl:id 1 ;" in t)
    pairs = re.findall(r"fl:voice fl:(\w+) ; fl:note (\d+)", text)
    return {voice: int(note) for voice, note in pairs}


def expected_notes(presets, groove, bars, division):
    """(tick, key) to level; two limbs on one key at once are one note, the louder."""
    keys = kit_keys(presets)
    notes = {}
    for number in range(bars):
        for (place, _), (voice, level) in groove.bar_strokes(number).items():
            tick = (number * groove.bar + place) * division
            note = (tick, keys[voice])
            notes[note] = max(level, notes.get(note, 0))
    return notes


def rendered_notes(midi, faults):
    """(tick, key) to velocity, of the last track; a note twice at once is a fault."""
    notes, tick = {}, 0
    for message in midi.tracks[-1]:
        tick += message.time
        if message.type == "note_on" and message.velocity:
            if (tick, message.note) in notes:
                faults.append(f"twice: key {message.note} at {tick}")
            notes[tick, message.note] = message.velocity
    return notes


def velocity_faults(expected, rendered):
    """A level is one velocity, and a louder level a higher one."""
    heard = {}
    for note, level in expected.items():
        heard.setdefault(level, set()).add(rendered.get(note))
    faults = [f"level {level} has velocities {sorted(map(str, v))}"
              for level, v in heard.items() if len(v) != 1]
    loudness = [min(map(lambda x: x or 0, heard[level])) for level in sorted(heard)]
    if loudness != sorted(set(loudness)):
        faults.append(f"louder levels are not higher velocities: {loudness}")
    return faults


def first_meta(midi, kind):
    return next((m for m in midi.tracks[0] if m.type == kind), None)


def head_faults(midi, groove):
    meter = first_meta(midi, "time_signature")
    tempo = first_meta(midi, "set_tempo")
    faults = []
    if (meter.numerator, meter.denominator) != groove.beats:
        faults.append(f"meter {meter.numerator}/{meter.denominator}, wanted {groove.beats}")
    if tempo.tempo != round(60000000 / groove.tempo):
        faults.append(f"tempo {tempo.tempo} us, wanted {60000000 / groove.tempo}")
    return faults


def length_faults(midi, groove, bars):
    """Both tracks end on the bar line after the last bar."""
    end = bars * groove.bar * midi.ticks_per_beat
    lengths = [sum(message.time for message in track) for track in midi.tracks]
    return [f"a track ends at {length}, wanted {end}" for length in lengths if length != end]


def check(presets, path, bars, label):
    midi = mido.MidiFile(path)
    groove = Groove(presets, label)
    expected = expected_notes(presets, groove, bars, midi.ticks_per_beat)
    faults = head_faults(midi, groove) + length_faults(midi, groove, bars)
    rendered = rendered_notes(midi, faults)
    faults += [f"missing: key {key} at {tick}" for tick, key in sorted(expected.keys() - rendered)]
    faults += [f"not wanted: key {key} at {tick}" for tick, key in sorted(rendered.keys() - expected)]
    if not expected:
        faults.append("the Turtle has no strokes: this check read nothing")
    return faults or velocity_faults(expected, rendered)


def main():
    presets, path, bars, label = sys.argv[1:]
    faults = check(presets, path, int(bars), label)
    for fault in faults[:10]:
        print(f"{label}: {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
