// SPDX-License-Identifier: ISC
#include "smf.h"

#include "../../plugin/engine/time/ticks.h"

#include <math.h>
#include <string.h>

size_t smf_quantity(const uint64_t value, uint8_t bytes[4])
{
    uint32_t rest = value > 0x0FFFFFFF ? 0x0FFFFFFF : (uint32_t)value;
    uint8_t reversed[4];
    size_t size = 0;
    do {
        reversed[size] = (uint8_t)((rest & 0x7F) | (size ? 0x80 : 0));
        ++size;
        rest >>= 7;
    } while (rest);
    for (size_t i = 0; i < size; ++i) {
        bytes[i] = reversed[size - 1 - i];
    }
    return size;
}

static void append_quantity(Bytes* const bytes, const uint64_t value)
{
    uint8_t quantity[4];
    bytes_append(bytes, quantity, smf_quantity(value, quantity));
}

static void append_delta(SmfTrack* const track, const uint64_t tick)
{
    append_quantity(&track->bytes, tick - track->tick);
    track->tick = tick;
}

void smf_message(SmfTrack* const track, const uint64_t tick, const uint8_t bytes[3])
{
    append_delta(track, tick);
    bytes_append(&track->bytes, bytes, 3); /* always with its status: no running status */
}

static void append_meta(SmfTrack* const track, const uint64_t tick, const uint8_t type,
                        const void* const data, const size_t size)
{
    const uint8_t head[] = {0xFF, type};
    append_delta(track, tick);
    bytes_append(&track->bytes, head, sizeof head);
    append_quantity(&track->bytes, size);
    bytes_append(&track->bytes, data, size);
}

void smf_text(SmfTrack* const track, const uint64_t tick, const uint8_t type,
              const char* const text)
{
    append_meta(track, tick, type, text, strlen(text));
}

void smf_tempo(SmfTrack* const track, const uint64_t tick, const double quarters_per_minute)
{
    const double microseconds = floor(60000000.0 / quarters_per_minute + 0.5);
    const uint32_t value = microseconds > 16777215.0 ? 16777215 : (uint32_t)microseconds;
    const uint8_t data[] = {(uint8_t)(value >> 16), (uint8_t)(value >> 8), (uint8_t)value};
    append_meta(track, tick, 0x51, data, sizeof data);
}

/* MIDI clocks in a metronome click: 24 a quarter; the standard's own example of
   6/8 clicks each dotted quarter. */
static uint8_t clocks_per_click(const int beats, const int beat_unit)
{
    const int unit = 96 / beat_unit;
    return (uint8_t)(meter_is_compound((Meter){beats, beat_unit}) ? 3 * unit : unit);
}

void smf_meter(SmfTrack* const track, const uint64_t tick, const int beats, const int beat_unit)
{
    uint8_t power = 0;
    while (1 << power < beat_unit) {
        ++power;
    }
    const uint8_t data[] = {(uint8_t)beats, power, clocks_per_click(beats, beat_unit), 8};
    append_meta(track, tick, 0x58, data, sizeof data);
}

void smf_end(SmfTrack* const track, const uint64_t tick)
{
    append_meta(track, tick, 0x2F, NULL, 0);
}

static void append_big_endian(Bytes* const bytes, const uint32_t value, const int size)
{
    for (int shift = 8 * (size - 1); shift >= 0; shift -= 8) {
        const uint8_t byte = (uint8_t)(value >> shift);
        bytes_append(bytes, &byte, 1);
    }
}

bool smf_file(const SmfTrack* const tracks, const int count, Bytes* const file)
{
    bytes_append(file, "MThd", 4);
    append_big_endian(file, 6, 4);
    append_big_endian(file, 1, 2);
    append_big_endian(file, (uint32_t)count, 2);
    append_big_endian(file, SMF_DIVISION, 2);
    for (int i = 0; i < count; ++i) {
        bytes_append(file, "MTrk", 4);
        append_big_endian(file, (uint32_t)tracks[i].bytes.size, 4);
        bytes_append(file, tracks[i].bytes.bytes, tracks[i].bytes.size);
        file->failed |= tracks[i].bytes.failed;
    }
    return !file->failed;
}
