#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""check_audition.py FILE.mid LIMIT - strokes of each foot in the busiest second of a file whose
feet are split: true if neither has more than LIMIT.  Prints what is no foot's: tick, key and
velocity, a line each.  Keys by the General MIDI percussion map (tests/data/gm-percussion.tsv):
35 and 36 bass drums, 44 the hat's pedal."""

import sys

import mido

FEET = (35, 36, 44)


def strokes(midi):
    """Seconds, tick, key and velocity of each stroke, by the file's own tempo."""
    tempo, seconds, tick = 500000, 0.0, 0
    for message in mido.merge_tracks(midi.tracks):
        seconds += mido.tick2second(message.time, midi.ticks_per_beat, tempo)
        tick += message.time
        if message.type == "set_tempo":
            tempo = message.tempo
        elif message.type == "note_on" and message.velocity and message.channel == 9:
            yield seconds, tick, message.note, message.velocity


def busiest(times):
    # half a millisecond: a file's ticks are rounded
    return max((sum(1 for t in times if begin <= t < begin + 0.9995) for begin in times), default=0)


def main(path, limit):
    played = list(strokes(mido.MidiFile(path)))
    for _, tick, key, velocity in played:
        if key not in FEET:
            print(tick, key, velocity)
    kicks = 0
    for key in FEET[:2]:
        times = [seconds for seconds, _, note, _ in played if note == key]
        kicks += len(times)
        if busiest(times) > limit:
            print(f"key {key}: {busiest(times)} strokes in a second", file=sys.stderr)
            return 1
    return 0 if kicks else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2])))
