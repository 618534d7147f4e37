#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""pupil.py WRITTEN.mid PLAYED.mid LATE KEY MS EVERY SPREAD [AS] - by mido: somebody plays a file
of one tempo.  All comes LATE ms late, strays by SPREAD ms (sd, white, seeded); notes of KEY come
MS ms later still, every EVERYth of them is left out (0: none), and they are played on key AS.
Prints how many notes KEY had, how many were left out, how late the others of it were beside all
other notes, and their sd, as it came out."""

import random
import statistics
import sys

import mido

QUARTER = 9600


def notes(path):
    """Seconds, key, velocity of each note; the file's tempo."""
    midi = mido.MidiFile(path)
    tempo = next((m.tempo for track in midi.tracks for m in track if m.type == "set_tempo"), 500000)
    at = 0.0
    found = []
    for message in midi:
        at += message.time
        if message.type == "note_on" and message.velocity:
            found.append((at, message.note, message.velocity))
    return found, tempo


def play(found, late, key, more, every, spread, as_key):
    chance = random.Random(2012)
    played, count, dropped, own, others = [], 0, 0, [], []
    for at, note, velocity in found:
        ms = at * 1e3 + max(late + chance.gauss(0.0, spread), -at * 1e3)
        mine = note == key
        if mine:
            count += 1
            if every and count % every == 0:
                dropped += 1
                continue
            ms += more
            note = as_key
        (own if mine else others).append(ms - at * 1e3)
        played.append((ms, note, velocity))
    apart = statistics.mean(own) - statistics.mean(others)
    print(count, dropped, round(apart, 2), round(statistics.stdev(own), 2))
    return sorted(played)


def write(path, played, tempo):
    track = mido.MidiTrack([mido.MetaMessage("set_tempo", tempo=tempo)])
    last = 0
    for ms, note, velocity in played:
        tick = round(ms * 1e3 / tempo * QUARTER)
        track.append(mido.Message("note_on", channel=9, note=note, velocity=velocity, time=tick - last))
        last = tick
    midi = mido.MidiFile(type=0, ticks_per_beat=QUARTER)
    midi.tracks.append(track)
    midi.save(path)


def main(written, path, late, key, more, every, spread, as_key=None):
    found, tempo = notes(written)
    played = play(found, float(late), int(key), float(more), int(every), float(spread), int(as_key or key))
    write(path, played, tempo)


main(*sys.argv[1:])
