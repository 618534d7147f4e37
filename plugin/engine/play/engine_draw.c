// SPDX-License-Identifier: ISC
/* What is written is drawn a little ahead, line by line: the second half of engine.h. */
#include "engine_inside.h"

void engine_take_swing(Engine* const engine, const Swing wanted)
{
    engine->revision += !swing_equal(wanted, engine->swing);
    engine->swing = wanted;
}

static PerformedKey key_of(const Engine* const engine, const Passage* const passage,
                           const int64_t tick)
{
    const Place from = passage->entry->from;
    return (PerformedKey){engine->revision, from.bar,
                          from.tick,        passage_in_song(passage),
                          passage->meter,   passage_tempo(engine, passage, tick)};
}

/* Past its line, but before it has come, a section goes by its own meter and tempo. */
static void draw_to(Engine* const engine, const Passage* const passage, const int64_t until)
{
    const int64_t from = engine->lookahead.drawn_until;
    const PlanEntry* const entry = passage->entry;
    Score score = {.selection = &entry->selection,
                   .feel = &entry->selection.feel,
                   .swing = engine->swing,
                   .meter = passage->meter,
                   .tempo = passage_tempo(engine, passage, from),
                   .origin = passage->origin,
                   .in_song = passage_in_song(passage)};
    if (passage->is_coming && entry->tempo > 0.0) {
        score.line = passage->begin;
        score.lead =
            groove_clock_tempo_at(&engine->groove_clock, &engine->position, from) / score.tempo;
    }
    const PerformedKey key = key_of(engine, passage, from);
    lookahead_draw(&engine->lookahead, &score, key, until);
}

static int64_t first_of(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* Draws to the next line: there what is played, its swing or its tempo changes.  Swing
   bends time inside each quarter note, so it changes between two. */
static void draw_on(Engine* const engine, const Passage* const passage, const int64_t until)
{
    const int64_t from = engine->lookahead.drawn_until;
    const Swing wanted = passage_swing(engine, passage, from);
    const int64_t quarter = passage_quarter(passage, from);
    int64_t line = first_of(first_of(until, passage->end),
                            groove_clock_next_rise(&engine->groove_clock, from));
    if (quarter == from) {
        engine_take_swing(engine, wanted);
    } else if (!swing_equal(wanted, engine->swing)) {
        line = first_of(line, quarter);
    }
    draw_to(engine, passage, line);
}

/* One line at a time: the next is drawn past when the first has come. */
static void draw(Engine* const engine, const int64_t until)
{
    while (engine->lookahead.drawn_until < until) {
        const Passage passage = passage_at(engine, engine->lookahead.drawn_until);
        if (passage.is_coming && passage.begin != passage_sounding(engine).end) {
            return;
        }
        draw_on(engine, &passage, until);
    }
}

int64_t engine_reach(const Engine* const engine)
{
    const Passage passage = passage_at(engine, engine->lookahead.drawn_until);
    return feel_reach(&passage.entry->selection.feel, passage_tempo_now(engine));
}

/* At a quarter note line the swing may change. */
int64_t engine_draws_next(const Engine* const engine)
{
    const int64_t from = engine->lookahead.drawn_until;
    const Passage passage = passage_at(engine, from);
    const int64_t quarter = passage_quarter(&passage, from);
    if (quarter == from || (passage.is_coming && passage.begin != passage_sounding(engine).end)) {
        return from;
    }
    const int64_t line = first_of(first_of(quarter, passage.end),
                                  groove_clock_next_rise(&engine->groove_clock, from));
    const PerformedKey key = key_of(engine, &passage, from);
    const int64_t next = performed_next(&engine->lookahead.performed, &key, from - passage.origin);
    return first_of(line, next + passage.origin);
}

void engine_draw_ahead(Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->groove_clock.clock;
    draw(engine, clock_first_tick(clock, clock->now + frames) + engine_reach(engine));
}
