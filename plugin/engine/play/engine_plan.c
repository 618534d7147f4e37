// SPDX-License-Identifier: ISC
/* What engine.h's callers ask for becomes entries of the plan, and the plan moves on. */
#include "engine_inside.h"

#include "../groove/lines.h"

#include <math.h>
#include <stddef.h>

void engine_find(Engine* const engine)
{
    plan_find(&engine->plan, engine->library, passage_tempo_now(engine), &engine->varied);
    ++engine->revision;
    engine_stir(engine);
}

/* Settings alone say what is played: from one line of theirs on to the next. */
static void play_alone(Engine* const engine, const Settings* const settings)
{
    engine->plan.count = 0;
    engine->sounding = plan_anywhere;
    plan_put(&engine->plan, &(PlanEntry){.from = plan_anywhere, .settings = *settings});
}

void engine_begin_plan(Engine* const engine, const Settings* const settings)
{
    engine->is_song = false;
    play_alone(engine, settings);
    engine_find(engine);
}

/* A change that waited is forgotten, and the newest waits, if it is one. */
static void wait_for_line(Engine* const engine, const Settings* const settings)
{
    const GrooveClock* const clock = &engine->groove_clock;
    const Passage now = passage_sounding(engine);
    const uint32_t bars = now.entry->selection.phrase_bars;
    const int64_t ready = clock->played_until + engine_vary_ticks(engine, settings);
    const int64_t line = line_of_change(settings->change_at, clock->meter, bars, ready);
    const bool is_late =
        settings->change_at != CHANGE_NOW &&
        line > line_of_change(settings->change_at, clock->meter, bars, clock->played_until);
    const int64_t fill_bar = engine->plan.entries[engine->plan.count - 1].fill_bar;
    lookahead_take_back(&engine->lookahead, now.end);
    plan_drop_after(&engine->plan, engine->sounding);
    engine->plan.entries[engine->plan.count - 1].fill_bar = fill_bar;
    if (!settings_play_alike(settings, &now.entry->settings)) {
        plan_put(&engine->plan, &(PlanEntry){.from = groove_clock_place(clock, line),
                                             .fill_bar = fill_bar,
                                             .is_late = is_late,
                                             .settings = *settings});
        lookahead_take_back(&engine->lookahead, line);
    }
}

void engine_ask(Engine* const engine, const Settings* const settings)
{
    Plan* const plan = &engine->plan;
    const Settings* const last = &plan->entries[plan->count - 1].settings;
    const bool is_asked_for =
        settings_play_alike(last, settings) && last->change_at == settings->change_at;
    for (uint32_t i = 0; i < plan->count; ++i) {
        settings_take_at_once(&plan->entries[i].settings, settings);
    }
    if (!engine->groove_clock.rolling) {
        play_alone(engine, settings);
    } else if (!is_asked_for) {
        wait_for_line(engine, settings);
    }
    engine_find(engine);
}

/* A place that was rounded to just before a bar line is on it. */
static Place place_now(const Engine* const engine)
{
    const GrooveClock* const clock = &engine->groove_clock;
    const double bar_ticks = (double)groove_clock_bars_ticks(clock, 1, clock->meter);
    const double slack = (double)meter_beat_ticks(clock->meter) / 192.0;
    const double tick = clock_tick(&clock->clock, clock->clock.now);
    return (Place){(int64_t)floor((tick + slack) / bar_ticks), 0};
}

void engine_settle(Engine* const engine)
{
    const Place before = engine->sounding;
    if (engine->is_song) {
        engine->sounding = plan_at(&engine->plan, place_now(engine))->from;
    } else if (engine->plan.count > 1) {
        const Settings asked = engine->plan.entries[engine->plan.count - 1].settings;
        play_alone(engine, &asked);
        engine_find(engine);
    }
    engine->revision +=
        plan_before(before, engine->sounding) || plan_before(engine->sounding, before);
}

void engine_turn(Engine* const engine)
{
    const Passage now = passage_sounding(engine);
    engine->sounding = now.next->from;
    if (engine->is_song) { /* what was drawn of the section was drawn at the old tempo */
        lookahead_take_back(&engine->lookahead, now.end);
    } else {
        plan_drop_before(&engine->plan, engine->sounding);
        engine->sounding = plan_anywhere;
    }
    ++engine->revision;
}

void engine_move(Engine* const engine, const int64_t delta)
{
    lookahead_shift(&engine->lookahead, delta);
    lookahead_take_back(&engine->lookahead, engine->groove_clock.played_until);
    if (!engine->is_song && engine->plan.count > 1) {
        const Settings asked = engine->plan.entries[engine->plan.count - 1].settings;
        wait_for_line(engine, &asked);
        engine_find(engine);
    }
    ++engine->revision;
}

void engine_plan_put(Engine* const engine, const PlanEntry* const entry)
{
    if (!engine->is_song) {
        engine->is_song = true;
        engine->plan.count = 0;
    }
    plan_put(&engine->plan, entry);
    engine_find(engine);
    if (!engine->groove_clock.rolling || engine->plan.count == 1) {
        engine_settle(engine);
    }
}

void engine_plan_clear(Engine* const engine)
{
    const Settings settings = passage_sounding(engine).entry->settings;
    engine_begin_plan(engine, &settings);
}
