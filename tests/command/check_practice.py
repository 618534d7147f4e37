# SPDX-License-Identifier: ISC
"""check_practice.py - a folder of `fourlimb practice`, its files read by mido.

noise FOLDER TSV        the plan's noise table is the published one
total FOLDER            the plan's lengths are the files', its total is their sum and the breaks'
limbs FOLDER            each file has the notes of its limbs alone, and all of these
tempi FOLDER FROM TO N  the files' tempi go from FROM to TO in N steps, and are what names say
click FOLDER            a bar of click comes first, and the click is on every beat
"""
import math
import pathlib
import re
import sys

import mido

# General MIDI Level 1 percussion (the two bass drums, the pedal hi-hat) and the
# metronome's keys in General MIDI 2.
FEET, CLICK = {35, 36, 44}, {33, 34}


def files(folder):
    return sorted(pathlib.Path(folder).glob("*.mid"))


def notes(path):
    """(seconds, key) of each note-on."""
    now, found = 0.0, []
    for message in mido.MidiFile(path):
        now += message.time
        if message.type == "note_on" and message.velocity > 0:
            found.append((now, message.note))
    return found


def rows(folder):
    """Cells of each row of the plan's tables."""
    text = (pathlib.Path(folder) / "plan.md").read_text()
    return text, [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line.startswith("|")]


def seconds(text):
    minutes, rest = text.split(":")
    return 60 * int(minutes) + int(rest)


def noise(folder, tsv):
    want = {}
    for line in open(tsv):
        if line[0].isdigit():
            level, minutes = line.split()
            want[int(level)] = float(minutes)
    got = {}
    for row in rows(folder)[1]:
        if row[0].endswith("dBA"):
            value, unit = row[1].split()
            got[int(row[0].split()[0])] = float(value) * {"h": 60, "min": 1}[unit]
    print("got", got, "want", want)
    return got == want and len(got) > 0


def total(folder):
    text, table = rows(folder)
    played = rested = since = 0
    listed = []
    for row in table:
        if row[0].endswith(".mid"):
            length = mido.MidiFile(pathlib.Path(folder) / row[0]).length
            told = seconds(row[4])
            print(row[0], told, round(length, 3))
            if not length - 0.01 <= told < length + 1.01:
                return False
            listed.append(row[0])
            played += told
            since += told
        elif row[0] == "-":
            if 5 * seconds(row[4]) < since:  # ten minutes to fifty
                return False
            rested += seconds(row[4])
            since = 0
    if listed != [path.name for path in files(folder)]:
        return False
    found = re.search(r"Total (\S+): playing (\S+), breaks (\S+)\.", text)
    got = [seconds(part) for part in found.groups()]
    print("got", got, "want", [played + rested, played, rested])
    return got == [played + rested, played, rested] and rested > 0


def limbs(folder):
    together = {}
    for path in files(folder):
        keys = [key for _, key in notes(path) if key not in CLICK]
        feet = sum(key in FEET for key in keys)
        print(path.name, len(keys), "strokes,", feet, "of feet")
        tempo, part = path.stem.split("-", 1)[1].split("-", 1)
        if part == "hands" and (feet or not keys) or part == "right-foot" and feet != len(keys):
            return False
        if part in ("warm-up", "together") and not 0 < feet < len(keys):
            return False
        together.setdefault(tempo, {})[part] = len(keys)
    return all(counts["hands"] + counts["right-foot"] == counts["together"] for counts in together.values() if "hands" in counts)


def tempi(folder, first, last, count):
    found = []
    for path in files(folder):
        tempo = int(path.stem.split("-")[1])
        tempos = [m.tempo for m in mido.MidiFile(path).tracks[0] if m.type == "set_tempo"]
        if tempos != [round(60000000 / tempo)]:
            print(path.name, tempos)
            return False
        if "warm-up" not in path.name and tempo not in found:
            found.append(tempo)
    steps = int(count)
    want = [int(first) + (int(last) - int(first)) * i / (steps - 1) for i in range(steps)]
    print("got", found, "want", want)
    return len(found) == steps and all(abs(a - b) <= 0.5 for a, b in zip(found, want))


def click(folder):
    for path in files(folder):
        beat = 60 / int(path.stem.split("-")[1])
        all_notes = notes(path)
        clicks = [at for at, key in all_notes if key in CLICK]
        strokes = [at for at, key in all_notes if key not in CLICK]
        beats = round(mido.MidiFile(path).length / beat)
        print(path.name, len(clicks), "clicks", beats, "beats; first stroke at", min(strokes) / beat)
        if len(clicks) != beats or min(strokes) < 3.5 * beat:
            return False
        if any(math.fabs(at - i * beat) > 0.002 for i, at in enumerate(clicks)):
            return False
    return True


if __name__ == "__main__":
    checks = {check.__name__: check for check in (noise, total, limbs, tempi, click)}
    sys.exit(not checks[sys.argv[1]](*sys.argv[2:]))
