# SPDX-License-Identifier: ISC
"""read.py WHAT FOLDER - an independent reader of MusicXML, on every NAME.xml of a folder.

It knows MusicXML alone: durations in divisions, backup, chord, grace, repeats with endings.
Beside each stands NAME.tsv: the strokes as the engine has them written, one a line (bar, tick in
1441440ths of a quarter note, limb, voice, level), and first a line "meter BEATS UNIT BARS".
WHAT is one of the functions below; it prints what differs, and nothing if all is well."""
import glob
import os
import sys
import xml.etree.ElementTree as ElementTree
from fractions import Fraction

QUARTER = 1441440
TYPES = {"whole": Fraction(4), "half": Fraction(2), "quarter": Fraction(1), "eighth": Fraction(1, 2),
         "16th": Fraction(1, 4), "32nd": Fraction(1, 8), "64th": Fraction(1, 16),
         "128th": Fraction(1, 32), "256th": Fraction(1, 64)}


def whole(element, name):
    return int(element.findtext(name))


def fits_its_sign(note):
    """What the printed value, dots and tuplets say, in quarters."""
    length = TYPES[note.findtext("type")] * (Fraction(3, 2) if note.find("dot") is not None else 1)
    change = note.find("time-modification")
    if change is not None:
        length *= Fraction(whole(change, "normal-notes"), whole(change, "actual-notes"))
    return length


def measure_notes(measure, divisions, names):
    """Strokes of a measure, and the length of each of its voices, in quarters."""
    strokes, lengths, at, last, graces, faults = [], {}, Fraction(0), Fraction(0), 0, []
    for element in measure:
        if element.tag == "backup":
            at -= Fraction(whole(element, "duration"), divisions)
        if element.tag != "note":
            continue
        if element.find("grace") is not None:
            graces += 1
            continue
        length = Fraction(whole(element, "duration"), divisions)
        is_chord = element.find("chord") is not None
        begin = last if is_chord else at
        rest = element.find("rest")
        if (rest is None or rest.get("measure") != "yes") and fits_its_sign(element) != length:
            faults.append("a note lasts %s quarters and looks like %s" % (length, fits_its_sign(element)))
        if not is_chord:
            voice = element.findtext("voice")
            lengths[voice] = lengths.get(voice, 0) + length
            last, at = at, at + length
        if rest is None:
            strokes.append((begin, element, names[element.find("instrument").get("id")], graces))
            graces = 0
    return strokes, lengths, faults


def limb(element):
    is_foot = int(element.findtext("voice")) % 2 == 0
    side = element.findtext("notations/technical/fingering")
    return {"R": "right ", "L": "left "}[side] + ("foot" if is_foot else "hand")


def level(element, graces):
    if graces:
        return {1: "flam", 2: "drag"}[graces]
    if element.find("notations/articulations/accent") is not None:
        return "accent"
    return "ghost" if element.find("notehead").get("parentheses") == "yes" else "normal"


def played(measures):
    """Measures in the order in which they are played."""
    order, at, begin, turn = [], 0, 0, 1
    while at < len(measures):
        measure = measures[at]
        starts = [e.get("number") for e in measure.iter("ending") if e.get("type") == "start"]
        if starts and int(starts[0]) != turn:
            at += 1
            continue
        for repeat in measure.iter("repeat"):
            if repeat.get("direction") == "forward" and begin != at:
                begin, turn = at, 1
        order.append(measure)
        back = [r for r in measure.iter("repeat") if r.get("direction") == "backward"]
        if back and turn < int(back[0].get("times", 2)):
            turn, at = turn + 1, begin
            continue
        if back or (starts and int(starts[0]) == 2):
            begin, turn = at + 1, 1
        at += 1
    return order


class Score:
    def __init__(self, path):
        self.name = os.path.basename(path)
        self.root = ElementTree.parse(path).getroot()
        self.names = {i.get("id"): i.findtext("instrument-name") for i in self.root.iter("score-instrument")}
        self.divisions = int(self.root.findtext("part/measure/attributes/divisions"))
        self.measures = self.root.findall("part/measure")
        with open(path[:-4] + ".tsv", encoding="utf-8") as file:
            rows = [line.rstrip("\n").split("\t") for line in file]
        self.meter, self.written = rows[0], rows[1:]
        self.bar = Fraction(int(self.meter[1]) * 4, int(self.meter[2]))

    def notes(self, measure):
        return measure_notes(measure, self.divisions, self.names)


def measures_last_as_long_as_the_meter(score):
    time = score.root.find("part/measure/attributes/time")
    if [time.findtext("beats"), time.findtext("beat-type")] != score.meter[1:3]:
        yield "the time signature is %s/%s" % (time.findtext("beats"), time.findtext("beat-type"))
    for measure in score.measures:
        for voice, length in score.notes(measure)[1].items():
            if length != score.bar:
                yield "measure %s, voice %s: %s quarters" % (measure.get("number"), voice, length)


