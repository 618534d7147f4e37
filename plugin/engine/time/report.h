// SPDX-License-Identifier: ISC
/* report.h - one time:Position as the host sent it, and what its bar and beat
   can mean.  No host's bar and beat can be believed as they stand: they are
   rounded, wild after a meter change, or count quarters inside x/8 beats. */
#pragma once

#include "ticks.h"

#include <stdbool.h>
#include <stdint.h>

enum {
    HAS_FRAME = 1,
    HAS_SPEED = 2,
    HAS_BAR = 4,
    HAS_BAR_BEAT = 8,
    HAS_BEAT = 16,
    HAS_BEAT_UNIT = 32,
    HAS_BEATS_PER_BAR = 64,
    HAS_BEATS_PER_MINUTE = 128,
};

typedef struct {
    uint32_t has;    /* which of the fields below were sent and were usable */
    int64_t frame;   /* may be negative */
    double speed;    /* 0 standing, 1 rolling, negative backward */
    int64_t bar;     /* from 0 */
    double bar_beat; /* beat units since the bar line */
    double beat;     /* meaning differs from host to host: only a check */
    int32_t beat_unit;
    double beats_per_bar;
    double beats_per_minute;
} Report;

/* Drops every field that no real transport has: not a number, a beat unit that
   isn't a power of two up to 32, a bar of no beats or over 256, a tempo outside
   1 to TEMPO_MOST, frames and bars beyond what fits.  The slowest speeds are 0. */
void report_clean(Report* report);

/* True if bar and beat can be a position: both sent, the beat inside the bar,
   and not in contradiction to `beat` where that is sent too. */
bool report_has_place(const Report* report, Meter meter);

/* How a host counts inside a beat of x/8 or x/16. */
typedef enum {
    FRACTION_UNKNOWN,    /* nothing seen yet that tells */
    FRACTION_OF_BEAT,    /* as LV2 defines it */
    FRACTION_OF_QUARTER, /* runs from 0 to beat_unit/4 of a beat, then jumps */
} FractionKind;

/* The tick that bar and beat name, read the given way. */
double report_tick(const Report* report, Meter meter, FractionKind kind);

/* True if `beat` counts whole beats of the bar from 1, which is all that some
   hosts tell: no place, but it says how many beats have begun. */
bool report_counts_beats(const Report* report, Meter meter);

/* Whole beat units since bar 0, of a report that has a place or counts beats. */
int64_t report_whole_beats(const Report* report, Meter meter);
