// SPDX-License-Identifier: ISC
#include "passage.h"

#include "../groove/lines.h"

#include <stddef.h>

const PlanEntry* passage_entry(const Engine* const engine)
{
    return plan_at(&engine->plan, engine->sounding);
}

double passage_tempo_now(const Engine* const engine)
{
    return groove_clock_tempo(&engine->groove_clock, &engine->position);
}

Swing passage_swing_now(const Engine* const engine)
{
    const PlanEntry* const entry = passage_entry(engine);
    return selection_swing(&entry->settings, entry->selection.groove, passage_tempo_now(engine));
}

/* A line is the first of a bar, counted from an origin, or lies behind it. */
static int64_t bars_until(const int64_t tick, const int64_t origin, const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    return floor_div(tick - origin + bar - 1, bar);
}

Passage passage_sounding(const Engine* const engine)
{
    const GrooveClock* const clock = &engine->groove_clock;
    const PlanEntry* const entry = passage_entry(engine);
    const PlanEntry* const next = plan_next(&engine->plan, engine->sounding);
    const int64_t origin =
        entry->origin ? groove_clock_bars_ticks(clock, entry->origin, clock->meter) : 0;
    return (Passage){
        .entry = entry,
        .next = next,
        .begin = INT64_MIN,
        .end = next ? groove_clock_tick_of(clock, next->from) : INT64_MAX,
        .origin = origin,
        .number = origin ? floor_div(origin, meter_bar_ticks(clock->meter)) : 0,
        .meter = clock->meter,
    };
}

/* Ticks from one entry's line to a later place, in the meter that goes there. */
static int64_t ticks_between(const GrooveClock* const clock, const Place from, const Place to,
                             const Meter meter)
{
    return groove_clock_bars_ticks(clock, to.bar - from.bar, meter) + to.tick - from.tick;
}

static Passage passage_after(const Engine* const engine, const Passage* const passage)
{
    const GrooveClock* const clock = &engine->groove_clock;
    const PlanEntry* const entry = passage->next;
    const PlanEntry* const next = plan_next(&engine->plan, entry->from);
    const Meter meter = entry->tempo > 0.0 ? entry->meter : passage->meter;
    const int64_t begin = passage->end;
    const int64_t origin =
        begin - ticks_between(clock, (Place){entry->origin, 0}, entry->from, meter);
    return (Passage){
        .entry = entry,
        .next = next,
        .is_coming = true,
        .begin = begin,
        .end = next ? begin + ticks_between(clock, entry->from, next->from, meter) : INT64_MAX,
        .origin = origin,
        .number = passage->number + bars_until(begin, passage->origin, passage->meter) -
                  bars_until(begin, origin, meter),
        .meter = meter,
    };
}

Passage passage_at(const Engine* const engine, const int64_t tick)
{
    Passage passage = passage_sounding(engine);
    while (passage.next && passage.end <= tick) {
        passage = passage_after(engine, &passage);
    }
    return passage;
}

static int64_t bar_tick(const Passage* const passage, const int64_t bar)
{
    return passage->origin + (bar - passage->number) * meter_bar_ticks(passage->meter);
}

Passage passage_of_bar(const Engine* const engine, const int64_t bar, int64_t* const tick)
{
    Passage passage = passage_sounding(engine);
    while (passage.next && passage.end <= bar_tick(&passage, bar)) {
        passage = passage_after(engine, &passage);
    }
    *tick = bar_tick(&passage, bar);
    return passage;
}

int64_t passage_quarter(const Passage* const passage, const int64_t tick)
{
    return passage->origin + line_next(tick - passage->origin, passage->meter, TICKS_PER_QUARTER);
}

int64_t passage_in_song(const Passage* const passage)
{
    const PlanEntry* const entry = passage->entry;
    const bool is_counted_in =
        plan_before(plan_anywhere, entry->from) && entry->from.bar < entry->origin;
    const int64_t count_in = is_counted_in ? entry->origin - entry->from.bar : 0;
    return (passage->number - count_in) * meter_bar_ticks(passage->meter);
}

double passage_tempo(const Engine* const engine, const Passage* const passage, const int64_t tick)
{
    const GrooveClock* const clock = &engine->groove_clock;
    return passage->is_coming && passage->entry->tempo > 0.0
               ? passage->entry->tempo * groove_clock_rate(clock)
               : groove_clock_tempo_at(clock, &engine->position, tick);
}

Swing passage_swing(const Engine* const engine, const Passage* const passage, const int64_t tick)
{
    return selection_swing(&passage->entry->settings, passage->entry->selection.groove,
                           passage_tempo(engine, passage, tick));
}

/* The quarter note line before a tick, or at it. */
static int64_t quarter_before(const Passage* const passage, const int64_t tick)
{
    const int64_t in_bar = floor_mod(tick - passage->origin, meter_bar_ticks(passage->meter));
    return tick - in_bar % TICKS_PER_QUARTER;
}

Selection passage_selection(const Engine* const engine, const Passage* const passage,
                            const int64_t tick)
{
    Selection selection = passage->entry->selection;
    const int64_t drawn = engine->lookahead.drawn_until;
    const int64_t quarter = quarter_before(passage, tick);
    if (engine->groove_clock.rolling && quarter < drawn &&
        drawn <= passage_quarter(passage, quarter + 1)) {
        selection.swing = engine->swing;
    } else {
        const Passage there = passage_at(engine, quarter);
        selection.swing = passage_swing(engine, &there, quarter);
    }
    return selection;
}
