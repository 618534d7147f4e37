# SPDX-License-Identifier: ISC
"""check_wav.py - WAV files seen by Python's wave module, MIDI files by mido.

header WAV RATE BITS    the RIFF header says two channels, this rate, these bits
onsets WAV MID          every note's sound begins where the MIDI file has it
peak WAV TEXT           no sample at full scale; TEXT tells the peak to 0.1 dB
louder WAV WAV DB       the first is louder than the second, by DB at least
alike WAV WAV           the same loudness over time, but for one gain
rings WAV MID           sound goes on after the last note and ends in silence
"""
import array
import math
import sys
import wave

import mido

BLOCK = 64  # frames: libfluidsynth's internal buffer, where its notes begin


def read(path):
    """Rate, bits, and frames as the louder of left and right, full scale 1."""
    with wave.open(path) as file:
        rate, width = file.getframerate(), file.getsampwidth()
        assert file.getnchannels() == 2, file.getnchannels()
        data = file.readframes(file.getnframes())
    if width == 2:
        values = array.array("h", data)
        full = 32768
    else:
        values = [int.from_bytes(data[i : i + 3], "little", signed=True) for i in range(0, len(data), 3)]
        full = 1 << 23
    left, right = values[0::2], values[1::2]
    return rate, 8 * width, [max(abs(a), abs(b)) / full for a, b in zip(left, right)]


def note_seconds(path):
    """(second, key) where notes begin; those within 5 ms of one before are left out."""
    now, found = 0.0, []
    for message in mido.MidiFile(path):  # times in seconds, by the file's tempi
        now += message.time
        if message.type == "note_on" and message.velocity > 0:
            if not found or now - found[-1][0] > 0.005:
                found.append((now, message.note))
    return found


def rises(frames, rate):
    """Frames where sound begins after a tenth of a second below -48 dB."""
    found, loud = [], -rate
    for i, value in enumerate(frames):
        if value > 0.004:
            if i - loud > rate // 10:
                found.append(i)
            loud = i
    return found


def header(path, rate, bits):
    with wave.open(path) as file:
        got = (file.getnchannels(), file.getframerate(), 8 * file.getsampwidth(), file.getcomptype())
    want = (2, int(rate), int(bits), "NONE")
    print("got", got, "want", want)
    return got == want


def tick_seconds(path):
    """The longest tick of the file: a note is up to half of it early or late."""
    file = mido.MidiFile(path)
    tempi = [message.tempo for track in file.tracks for message in track if message.type == "set_tempo"]
    return mido.tick2second(1, file.ticks_per_beat, max(tempi))


def onsets(path, midi):
    """Half a block early or late and a tick's rounding of the file, a frame's of both; then the sound's own attack,
    which is one for each key, and takes up to 1.5 ms to the detector's threshold."""
    rate, _, frames = read(path)
    notes, got = note_seconds(midi), rises(frames, rate)
    print(len(got), "rises,", len(notes), "notes")
    if len(got) != len(notes) or len(got) < 8:
        return False
    errors = {}
    for at, (second, key) in zip(got, notes):
        errors.setdefault(key, []).append(at - second * rate)
    good, tick = True, tick_seconds(midi) * rate
    for key, found in errors.items():
        low, high = min(found), max(found)
        print(f"key {key}: {low:.1f} to {high:.1f} frames, {1000 * low / rate:.3f} to {1000 * high / rate:.3f} ms")
        good &= high - low <= BLOCK + tick + 2
        good &= low >= -BLOCK / 2 - tick / 2 - 1 and high <= BLOCK / 2 + tick / 2 + 1 + 0.0015 * rate
    return good


def peak(path, text):
    _, bits, frames = read(path)
    most = 20 * math.log10(max(frames))
    print(f"peak {most:.2f} dB; told: {text}")
    return most < -0.5 and f"peak {-most:.1f} dB" in text


def loudness(path, step=0.005):
    rate, _, frames = read(path)
    size = int(rate * step)
    return [math.sqrt(sum(v * v for v in frames[i : i + size]) / size) for i in range(0, len(frames) - size, size)]


def louder(path, other, decibels):
    ratio = 20 * math.log10(max(loudness(path)) / max(loudness(other)))
    print(f"{ratio:.2f} dB")
    return ratio >= float(decibels)


def correlation(a, b):
    count = min(len(a), len(b))
    a, b = a[:count], b[:count]
    ma, mb = sum(a) / count, sum(b) / count
    cross = sum((x - ma) * (y - mb) for x, y in zip(a, b))
    return cross / math.sqrt(sum((x - ma) ** 2 for x in a) * sum((y - mb) ** 2 for y in b))


def alike(path, other):
    """The other's player starts some blocks late: up to 4 ms are forgiven, as a whole."""
    a, b = loudness(path, 0.001), loudness(other, 0.001)
    found = [correlation(a, b[late:]) for late in range(5)]
    print("correlation at 0 to 4 ms:", " ".join(f"{value:.3f}" for value in found))
    return max(found) > 0.95


def rings(path, midi):
    rate, _, frames = read(path)
    last = note_seconds(midi)[-1][0]
    after = frames[int((last + 0.5) * rate) :]
    print(f"{len(frames) / rate:.2f} s; last note at {last:.2f} s; 0.5 s on {max(after, default=0):.4f}; end {max(frames[-rate // 10:]):.5f}")
    return max(after, default=0.0) > 0.003 and max(frames[-rate // 10 :]) < 0.0005


if __name__ == "__main__":
    checks = {check.__name__: check for check in (header, onsets, peak, louder, alike, rings)}
    sys.exit(not checks[sys.argv[1]](*sys.argv[2:]))
