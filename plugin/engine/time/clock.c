// SPDX-License-Identifier: ISC
#include "clock.h"

#include <math.h>

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
