// SPDX-License-Identifier: ISC
/* What is written is drawn a little ahead, line by line: the second half of engine.h. */
#include "engine_inside.h"

#include "../groove/lines.h"

/* The swing that is asked for where the groove will be. */
static Swing swing_at(const Engine* const engine, const int64_t tick)
{
    return selection_swing(&engine->played, engine->selection.groove,
                           groove_clock_tempo_at(&engine->groove_clock, &engine->position, tick));
}

/* Swing bends time inside each quarter note, so it changes between two. */
void engine_watch_swing(Engine* const engine)
{
    const Swing wanted = swing_at(engine, engine->lookahead.drawn_until);
    const bool alike = swing_equal(wanted, engine->selection.swing);
    if (alike || !engine->groove_clock.rolling) {
        engine->selection.swing = wanted;
        engine->swing_waits = false;
    } else if (!engine->swing_waits) {
        engine->swing_waits = true;
        engine->swing_tick =
            line_next(engine->lookahead.drawn_until, engine->groove_clock.meter, TICKS_PER_QUARTER);
    }
}

/* What is asked for is played from a line on.  Swing bends time inside each quarter
   note: from the middle of one the old goes on until the next. */
static void choose_rolling(Engine* const engine, const int64_t line)
{
    const int64_t quarter = line_next(line, engine->groove_clock.meter, TICKS_PER_QUARTER);
    const Swing swing = engine->selection.swing;
    engine_choose(engine);
    if (quarter > line && !swing_equal(swing, engine->selection.swing)) {
        engine->selection.swing = swing;
        engine->swing_waits = true;
        engine->swing_tick = quarter;
    }
}

static const PlanEntry* drawn_entry(const Engine* const engine)
{
    return plan_at(&engine->plan, engine->plan_bar);
}

/* Where the plan's next section begins; INT64_MAX if there is none. */
static int64_t section_line(const Engine* const engine)
{
    const PlanEntry* const drawn = drawn_entry(engine);
    const PlanEntry* const next = plan_next(&engine->plan, engine->plan_bar);
    if (!next) {
        return INT64_MAX;
    }
    return engine->origin + engine_bars_ticks(engine, next->bar - drawn->origin, drawn->meter);
}

/* The earliest change at a line before `end`, if there is one. */
static bool next_change(const Engine* const engine, const int64_t end, int64_t* const tick)
{
    bool found = false;
    *tick = end;
    if (section_line(engine) < *tick) {
        *tick = section_line(engine);
        found = true;
    }
    if (engine->waiting && engine->change_tick < *tick) {
        *tick = engine->change_tick;
        found = true;
    }
    if (engine->swing_waits && engine->swing_tick < *tick) {
        *tick = engine->swing_tick;
        found = true;
    }
    return found;
}

static void wait_for_line(Engine* const engine, const int64_t line)
{
    engine->line_waits = true;
    engine->line_tick = line;
    engine->before = engine->selection;
    engine->origin_before = engine->origin;
}

/* A section of the plan begins: its bars count from its own first. */
static void enter_section(Engine* const engine, const int64_t line)
{
    const PlanEntry* const entry = plan_next(&engine->plan, engine->plan_bar);
    wait_for_line(engine, line);
    engine->plan_bar = entry->bar;
    engine->origin = line - engine_bars_ticks(engine, entry->bar - entry->origin, entry->meter);
    engine->played = entry->settings;
    engine->selection = engine_selection_of(engine, entry);
    engine->swing_waits = false;
}

/* One line at a time: the next is drawn past when the first has come. */
static bool line_is_in_the_way(const Engine* const engine, const int64_t line)
{
    const bool other =
        section_line(engine) <= line || (engine->waiting && engine->change_tick <= line);
    return other && engine->line_waits && engine->line_tick < line;
}

/* What is written from the line on is the new. */
static void change(Engine* const engine, const int64_t line)
{
    if (section_line(engine) <= line) {
        enter_section(engine, line);
    }
    if (engine->waiting && engine->change_tick <= line) {
        wait_for_line(engine, line);
        choose_rolling(engine, line);
    }
    if (engine->swing_waits && engine->swing_tick <= line) {
        engine->selection.swing = swing_at(engine, line);
        engine->swing_waits = false;
        engine_restart_foot_load(engine);
    }
}

/* Past its line, but before it has come, a section goes by its own meter and tempo. */
static Score score_of(const Engine* const engine)
{
    const double tempo = groove_clock_tempo_at(&engine->groove_clock, &engine->position,
                                               engine->lookahead.drawn_until);
    Score score = {.selection = &engine->selection,
                   .feel = &engine->selection.feel,
                   .meter = engine->groove_clock.meter,
                   .tempo = tempo,
                   .origin = engine->origin};
    if (engine->line_waits && engine->plan.count) {
        const PlanEntry* const entry = drawn_entry(engine);
        score.meter = entry->meter;
        score.tempo = entry->tempo * groove_clock_rate(&engine->groove_clock);
        score.line = engine->line_tick;
        score.lead = tempo / score.tempo;
    }
    return score;
}

static void draw_to(Engine* const engine, const int64_t until)
{
    const Score score = score_of(engine);
    lookahead_draw(&engine->lookahead, &score, until);
}

/* Draws line by line: what is played, its swing or its tempo changes there. */
static void draw(Engine* const engine, const int64_t until)
{
    for (;;) {
        const int64_t rise =
            groove_clock_next_rise(&engine->groove_clock, engine->lookahead.drawn_until);
        const bool rises = rise < until;
        int64_t line = 0;
        const bool changes = next_change(engine, rises ? rise : until, &line);
        draw_to(engine, line);
        if (changes && line_is_in_the_way(engine, line)) {
            return;
        }
        if (changes) {
            change(engine, line);
        } else if (rises) {
            engine->selection.swing = swing_at(engine, line);
            engine->swing_waits = false;
        } else {
            return;
        }
    }
}

void engine_draw_ahead(Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->groove_clock.clock;
    const int64_t reach = feel_reach(&engine->selection.feel, engine_tempo(engine));
    draw(engine, clock_first_tick(clock, clock->now + frames) + reach);
}
