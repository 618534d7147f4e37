// SPDX-License-Identifier: ISC
/* midifile.h - reads Standard MIDI Files 1.0 (MMA RP-001, revised February 1996), formats 0 and
   1: where notes begin, tempi, meters.  What else is in them is passed over by its length.  The
   bytes are a stranger's: what is broken is refused, with the byte where, and nothing beyond the
   limits below is kept. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum {
    MIDIFILE_NOTES_MAX = 1 << 18,   /* two hours of a drummer who strikes 36 times a second */
    MIDIFILE_CHANGES_MAX = 1 << 14, /* of tempo, and of meter: a ramp of an hour, 4 a second */
    MIDIFILE_WHY_ROOM = 160
};

typedef struct {
    int64_t tick;
    uint8_t channel;  /* 0 to 15 */
    uint8_t key;      /* 0 to 127 */
    uint8_t velocity; /* 1 to 127: ends of notes aren't told */
} FileNote;

typedef struct {
    int64_t tick;
    uint32_t order; /* in the file: of two at once the later counts */
    double tempo;   /* quarter notes a minute, above 0 */
} FileTempo;

typedef struct {
    int64_t tick;
    uint32_t order;
    int beats;     /* 1 to 255 */
    int beat_unit; /* a power of two, 1 to 128 */
} FileMeter;

typedef struct {
    int quarter_ticks;   /* above 0; 0: ticks are of a second's, */
    double second_ticks; /*   so many (SMPTE) */
    FileNote* notes;     /* rising; what is at once by key */
    size_t note_count;
    FileTempo* tempi; /* rising; 120 before the first */
    size_t tempo_count;
    FileMeter* meters; /* rising; 4/4 before the first */
    size_t meter_count;
    int64_t end; /* the tick of the last event */
} MidiFile;

/* NULL, with the reason in `why`, if it can't be read or memory ran out. */
MidiFile* midifile_read(const void* bytes, size_t size, char why[MIDIFILE_WHY_ROOM]);
void midifile_free(MidiFile* file); /* NULL is fine */

/* Seconds from the file's beginning, by its tempi. */
double midifile_seconds(const MidiFile* file, int64_t tick);
