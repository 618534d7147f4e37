// SPDX-License-Identifier: ISC
/* liberty_bar.h - one bar as the rules of liberty.h see it: what may change, and where
   something may be added.  Pure. */
#pragma once

#include "../groove/bar.h"
#include "beside.h"
#include "liberty.h"

typedef struct {
    const LibertyPlace* place;
    const StrokeList* written; /* with more before and after, as liberty.h says */
    Bar bar;
    int64_t beat;  /* ticks of a beat as it is felt: a quarter note, or three eighths */
    int64_t step;  /* of the grid on which something may be added, as written; 0: none */
    int64_t from;  /* a tick, as are all: nothing changes before, */
    int64_t until; /*   nor from here on */
    bool two_feet; /* both kick: neither is touched */
    double often;  /* 1: as measured */
} LibertyBar;

/* A bar of the song, from 0. */
LibertyBar liberty_bar_make(const LibertyPlace* place, const StrokeList* written, int64_t index);

/* Where the grid is played that stands at `in_bar` as written, which may be in the next bar. */
int64_t liberty_bar_tick(const LibertyBar* bar, int64_t in_bar);

/* True if a tick is a beat of the bar. */
bool liberty_bar_on_beat(const LibertyBar* bar, int64_t tick);

/* As many ticks as so many milliseconds. */
int64_t liberty_bar_ticks(const LibertyBar* bar, double ms);

/* Uses of chance; of each limb LIMB_COUNT in a row. */
typedef enum { USE_CRASH, USE_STROKE = 4, USE_COMES = 8, USE_KICK = 12 } LibertyUse;

/* A number from 0 to 1 of this take, for a use, its limb and a tick. */
double liberty_bar_chance(const LibertyBar* bar, LibertyUse use, uint8_t limb, int64_t tick);

/* True of what keeps time by and may come and go: the closed hat and the ride. */
bool liberty_bar_rides(Stroke stroke);
