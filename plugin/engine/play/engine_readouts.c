// SPDX-License-Identifier: ISC
/* What the engine tells of itself: the end of engine.h. */
#include "engine_inside.h"

#include <math.h>

const Settings* engine_settings(const Engine* const engine)
{
    return &passage_entry(engine)->settings;
}

Selection engine_selection(const Engine* const engine)
{
    const Passage passage = passage_sounding(engine);
    return passage_selection(engine, &passage, engine->groove_clock.played_until);
}

void engine_restart_foot_load(Engine* const engine)
{
    const Meter meter = engine->groove_clock.meter;
    Selection selection = engine_grown(engine);
    selection.swing = passage_swing_now(engine);
    engine->realign_bars = groove_realign_bars(&selection, meter);
    foot_load_start(&engine->foot_load, &selection, meter, passage_tempo_now(engine));
}

/* However it came that another phrase sounds. */
void engine_step_foot_load(Engine* const engine)
{
    FootLoad* const foot_load = &engine->foot_load;
    const double tempo = passage_tempo_now(engine);
    if (!engine_is_varied(engine)) {
        return; /* its feet are being made */
    }
    if (engine->foot_load_of != engine->revision || differs(tempo, foot_load->tempo)) {
        const Selection selection = engine_grown(engine);
        if (!foot_load_is_of(foot_load, &selection, passage_swing_now(engine),
                             engine->groove_clock.meter)) {
            engine_restart_foot_load(engine);
        } else if (foot_load->at >= foot_load->end) {
            engine->foot_load_of = engine->revision;
        }
    }
    foot_load_step(foot_load, tempo);
}

bool engine_has_foot_load(const Engine* const engine)
{
    return engine->foot_load_of == engine->revision &&
           foot_load_is_done(&engine->foot_load, passage_tempo_now(engine));
}

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
        [READOUT_TEMPO_NOW] = passage_tempo_now(engine),
    };
    for (int i = 0; i < READOUT_COUNT; ++i) {
        values[i] = in_range(readout_rows[i], now[i]);
    }
}
