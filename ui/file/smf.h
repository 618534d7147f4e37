// SPDX-License-Identifier: ISC
/* smf.h - Standard MIDI Files 1.0 (MMA RP-001), format 1, built in memory. */
#pragma once

#include "bytes.h"

#include <stddef.h>
#include <stdint.h>

/* Ticks in a quarter note.  2^5 * 3^2 * 5 * 7: exact for every tuplet up to 16
   but 11 and 13, which are within half a tick; under the 32767 of the format. */
enum { SMF_DIVISION = 10080 };

typedef struct {
    Bytes bytes;
    uint64_t tick; /* of the last event */
} SmfTrack;

/* Bytes of a variable-length quantity, 1 to 4, for values up to 0x0FFFFFFF;
   larger ones are cut to that. */
size_t smf_quantity(uint64_t value, uint8_t bytes[4]);

/* Appends a channel message of 3 bytes; `tick` may not go back. */
void smf_message(SmfTrack* track, uint64_t tick, const uint8_t bytes[3]);

/* Appends meta events. */
void smf_text(SmfTrack* track, uint64_t tick, uint8_t type, const char* text);
void smf_tempo(SmfTrack* track, uint64_t tick, double quarters_per_minute);
void smf_meter(SmfTrack* track, uint64_t tick, int beats, int beat_unit);
void smf_end(SmfTrack* track, uint64_t tick);

enum { SMF_TRACK_NAME = 0x03, SMF_MARKER = 0x06 };

/* The whole file from tracks that were ended.  False if memory ran out. */
bool smf_file(const SmfTrack* tracks, int count, Bytes* file);
