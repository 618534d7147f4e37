// SPDX-License-Identifier: ISC
/* swing.h - a shuffle: of each pair of equal notes the first is made longer.
   2 to 1 is exactly the first and last of a triplet. */
#pragma once

#include "../time/ticks.h"

#include <stdbool.h>

typedef struct {
    double ratio;       /* long to short, 1 is even */
    int64_t pair_ticks; /* a quarter note bends eighths, an eighth sixteenths */
} Swing;

/* True if both bend alike. */
bool swing_equal(Swing a, Swing b);

/* The ratio that can be played at a tempo in quarter notes a minute: as asked,
   until the short note would be shorter than 100 ms; never below 1.
   Friberg & Sundstrom 2002, Music Perception 19(3), 333-349: the short note of
   swung eighths is about 100 ms from medium to fast tempi, and the ratio falls
   to 1:1; so ratio = pair/100 ms - 1. */
double swing_ratio_at(double asked, int64_t pair_ticks, double tempo);

/* Where a tick of a bar goes; `tick` and the result count from the bar line.
   Every pair is mapped onto itself, in order.  A pair that the bar line cuts
   stays even. */
int64_t swing_bend(Swing swing, int64_t tick, int64_t bar_ticks);

/* The tick that is bent to this one, a part of a tick exactly. */
double swing_unbend(Swing swing, double tick, int64_t bar_ticks);

/* The pair that a tick of a bar lies in: where it begins and where it ends, not
   past the bar. */
int64_t swing_pair_begin(Swing swing, int64_t tick);
int64_t swing_pair_end(Swing swing, int64_t tick, int64_t bar_ticks);
