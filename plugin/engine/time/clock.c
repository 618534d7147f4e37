// SPDX-License-Identifier: ISC
#include "clock.h"

#include <math.h>

double clock_tick(const Clock* const clock, const int64_t frame)
{
    return clock->anchor_tick + (double)(frame - clock->anchor_frame) * clock->ticks_per_frame;
}

int64_t clock_first_tick(const Clock* const clock, const int64_t frame)
{
    const double frames = (double)(frame - clock->anchor_frame) - 0.5;
    return whole_number(ceil(clock->anchor_tick + frames * clock->ticks_per_frame));
}

int64_t clock_frame(const Clock* const clock, const int64_t tick)
{
    const double frames = ((double)tick - clock->anchor_tick) / clock->ticks_per_frame;
    return clock->anchor_frame + whole_number(floor(frames + 0.5));
}

void clock_anchor(Clock* const clock, const double tick, const double ticks_per_frame)
{
    clock->anchor_frame = clock->now;
    clock->anchor_tick = tick;
    clock->ticks_per_frame = ticks_per_frame;
}
