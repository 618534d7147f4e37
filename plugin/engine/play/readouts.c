// SPDX-License-Identifier: ISC
/* What the engine tells of itself: the end of engine.h. */
#include "engine.h"

#include <math.h>

uint32_t engine_dropped(const Engine* const engine)
{
    return engine->scheduler.dropped + engine->lookahead.dropped;
}

/* Not a number is the least. */
static float in_range(const ControlRow row, const double value)
{
    return (float)fmin(fmax(value, (double)row.least), (double)row.most);
}

void engine_readouts(const Engine* const engine, float values[READOUT_COUNT])
{
    const FootDemand right = engine->foot_load.found[0];
    const FootDemand left = engine->foot_load.found[1];
    const double now[READOUT_COUNT] = {
        [READOUT_RIGHT_FOOT_RATE] = right.rate,
        [READOUT_LEFT_FOOT_RATE] = left.rate,
        [READOUT_RIGHT_FOOT_GAP] = right.gap_ms,
        [READOUT_LEFT_FOOT_GAP] = left.gap_ms,
        [READOUT_REALIGN_BARS] = (double)engine->realign_bars,
        [READOUT_TEMPO_NOW] = groove_clock_tempo(&engine->groove_clock, &engine->position),
    };
    for (int i = 0; i < READOUT_COUNT; ++i) {
        values[i] = in_range(readout_rows[i], now[i]);
    }
}
