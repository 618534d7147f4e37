// SPDX-License-Identifier: ISC
/* rhythm.h - where strokes begin, spelled as notes and rests: values, dots and tuplets that
   last exactly as long as the bar.  Strokes have no length: a note lasts until the next one,
   but not beyond its beat (in meters counted in eighths or less: three eighths), and rests
   fill it up.  A tuplet stands in one beat where it can, over several where their strokes
   would need one each.  Which spelling is read best is decided by counting signs; that is
   ours, no source.  Pure. */
#pragma once

#include "../../plugin/engine/time/ticks.h"

#include <stdbool.h>
#include <stdint.h>

enum {
    RHYTHM_MOST = 256,  /* notes and rests in a bar */
    RHYTHM_DEEP = 2,    /* tuplets in each other */
    RHYTHM_WHOLE = 256, /* values are counted in 256ths of a whole note */
};

/* `actual` notes in the time of `normal`, of `value` each. */
typedef struct {
    int actual;
    int normal;
    int value;
    bool starts; /* with this note */
    bool stops;
} RhythmTuplet;

typedef struct {
    int64_t tick; /* from the bar line */
    int64_t ticks;
    bool is_rest;
    int value;  /* without its dots: a power of two */
    int dots;   /* 0 or 1 */
    int actual; /* of all its tuplets together */
    int normal;
    int depth;
    RhythmTuplet tuplets[RHYTHM_DEEP]; /* the outer first */
} RhythmNote;

typedef struct {
    int count;
    int cost; /* signs and brackets: less is easier to read */
    RhythmNote notes[RHYTHM_MOST];
} Rhythm;

/* Spells the onsets, rising ticks from the bar line.  False if they can't be written with
   tuplets to 16, two in each other, and 256ths. */
bool rhythm_spell(Rhythm* rhythm, const int64_t* onsets, int count, Meter meter);

/* No note in it. */
bool rhythm_is_silent(const Rhythm* rhythm);

/* Ticks that notes are beamed over: a quarter, or a beat of three; the last of a bar may be
   longer by less than one. */
int64_t rhythm_beam_ticks(Meter meter);
