// SPDX-License-Identifier: ISC
/* first_model.h - the feel as it was first, kept to be told from the one that is played:
   rows of held noise, a share of all limbs, one of each, and one of each stroke; loudness
   a level and nearly white chance.  For the tests alone. */
#pragma once

#include "../../plugin/engine/feel/noise.h"
#include "../../plugin/engine/time/ticks.h"

#include <math.h>

static inline double first_pink(const uint32_t take, const uint32_t source, const int64_t tick)
{
    double sum = 0.0;
    for (uint32_t row = 0; row < 6; ++row) {
        const int64_t hold = TICKS_PER_QUARTER << row;
        sum += noise_white(take, source + row, floor_div(tick + hold / 2, hold));
    }
    return sum / sqrt(6.0);
}

static inline double first_offset_ms(const uint32_t take, const uint32_t limb, const int64_t tick,
                                     const double gap_ms)
{
    const double ratio = 240.0 / gap_ms;
    const double even = 1.0 / sqrt(1.0 + ratio * ratio * ratio * 0.5);
    const double own = sqrt(0.42) * first_pink(take, 1016 + 16 * limb, tick) +
                       sqrt(0.16) * noise_white(take, 1096 + limb, tick);
    const double chance = 14.0 * (sqrt(0.42) * first_pink(take, 1000, tick) + even * own);
    return gap_ms / 4.0 * tanh(chance / (gap_ms / 4.0));
}

static inline double first_velocity(const uint32_t take, const uint32_t limb, const double level,
                                    const double spread, const int64_t tick)
{
    return level + spread * (sqrt(0.85) * noise_white(take, 1104 + limb, tick) +
                             sqrt(0.15) * first_pink(take, 1112 + 16 * limb, tick));
}
