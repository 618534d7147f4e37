# SPDX-License-Identifier: ISC
"""Compares what Ardour recorded with what a drummer would play.

What is wanted is worked out here from rows of steps by fractions, without any of
the plugin's code.  Ardour writes recorded notes in its own musical time, 1920 ticks
to a quarter note: it rounds the sample of a stroke to the nearest tick, and so it
does the sample where the recording began, so a note may be off by a tick (10 samples
at 150 a minute) and no more.  The exported sound is exact to the sample.

Usage: check_takes.py FOLDER   (as takes.lua left it)
"""
import array
import struct
import sys
import xml.etree.ElementTree as xml
from fractions import Fraction
from pathlib import Path

import mido

RATE = 48000
TICK = Fraction(1, 1920)  # Ardour's, of a quarter note
SLACK = TICK
SUPERCLOCKS = 282240000  # a second, as the session file says
CRASH, HAT, SNARE, TOM_HIGH, TOM_FLOOR, KICK = 49, 42, 38, 50, 43, 36
CHANNEL = 9  # General MIDI's drums; channels are counted from 0 here

# What ../live/bank/two_bars.ttl says: key, steps in a quarter note, steps.
FOUR = [
    (CRASH, 4, "O... .... .... .... .... .... .... ...."),
    (HAT, 4, "..o. O.o. O.o. O.o. .... .... .... ...."),
    (SNARE, 4, ".... O..g .g.. O... .... .... .... ...."),
    (TOM_HIGH, 3, "... ... ... ... O.o O.o ... ..."),
    (TOM_FLOOR, 4, ".... .... .... .... .... .... oooo OOOO"),
    (KICK, 4, "o..o ..o. .o.. o..o ..o. .o.. o..o ..o."),
]
# Cut short by bars of 7/8: hands lose their end, the fill, whose end stands on the line, its
# beginning; its triplets are off the second bar's grid.
SEVEN = [
    (CRASH, 4, "O... .... .... .. .... .... .... .."),
    (HAT, 4, "..o. O.o. O.o. O. .... .... .... .."),
    (SNARE, 4, ".... O..g .g.. O. .... .... .... .."),
    (TOM_HIGH, 6, "...... ...... ...... ... .o.O.. .o.... ...... ..."),
    (TOM_FLOOR, 4, ".... .... .... .. .. .... oooo OOOO"),
    (KICK, 4, "o..o ..o. .o.. o. .o.. o..o ..o. .o"),
]


