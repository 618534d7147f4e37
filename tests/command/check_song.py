#!/usr/bin/python3
# SPDX-License-Identifier: ISC
"""check_song.py FILE.mid - the file of song.sh's plan, read by mido: markers and meters stand where
bar arithmetic has them, and its tempo map lasts as long as closed forms say: a straight ramp from a
to b over n quarters 60 n ln(b/a)/(b-a) seconds (the integral of 1/z is ln z, DLMF 4.10.1), a final
ritard to w of its tempo 3/2 (w^2-1)/(w^3-1) times as long as without (Friberg and Sundberg, J.
Acoust. Soc. Am. 105, 1999)."""
import math
import sys

import mido

file = mido.MidiFile(sys.argv[1])
quarter = file.ticks_per_beat
eighth = quarter // 2
verse = 2 * quarter
turn = verse + 2 * 29 * eighth
chorus = turn + 2 * quarter
end = chorus + 32 * quarter
last = end + 8 * quarter
wrong = 0


def want(what, got, wanted, slack=0):
    global wrong
    if isinstance(got, float):
        good = abs(got - wanted) <= slack
    else:
        good = got == wanted
    if not good:
        wrong += 1
        print(f"{what}: got {got}, want {wanted}")


def events(kind):
    tick = 0
    for message in file.tracks[0]:
        tick += message.time
        if message.type == kind:
            yield tick, message


tempi = [(tick, message.tempo) for tick, message in events("set_tempo")]


def seconds(begin, stop):
    """By the file's own steps."""
    total = 0.0
    for index, (tick, micros) in enumerate(tempi):
        after = tempi[index + 1][0] if index + 1 < len(tempi) else last
        low, high = max(tick, begin), min(after, stop)
        if high > low:
            total += (high - low) / quarter * micros / 1e6
    return total


want("markers", [(tick, m.text) for tick, m in events("marker")],
     [(0, "Pickup"), (verse, "Verse"), (turn, "Turn"), (chorus, "Chorus"), (end, "End")])
meters = [(0, 2, 4)]
for four in range(2):
    meters += [(verse + four * 29 * eighth, 7, 8), (verse + (four * 29 + 21) * eighth, 8, 8)]
meters += [(turn, 2, 4), (chorus, 4, 4)]
want("meters", [(tick, m.numerator, m.denominator) for tick, m in events("time_signature")], meters)
want("the end", max(sum(m.time for m in track) for track in file.tracks), last)
want("the verse", seconds(verse, turn), 29 * 60 / 140, 1e-4)
# Steps are a sixteenth long, at their middle's tempo: the midpoint rule (DLMF 3.5(i)).
slope = 12 / 32
bound = 60 * 32 / 16 / 24 * 2 * slope**2 / 140**3
want("the chorus", seconds(chorus, end), 60 * 32 * math.log(152 / 140) / 12, bound + 1e-4)
w = 76 / 152
bend = 60 / 152 / 64 * 4 / 9 * (1 - w**3) ** 2 * w**-7
want("the end's ritardando", seconds(end, last), 8 * 60 / 152 * 1.5 * (w**2 - 1) / (w**3 - 1),
     8 / 16 / 24 * bend)
steps = [tick for tick, _ in tempi if chorus <= tick < end]
want("steps of the ramp", steps, list(range(chorus, end, quarter // 4)))
notes = sum(m.type == "note_on" and m.velocity > 0 for m in file.tracks[1])
want("notes", notes > 200, True)
sys.exit(wrong > 0)
