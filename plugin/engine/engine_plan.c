// SPDX-License-Identifier: ISC
/* Callers who know the song and the place: a further part of engine.h. */
#include "engine_inside.h"

#include <math.h>
#include <stddef.h>

int64_t engine_bars_ticks(const Engine* const engine, const int64_t bars, const Meter meter)
{
    return course_stretched(&engine->course, bars * meter_bar_ticks(meter));
}

Choice engine_choice_of(const Engine* const engine, const PlanEntry* const entry)
{
    Choice choice = choice_make(engine->library, &entry->settings, engine_tempo(engine));
    choice.groove = entry->ends ? NULL : choice.groove;
    return choice;
}

/* A place that was rounded to just before a bar line is on it. */
void engine_look_into_plan(Engine* const engine)
{
    const Clock* const clock = &engine->course.clock;
    const double bar_ticks = (double)engine_bars_ticks(engine, 1, engine->course.meter);
    const double slack = (double)meter_beat_ticks(engine->course.meter) / 192.0;
    const int64_t bar = (int64_t)floor((clock_tick(clock, clock->now) + slack) / bar_ticks);
    const PlanEntry* const entry = plan_at(&engine->plan, bar);
    engine->plan_bar = entry ? entry->bar : 0;
    engine->origin = entry ? engine_bars_ticks(engine, entry->origin, engine->course.meter) : 0;
    engine->settings = entry ? entry->settings : engine->settings;
}

void engine_plan_put(Engine* const engine, const PlanEntry* const entry)
{
    plan_put(&engine->plan, entry);
    if (!engine->course.rolling || engine->plan.count == 1) {
        engine->waiting = false;
        engine_choose(engine);
        engine_restart_survey(engine);
    }
}

void engine_plan_clear(Engine* const engine)
{
    engine->plan.count = 0;
    engine->origin = engine->origin_before = 0;
}

void engine_locate(Engine* const engine, const Meter meter, const double tempo, const int64_t tick)
{
    Course* const course = &engine->course;
    position_locate(&engine->position, meter, tempo, (double)tick);
    course_look(course, &engine->position);
    engine_break_off(engine, (Jump){.seam = course->played_until}, 0);
    engine_restart_survey(engine);
}
