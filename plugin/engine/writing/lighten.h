// SPDX-License-Identifier: ISC
/* lighten.h - the least change that brings a figure under a limit: which strokes of one
   limb to leave out.  Pure: the same question has the same answer. */
#pragma once

#include "../written/figure.h"

/* In any `seconds` the limb may have `most` strokes: {9, 1.0} bounds its rate as
   Playability counts it, {1, 0.1} keeps any two strokes a tenth of a second apart. */
typedef struct {
    uint8_t limb; /* Limb */
    uint32_t most;
    double seconds;    /* > 0, at most a minute */
    double tempo;      /* quarter notes a minute, > 0 */
    int64_t beat;      /* ticks from beat to beat, counted from the figure's start, > 0 */
    double run_gap_ms; /* a longer gap ends a run: PlayLimits has one for each limb */
} LightenLimit;

/* What stays, and how many were taken out; 0: the figure met the limit as it was. */
typedef struct {
    uint32_t count;
    uint32_t taken;
} Lightened;

/* Puts the strokes that stay, of all limbs, in order, into `strokes`, which has room for
   the figure's.  The figure is laid end to end, and strokes are taken out of each turn of
   it alike.  From strong to weak: the first stroke of each run (of the figure, where the
   run never ends), accents with flams and drags, normal strokes on the beat, off the beat,
   ghosts.  Of each sort, the strongest first, as many stay as can beside what stays of
   those before it; of several ways to keep so many, that which keeps the earlier.  If
   not even one stroke a turn is allowed, none stays. */
Lightened lighten_figure(const Figure* figure, LightenLimit limit, Stroke* strokes);
