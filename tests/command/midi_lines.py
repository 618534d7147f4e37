#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""midi_lines.py FILE.mid - a MIDI file by mido, an event a line: what midicsv says of
the same file can be brought into the same form (see command.sh) and compared.

midi_lines.py --pairs FILE.mid - true if every note that begins is ended, once, before
it begins again, and no note lasts for no time.

midi_lines.py --lengths FILE.mid - true if each note of a straight file is a whole number of
sixteenths long, a quarter note at most."""

import sys

import mido


def event_text(message):
    if message.type in ("note_on", "note_off"):
        kind = "on" if message.type == "note_on" and message.velocity else "off"
        return f"{kind} {message.channel} {message.note} {message.velocity}"
    if message.type == "set_tempo":
        return f"tempo {message.tempo}"
    if message.type == "time_signature":
        return f"meter {message.numerator}/{message.denominator}"
    if message.type in ("marker", "track_name"):
        text = message.text if message.type == "marker" else message.name
        return f"{message.type} {text}"
    return "end" if message.type == "end_of_track" else f"other {message.type}"


def events(midi):
    for number, track in enumerate(midi.tracks, 1):
        tick = 0
        for message in track:
            tick += message.time
            yield number, tick, message


def print_lines(midi):
    print(f"format {midi.type} tracks {len(midi.tracks)} division {midi.ticks_per_beat}")
    for number, tick, message in events(midi):
        print(number, tick, event_text(message))


def pair_faults(midi):
    began = {}
    for number, tick, message in events(midi):
        if message.type not in ("note_on", "note_off"):
            continue
        note = (number, message.channel, message.note)
        if message.type == "note_on" and message.velocity:
            if note in began:
                yield f"{note} begins at {tick} while it sounds since {began[note]}"
            began[note] = tick
        elif note not in began:
            yield f"{note} ends at {tick} and did not sound"
        elif tick <= began.pop(note):
            yield f"{note} lasts no time at {tick}"
    yield from (f"{note} of {tick} is never ended" for note, tick in began.items())


def length_faults(midi):
    began = {}
    for number, tick, message in events(midi):
        if message.type == "note_on" and message.velocity:
            began[message.note] = tick
        elif message.type in ("note_on", "note_off"):
            length = tick - began.pop(message.note)
            if length % (midi.ticks_per_beat // 4) or length > midi.ticks_per_beat:
                yield f"{message.note} before {tick} lasts {length} of {midi.ticks_per_beat}"


def main():
    midi = mido.MidiFile(sys.argv[-1], charset="utf-8")
    if sys.argv[1] in ("--pairs", "--lengths"):
        faults = list(pair_faults(midi) if sys.argv[1] == "--pairs" else length_faults(midi))
        print("\n".join(faults[:10]), end="\n" if faults else "")
        return 1 if faults else 0
    print_lines(midi)
    return 0


if __name__ == "__main__":
    sys.exit(main())