def notes_last_as_long_as_they_look(score):
    for measure in score.measures:
        for fault in score.notes(measure)[2]:
            yield "measure %s: %s" % (measure.get("number"), fault)


def strokes_are_those_written(score):
    got = []
    for bar, measure in enumerate(played(score.measures)):
        for begin, note, name, graces in score.notes(measure)[0]:
            got.append((str(bar), str(begin * QUARTER), limb(note), name, level(note, graces)))
    want = [tuple(row) for row in score.written]
    for stroke in sorted(set(got) ^ set(want))[:8]:
        yield "%s: %s" % ("too many" if stroke in got else "missing", ", ".join(stroke))
    if len(got) != len(want):
        yield "%d strokes, %d written" % (len(got), len(want))


def bars_are_those_played(score):
    bars = len(played(score.measures))
    if str(bars) != score.meter[3]:
        yield "%d bars with repeats, %s written" % (bars, score.meter[3])


def hands_have_stems_up_and_feet_down(score):
    for note in score.root.iter("note"):
        if note.find("rest") is None:
            want = "down" if int(note.findtext("voice")) % 2 == 0 else "up"
            if note.findtext("stem") != want:
                yield "voice %s has its stem %s" % (note.findtext("voice"), note.findtext("stem"))


def tuplets_open_and_close_in_each_other(score):
    """Each voice of a measure: numbers are opened once, closed in turn, and their ratios
    multiply to each note's time-modification."""
    for measure in score.measures:
        open_ones = {}
        for note in measure.iter("note"):
            if note.find("grace") is not None or note.find("chord") is not None:
                continue
            voice = open_ones.setdefault(note.findtext("voice"), [])
            marks = note.findall("notations/tuplet")
            stops = [m.get("number") for m in marks if m.get("type") == "stop"]
            for mark in marks:
                if mark.get("type") == "start":
                    ratio = Fraction(int(mark.findtext("tuplet-actual/tuplet-number")),
                                     int(mark.findtext("tuplet-normal/tuplet-number")))
                    voice.append((mark.get("number"), ratio))
            ratio = Fraction(1)
            for _, one in voice:
                ratio *= one
            change = note.find("time-modification")
            told = Fraction(1) if change is None else Fraction(whole(change, "actual-notes"),
                                                               whole(change, "normal-notes"))
            if told != ratio:
                yield "measure %s: a note is told %s under brackets of %s" % (measure.get("number"), told, ratio)
            for number in stops:
                if not voice or voice.pop()[0] != number:
                    yield "measure %s: tuplet %s closes out of turn" % (measure.get("number"), number)
        if any(open_ones.values()):
            yield "measure %s: a tuplet stays open" % measure.get("number")


def beams_open_and_close(score):
    for measure in score.measures:
        open_ones = {}
        for note in measure.iter("note"):
            if note.find("grace") is not None or note.find("chord") is not None:
                continue
            beams = open_ones.setdefault(note.findtext("voice"), set())
            seen = {b.get("number"): b.text for b in note.findall("beam")}
            for number in set(seen) | beams:
                word = seen.get(number)
                if (number in beams) != (word in ("continue", "end")):
                    yield "measure %s: beam %s is %s" % (measure.get("number"), number, word)
                if word == "begin":
                    beams.add(number)
                if word == "end":
                    beams.discard(number)
        if any(open_ones.values()):
            yield "measure %s: a beam stays open" % measure.get("number")


def places_and_heads_are_weinbergs(score):
    """By tests/data/weinberg-places.tsv, through each instrument's MIDI key; what has no row there
    isn't told."""
    with open(os.path.join(os.path.dirname(__file__), "../data/weinberg-places.tsv"), encoding="utf-8") as file:
        rows = [line.split() for line in file if not line.startswith("#")]
    table = {int(row[0]): (row[-2], row[-1]) for row in rows}
    keys = {m.get("id"): int(m.findtext("midi-unpitched", "0")) - 1 for m in score.root.iter("midi-instrument")}
    for note in score.root.iter("note"):
        place = note.find("unpitched")
        if place is not None:
            key = keys[note.find("instrument").get("id")]
            got = (place.findtext("display-step") + place.findtext("display-octave"), note.findtext("notehead"))
            if got != table.get(key, got):
                yield "key %d stands at %s with a head %s" % ((key,) + got)


def main():
    claim = globals()[sys.argv[1]]
    paths = sorted(glob.glob(os.path.join(sys.argv[2], "*.xml")))
    faults = ["%s: %s" % (os.path.basename(path), fault) for path in paths for fault in claim(Score(path))]
    print("\n".join(faults[:20]) if faults else "%d files" % len(paths))
    sys.exit(bool(faults) or not paths)


main()
