// SPDX-License-Identifier: ISC
#include "swing.h"

#include <math.h>

static const double shortest_note_s = 0.1; /* see the header */

bool swing_equal(const Swing a, const Swing b)
{
    return a.pair_ticks == b.pair_ticks && !(a.ratio < b.ratio) && !(a.ratio > b.ratio);
}

double swing_ratio_at(const double asked, const int64_t pair_ticks, const double tempo)
{
    const double pair_s = (double)pair_ticks / (double)TICKS_PER_QUARTER * 60.0 / tempo;
    const double playable = pair_s / shortest_note_s - 1.0;
    return fmax(1.0, fmin(asked, playable));
}

int64_t swing_bend(const Swing swing, const int64_t tick, const int64_t bar_ticks)
{
    const int64_t begin = swing_pair_begin(swing, tick);
    if (!(swing.ratio > 1.0) || begin + swing.pair_ticks > bar_ticks) {
        return tick;
    }
    const double pair = (double)swing.pair_ticks;
    const double in_pair = (double)(tick - begin);
    const double first = pair * swing.ratio / (1.0 + swing.ratio);
    const double bent = in_pair < pair / 2.0
                            ? in_pair * 2.0 * first / pair
                            : first + (in_pair - pair / 2.0) * 2.0 * (pair - first) / pair;
    return begin + whole_number(floor(bent + 0.5));
}

double swing_unbend(const Swing swing, const double tick, const int64_t bar_ticks)
{
    const double pair = (double)swing.pair_ticks;
    const double begin = floor(tick / pair) * pair;
    if (!(swing.ratio > 1.0) || begin + pair > (double)bar_ticks || tick < 0.0) {
        return tick;
    }
    const double in_pair = tick - begin;
    const double first = pair * swing.ratio / (1.0 + swing.ratio);
    return begin + (in_pair < first
                        ? in_pair * pair / (2.0 * first)
                        : pair / 2.0 + (in_pair - first) * pair / (2.0 * (pair - first)));
}

int64_t swing_pair_begin(const Swing swing, const int64_t tick)
{
    return tick - floor_mod(tick, swing.pair_ticks);
}

int64_t swing_pair_end(const Swing swing, const int64_t tick, const int64_t bar_ticks)
{
    const int64_t begin = swing_pair_begin(swing, tick);
    const int64_t end = begin == tick ? begin : begin + swing.pair_ticks;
    return end < bar_ticks ? end : bar_ticks;
}
