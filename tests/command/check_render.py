#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""check_render.py PRESETS FILE.mid BARS LABEL [EVERY [BEATS]] - is every note of a rendered
groove on the tick where the groove's Turtle has it, and no note anywhere else?  EVERY and
BEATS: how often fills are asked for and how long they are at most; 0 or none: as written.

Reads the Turtle by the few patterns it is written in and works out the strokes by
fractions, after the words of ttl/terms.ttl: nothing of the plugin's is used.  The file
is read by mido.  Prints what differs; exit status 1 if anything does."""

import re
import sys
from fractions import Fraction

import mido

LEVELS = {".": 0, "g": 1, "o": 2, "O": 3, "f": 3, "d": 3}
GRACES = {"f": 1, "d": 2}  # soft strokes before the main one, which a file has too
GRACE_MOST = 0.15  # seconds that they come before it at most
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
        self.strokes = []  # quarter notes from the start, limb, voice, sign
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
                self.strokes.append((place * step, limb, voice, sign))
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
            for at, limb, voice, sign in self.strokes:
                place = at - start + shift
                if start <= at < start + period and 0 <= place < bar_length:
                    yield place, limb, voice, sign
            shift += period


HATS = ("hatClosed", "hatHalfOpen", "hatOpen")  # from shut to open
KEEPS_TIME = ("hat", "ride", "rideBell", "crash", "crash2", "china", "cowbell", "tomFloor")
SHOULDER = ("crash", "china", "rideBell")


def most(counted):
    """What is struck most; of two struck as often the one struck first."""
    return max(counted, key=lambda what: (counted[what], -list(counted).index(what)))


def rides_on(figure, to):
    """The strokes of a hands figure whose timekeeping is moved to another voice: after the
    words of ride_on.h, for those figures that stand in parts with fl:rideOn."""
    strokes = sorted(figure.strokes, key=lambda s: (s[0], LIMBS.index(s[1])))
    struck, by_hand, hats = {}, {}, {}
    for _, limb, voice, _ in strokes:
        what = "hat" if voice in HATS else voice
        struck[what] = struck.get(what, 0) + 1
        by_hand.setdefault(limb, {}).setdefault(what, 0)
        by_hand[limb][what] += 1
        if voice in HATS:
            hats[voice] = hats.get(voice, 0) + 1
    times = {what: count for what, count in struck.items() if what in KEEPS_TIME}
    keeper = most(times) if times else None
    hand = max(("rightHand", "leftHand"), key=lambda h: by_hand.get(h, {}).get(keeper, 0))
    others = [n for what, n in by_hand.get(hand, {}).items() if what != keeper]
    keeps = by_hand.get(hand, {}).get(keeper, 0)
    if not keeper or any(n > keeps - (keeper == "tomFloor") for n in others):
        return strokes
    usual = most(hats) if keeper == "hat" else keeper
    moving = HATS if keeper == "hat" and to not in HATS else (usual,)
    moved = []
    for at, limb, voice, sign in strokes if to != usual else ():
        opened = keeper == "hat" and voice in HATS and HATS.index(voice) > HATS.index(usual)
        if voice in moving:
            sign = ("O" if opened and LEVELS[sign] < 3 else
                    "o" if to in SHOULDER and sign == "g" else sign)
            voice = to
        moved.append((at, limb, voice, sign))
    return moved or strokes


class Groove:
    def __init__(self, presets, label, every, beats):
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
        self.every = every or len(self.form)
        self.asked = every > 0
        self.fill_most = Fraction(beats * 4, self.beats[1])
        self.parts = {}
        self.open = set()  # a ridden hat that a foot may close
        for part in re.findall(r"\[ (fl:letter .*?) \]", text):
            letter = first(r'fl:letter "(\w)"', part)
            names = (first(r"fl:hands ([\w:-]+)", part), first(r"fl:feet ([\w:-]+)", part))
            self.parts[letter] = [Figure(figures[n]) if n else None for n in names]
            ride_on = first(r"fl:rideOn fl:(\w+)", part)
            if ride_on and self.parts[letter][0]:
                self.parts[letter][0].strokes = rides_on(self.parts[letter][0], ride_on)
                self.open = {ride_on} & set(HATS[1:])

    def fill_length(self):
        """Its own, its bars' or four bars', from line to line, as many beats as asked."""
        fill = self.turnaround
        lengths = [fill.length, (fill.bars or 4) * self.bar, self.every * self.bar]
        return min(lengths + ([self.fill_most] if self.fill_most else []))

    def left_of_fill(self, at):
        """Quarter notes from a place in a fill to the line where it ends; 0 in none."""
        span = self.every * self.bar
        left = span - at % span
        return left if self.turnaround and left <= self.fill_length() else 0

    def is_crash(self, number):
        line = number * self.bar
        comes = number % len(self.form) == 0 or (
            self.asked and self.turnaround and number % self.every == 0)
        goes_on = 0 < self.left_of_fill(line) < self.fill_length()
        return self.crash and comes and not goes_on

    def fill_strokes(self, number):
        line = (number // self.every + 1) * self.every * self.bar - number * self.bar
        for at, limb, voice, sign in self.turnaround.strokes if self.turnaround else ():
            place = line - (self.turnaround.length - at)
            if 0 <= place < self.bar and self.left_of_fill(number * self.bar + place):
                yield place, limb, voice, sign

    def bar_strokes(self, number):
        in_phrase = number % len(self.form)
        strokes = {}
        for index, figure in enumerate(self.parts[self.form[in_phrase]]):
            gives_way = self.turnaround and (index == 0 or self.turnaround.has_feet())
            for place, limb, voice, sign in figure.in_bar(in_phrase, self.bar) if figure else ():
                if not (gives_way and self.left_of_fill(number * self.bar + place)):
                    strokes[place, limb] = (voice, sign)
        pedals = {place for (place, _), (voice, _) in strokes.items() if voice == "hatPedal"}
        for (place, limb), (voice, sign) in strokes.items():
            if place in pedals and voice in self.open:
                strokes[place, limb] = ("hatClosed", sign)
        for place, limb, voice, sign in self.fill_strokes(number):
            strokes[place, limb] = (voice, sign)
        if self.is_crash(number):
            strokes[Fraction(0), "rightHand"] = ("crash", "O")
        return strokes


def kit_keys(presets):
    """The keys of the kit map with id 1."""
    text = next(t for t in entries(f"{presets}/kits.ttl").values() if "fl:id 1 ;" in t)
    pairs = re.findall(r"fl:voice fl:(\w+) ; fl:note (\d+)", text)
    return {voice: int(note) for voice, note in pairs}


def expected_notes(presets, groove, bars, division):
    """(tick, key) to whether a foot plays it and the level; two limbs on one key at once are
    one note, the louder.  And (tick, key) to how many grace notes come before it."""
    keys = kit_keys(presets)
    notes, graces = {}, {}
    for number in range(bars):
        for (place, limb), (voice, sign) in groove.bar_strokes(number).items():
            tick = (number * groove.bar + place) * division
            note = (tick, keys[voice])
            heard = (limb.endswith("Foot"), LEVELS[sign])
            notes[note] = max(heard, notes.get(note, heard))
            if sign in GRACES:
                graces[note] = GRACES[sign]
    return notes, graces


def take_graces(graces, expected, rendered, most, faults):
    """Takes the grace notes out of what was rendered: so many soft ones before each main
    stroke, which have to be there unless another stroke leaves no time for them."""
    for tick, key in sorted(graces):
        before = [note for note in rendered
                  if note[1] == key and tick - most <= note[0] < tick and note not in expected
                  and rendered[note] < rendered.get((tick, key), 0)]
        if len(before) > graces[tick, key]:
            faults.append(f"{len(before)} grace notes of key {key} before {tick}")
        for note in before:
            del rendered[note]


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
    """A level of the hands or of the feet is one velocity, and a louder level a higher one."""
    heard = {}
    for note, (is_foot, level) in expected.items():
        heard.setdefault((is_foot, level), set()).add(rendered.get(note))
    faults = [f"level {level} has velocities {sorted(map(str, v))}"
              for level, v in heard.items() if len(v) != 1]
    for feet in (False, True):
        loudness = [min(map(lambda x: x or 0, v)) for of, v in sorted(heard.items()) if of[0] == feet]
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


def check(presets, path, bars, label, every, beats):
    midi = mido.MidiFile(path)
    groove = Groove(presets, label, every, beats)
    expected, graces = expected_notes(presets, groove, bars, midi.ticks_per_beat)
    faults = head_faults(midi, groove) + length_faults(midi, groove, bars)
    rendered = rendered_notes(midi, faults)
    most = GRACE_MOST * groove.tempo / 60 * midi.ticks_per_beat
    take_graces(graces, expected, rendered, most, faults)
    faults += [f"missing: key {key} at {tick}" for tick, key in sorted(expected.keys() - rendered)]
    faults += [f"not wanted: key {key} at {tick}" for tick, key in sorted(rendered.keys() - expected)]
    if not expected:
        faults.append("the Turtle has no strokes: this check read nothing")
    return faults or velocity_faults(expected, rendered)


def main():
    presets, path, bars, label, *fills = sys.argv[1:]
    every, beats = [int(number) for number in fills + ["0", "0"]][:2]
    faults = check(presets, path, int(bars), label, every, beats)
    for fault in faults[:10]:
        print(f"{label}: {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
