// SPDX-License-Identifier: ISC
#include "timeline.h"

#include "smf.h"

#include <math.h>

static const double push_seconds = 0.06;
static const double chance_quarters = 0.25;

void timeline_tempo(Timeline* const timeline, const double tempo)
{
    timeline->ticks_per_frame = (double)(float)tempo / 60.0 * SMF_DIVISION / TIMELINE_RATE;
}

void timeline_advance(Timeline* const timeline, const int64_t frames)
{
    timeline->frame += frames;
    timeline->tick += (double)frames * timeline->ticks_per_frame;
}

int64_t timeline_frames_to(const Timeline* const timeline, const int64_t tick)
{
    return (int64_t)floor(((double)tick - timeline->tick) / timeline->ticks_per_frame);
}

uint64_t timeline_tick(const Timeline* const timeline, const double frames, const bool begins)
{
    const double exact = timeline->tick + frames * timeline->ticks_per_frame;
    const int64_t nearest = (int64_t)floor(exact + 0.5);
    const int64_t last = begins ? timeline->end - 1 : timeline->end;
    const int64_t tick = nearest < last ? nearest : last;
    return tick > 0 ? (uint64_t)tick : 0;
}

int64_t timeline_late_frames(const double tempo)
{
    return (int64_t)ceil((push_seconds + chance_quarters * 60.0 / tempo) * TIMELINE_RATE);
}
