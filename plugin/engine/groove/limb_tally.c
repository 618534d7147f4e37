// SPDX-License-Identifier: ISC
#include "limb_tally.h"

#include "../time/ticks.h"

int64_t limb_tally_second(const double tempo)
{
    return whole_number(tempo / 60.0 * (double)TICKS_PER_QUARTER);
}

static void forget_before(LimbTally* const tally, const int64_t tick)
{
    while (tally->count && tally->recent[tally->first] <= tick) {
        tally->first = (tally->first + 1) % LIMB_TALLY_WINDOW;
        --tally->count;
    }
}

void limb_tally_strike(LimbTally* const tally, const int64_t tick, const int64_t second)
{
    forget_before(tally, tick - second);
    if (tally->count < LIMB_TALLY_WINDOW) {
        tally->recent[(tally->first + tally->count) % LIMB_TALLY_WINDOW] = tick;
        ++tally->count;
    }
    if (tally->count > tally->busiest) {
        tally->busiest = tally->count;
    }
    const int64_t gap = tick - tally->last;
    if (tally->struck && (!tally->closest || gap < tally->closest)) {
        tally->closest = gap;
    }
    tally->struck = true;
    tally->last = tick;
}
