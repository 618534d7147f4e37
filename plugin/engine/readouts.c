// SPDX-License-Identifier: ISC
/* What the engine tells of itself: the end of engine.h. */
#include "engine.h"

uint32_t engine_dropped(const Engine* const engine)
{
    return engine->scheduler.dropped + engine->performer.dropped;
}

void engine_readouts(const Engine* const engine, float values[READOUT_COUNT])
{
    const FootDemand right = engine->survey.found[0];
    const FootDemand left = engine->survey.found[1];
    values[READOUT_RIGHT_FOOT_RATE] = (float)right.rate;
    values[READOUT_LEFT_FOOT_RATE] = (float)left.rate;
    values[READOUT_RIGHT_FOOT_GAP] = (float)right.gap_ms;
    values[READOUT_LEFT_FOOT_GAP] = (float)left.gap_ms;
    values[READOUT_REALIGN_BARS] = (float)engine->realign_bars;
    values[READOUT_TEMPO_NOW] = (float)course_tempo(&engine->course, &engine->position);
}