# A lane of feet goes from the threes to quarters at the third bar line.
LANE = [
    (key, grid, steps + " " + steps[: len(steps) // 2].strip() if key != KICK else steps + " o... o... o... o...")
    for key, grid, steps in FOUR
]


def strokes(rows, begin, end):
    """(place, key, level) for begin <= place < end, places in quarter notes."""
    found = []
    for key, grid, steps in rows:
        signs = steps.replace(" ", "")
        step = max(0, int(begin * grid) - 1)
        while Fraction(step, grid) < end:
            place, level = Fraction(step, grid), signs[step % len(signs)]
            if place >= begin and level != ".":
                found.append((place, key, level))
            step += 1
    return sorted(found)


class Take:
    """A session's recording: notes as (place, end, key, velocity), all in quarter
    notes from where the recording began; `begin` is that place in the song."""

    def __init__(self, folder, name, quarters_per_minute):
        session = xml.parse(folder / name / (name + ".ardour")).getroot()
        source = session.find(".//Source[@captured-for='tape']")
        if source is None:
            raise ValueError("nothing was recorded")
        place = source.get("natural-position")
        if place[0] == "b":
            self.begin = int(place[1:]) * TICK
        else:
            self.begin = Fraction(int(place[1:]), SUPERCLOCKS) * quarters_per_minute / 60
        regions = session.findall(".//Playlist/Region")
        lengths = [r.get("length").split("@")[0] for r in regions if r.get("source-0") == source.get("id")]
        self.length = sum(int(length[1:]) for length in lengths) * TICK
        self.faults = []
        self.read(folder / name / "interchange" / name / "midifiles" / source.get("name"))

    def read(self, path):
        midi = mido.MidiFile(path)
        now, sounding, self.notes = 0, {}, []
        for message in midi.tracks[0]:
            now += message.time
            place = Fraction(now, midi.ticks_per_beat)
            if message.type == "note_on" and message.velocity > 0:
                if message.channel != CHANNEL or message.note in sounding:
                    self.faults.append(f"{message} at {float(place)}")
                sounding[message.note] = (place, message.velocity)
            elif message.type in ("note_on", "note_off"):
                if message.note in sounding:
                    begun, velocity = sounding.pop(message.note)
                    self.notes.append((begun, place, message.note, velocity))
                elif place > Fraction(1, 8):  # else begun before the recording was
                    self.faults.append(f"{message} at {float(place)} ends nothing")
        # A recording ends in its last block, before a stop's note-offs.
        for key, (begun, velocity) in sounding.items():
            self.notes.append((begun, self.length, key, velocity))
        self.notes.sort()


def differences(wanted, got):
    """What is wrong, pairing strokes in order of key, then place."""
    wrong, worst = [], Fraction(0)
    for key in sorted({w[1] for w in wanted} | {g[2] for g in got}):
        want = [w for w in wanted if w[1] == key]
        have = [g for g in got if g[2] == key]
        if len(want) != len(have):
            wrong.append(f"key {key}: {len(have)} notes, want {len(want)}")
        for (place, _, _), (at, _, _, _) in zip(want, have):
            worst = max(worst, abs(at - place))
            if abs(at - place) > SLACK:
                wrong.append(f"key {key}: at {float(at):.5f}, want {float(place):.5f}")
    return wrong, worst


def levels(wanted, got):
    """Ghosts must be softer than normal strokes, and those than accents."""
    order = sorted(wanted, key=lambda w: (w[1], w[0]))
    heard = [g[3] for g in sorted(got, key=lambda g: (g[2], g[0]))]
    by = {level: [v for w, v in zip(order, heard) if w[2] == level] for level in "goO"}
    ranked = [by[level] for level in "goO" if by[level]]
    good = all(max(a) < min(b) for a, b in zip(ranked, ranked[1:]))
    return [] if good else [f"velocities {by}"]


def compare(take, wanted, long_note=1 + SLACK):
    """`wanted` in the recording's own time; what lies on its very edges may or may
    not have been caught.  No note is longer than a quarter (README)."""
    inside = [w for w in wanted if 2 * TICK < w[0] < take.length - 2 * TICK or w[0] == 0]
    edge = [w for w in wanted if w not in inside]
    got = [n for n in take.notes
           if not any(n[2] == e[1] and abs(n[0] - e[0]) <= SLACK for e in edge)]
    wrong, worst = differences(inside, got)
    wrong += levels(inside, got) if not wrong else []
    wrong += take.faults
    wrong += [f"key {n[2]} at {float(n[0]):.3f} sounds for {float(n[1] - n[0]):.3f}"
              for n in take.notes if n[1] - n[0] > long_note]
    if len(inside) < 8:
        wrong.append(f"only {len(inside)} strokes to compare")
    note = f"{len(inside)} strokes, {float(take.length):.2f} quarter notes, off by {float(worst / TICK):.2f} ticks at most"
    return wrong, note


def plain(folder, name, rows, tempo):
    take = Take(folder, name, Fraction(tempo))
    wanted = [(place - take.begin, key, level)
              for place, key, level in strokes(rows, take.begin, take.begin + take.length)]
    return compare(take, wanted)


def with_pads(folder, name, rows, tempo, pad):
    """Four strokes of a pad at no exact place, each louder, and the groove as without."""
    take = Take(folder, name, Fraction(tempo))
    heard = [note[3] for note in take.notes if note[2] == pad]
    take.notes = [note for note in take.notes if note[2] != pad]
    wrong, note = compare(take, strokes(rows, take.begin, take.begin + take.length))
    if heard != [10, 20, 30, 40]:
        wrong.append(f"the pad's velocities are {heard}")
    return wrong, note


def looped(folder, name, rows, tempo, loop):
    """A recording in a loop goes on through every pass; Ardour cuts it afterwards."""
    take = Take(folder, name, Fraction(tempo))
    if abs(take.begin - loop[0]) > SLACK:  # Ardour's loop begins at a whole sample
        return [f"the recording begins at {float(take.begin)}, want {loop[0]}"], ""
    one = [(place - loop[0], key, level) for place, key, level in strokes(rows, *loop)]
    turn = loop[1] - loop[0]
    passes = int(take.length / turn) + 1
    wanted = [(place + turn * i, key, level) for i in range(passes) for place, key, level in one
              if place + turn * i < take.length]
    wrong, note = compare(take, wanted)
    if passes < 3:
        wrong.append(f"only {passes} passes")
    return wrong, f"{passes} passes, {note}"


def wav(path):
    """Channels and sound of a WAV file of 16 bits whose lengths needn't be right: Ardour
    writes them last, and ends before that when it breaks its heap."""
    data = path.read_bytes()
    assert data[:4] == b"RIFF" and data[8:16] == b"WAVEfmt ", "no WAV file"
    size, form, channels, rate, _, _, bits = struct.unpack_from("<IHHIIHH", data, 16)
    assert form == 1 and rate == RATE and bits == 16, f"form {form}, {rate} a second, {bits} bits"
    begin = data.index(b"data", 20 + size) + 8
    return channels, data[begin : begin + (len(data) - begin) // (2 * channels) * 2 * channels]


def exported(folder, name, rows, tempo, quarters):
    """Each stroke is one sample, key / 256 high (clicks.lua); strokes at one place
    add up.  Ardour tells plugins the tempo in 32 bits."""
    told = Fraction(struct.unpack("f", struct.pack("f", tempo))[0])
    wanted = {}
    for place, key, _ in strokes(rows, Fraction(0), Fraction(quarters)):
        frame = int(place * 60 / told * RATE + Fraction(1, 2))
        wanted[frame] = wanted.get(frame, 0) + key
    channels, sound = wav(folder / name / "exported.wav")
    samples = array.array("h", sound)[::channels]
    assert len(samples) >= quarters * 60 / told * RATE - 1, f"only {len(samples)} samples"
    got = {i: round(value / 128) for i, value in enumerate(samples) if abs(value) > 64}
    wrong = [f"sample {i}: keys add up to {got.get(i, 0)}, want {wanted.get(i, 0)}"
             for i in sorted(set(wanted) | set(got)) if wanted.get(i) != got.get(i)]
    return wrong, f"{len(wanted)} places in {len(samples)} samples"


TESTS = [
    ("Ardour records the groove from bar one", plain, "start", FOUR, 150),
    ("a start from the middle of bar six plays what belongs there", plain, "middle", FOUR, 133.7),
    ("a locate while rolling goes on from there", plain, "locate", FOUR, 150),
    # Three bars, for a phrase has two: at the turn the music is not what comes next.
    ("a loop over bars two to four repeats without a seam", looped, "loop", FOUR, 291.3, (4, 16)),
    ("bars of seven eighths cut the figures short", plain, "seven", SEVEN, 133.7),
    ("a tempo counted in eighths plays at the same speed", plain, "eighths", SEVEN, 150),
    ("a discrete lane of feet plays the figures drawn and none between", plain, "lane", LANE, 150),
    ("a pad on the track is heard beside the groove", with_pads, "pads", FOUR, 150, 60),
    ("an export strikes every key at its sample", exported, "export", FOUR, 133.7, 64),
]


def main():
    folder, passed, failed = Path(sys.argv[1]), 0, 0
    for sentence, check, name, *arguments in TESTS:
        try:
            wrong, note = check(folder, name, *arguments)
        except (OSError, ValueError, AssertionError, struct.error) as problem:
            wrong, note = [f"take {name}: {problem!r}"], ""
        for line in wrong[:5]:
            print(f"# {line}")
        if len(wrong) > 5:
            print(f"# ... and {len(wrong) - 5} more")
        print(f"{'not ok' if wrong else 'ok'} - {sentence}" + (f" ({note})" if note else ""))
        passed, failed = passed + (not wrong), failed + bool(wrong)
    print(f"{passed} passed, {failed} failed, 0 skipped")
    return 1 if failed else 0


sys.exit(main())
