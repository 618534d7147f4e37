// SPDX-License-Identifier: ISC
/* clock.h - our own clock: frames to ticks along a straight line from an
   anchor.  Nothing accumulates, so a day of playing is as exact as a second. */
#pragma once

#include "ticks.h"

#include <math.h>

typedef struct {
    int64_t now;            /* frames since the instance began; never goes back */
    int64_t anchor_frame;   /* a `now` where the tick is known */
    double anchor_tick;     /* the tick there */
    double ticks_per_frame; /* > 0 rolling, 0 standing */
} Clock;

/* The tick at `frame`, a fraction of one included. */
static inline double clock_tick(const Clock* const clock, const int64_t frame)
{
    return clock->anchor_tick + (double)(frame - clock->anchor_frame) * clock->ticks_per_frame;
}

/* The first whole tick that is played at `frame` or later: strokes are rounded
   to the nearest frame, so it lies half a frame before. */
static inline int64_t clock_first_tick(const Clock* const clock, const int64_t frame)
{
    const double frames = (double)(frame - clock->anchor_frame) - 0.5;
    return whole_number(ceil(clock->anchor_tick + frames * clock->ticks_per_frame));
}

/* The frame nearest to `tick`.  The clock must be rolling. */
int64_t clock_frame(const Clock* clock, int64_t tick);

/* Makes `tick` the place at `now`, moving on at `ticks_per_frame`. */
void clock_anchor(Clock* clock, double tick, double ticks_per_frame);
