// SPDX-License-Identifier: ISC
/* Callers who know the song and the place: a further part of engine.h. */
#include "engine_inside.h"

#include <math.h>
#include <stddef.h>

int64_t engine_bars_ticks(const Engine* const engine, const int64_t bars, const Meter meter)
{
    return groove_clock_stretched(&engine->groove_clock, bars * meter_bar_ticks(meter));
}

Selection engine_selection_of(const Engine* const engine, const PlanEntry* const entry)
{
    Selection selection = selection_make(engine->library, &entry->settings, engine_tempo(engine));
    selection.groove = entry->ends ? NULL : selection.groove;
    return selection;
}

/* A place that was rounded to just before a bar line is on it. */
void engine_look_into_plan(Engine* const engine)
{
    const Clock* const clock = &engine->groove_clock.clock;
    const double bar_ticks = (double)engine_bars_ticks(engine, 1, engine->groove_clock.meter);
    const double slack = (double)meter_beat_ticks(engine->groove_clock.meter) / 192.0;
    const int64_t bar = (int64_t)floor((clock_tick(clock, clock->now) + slack) / bar_ticks);
    const PlanEntry* const entry = plan_at(&engine->plan, bar);
    engine->plan_bar = entry ? entry->bar : 0;
    engine->origin =
        entry ? engine_bars_ticks(engine, entry->origin, engine->groove_clock.meter) : 0;
    engine->settings = entry ? entry->settings : engine->settings;
}

void engine_plan_put(Engine* const engine, const PlanEntry* const entry)
{
    plan_put(&engine->plan, entry);
    if (!engine->groove_clock.rolling || engine->plan.count == 1) {
        engine->waiting = false;
        engine_choose(engine);
        engine_restart_foot_load(engine);
    }
}

void engine_plan_clear(Engine* const engine)
{
    engine->plan.count = 0;
    engine->origin = engine->origin_before = 0;
}

void engine_locate(Engine* const engine, const Meter meter, const double tempo, const int64_t tick)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    position_locate(&engine->position, meter, tempo, (double)tick);
    groove_clock_look(groove_clock, &engine->position);
    engine_break_off(engine, (Jump){.seam = groove_clock->played_until}, 0);
    engine_restart_foot_load(engine);
}
