// SPDX-License-Identifier: ISC
/* The feet's variations are made ahead of the place that plays them, a bounded share in each
   block, so that few are made when they are drawn. */
#include "engine_inside.h"

#include "../groove/bar.h"

/* One is made in so many frames: 1.5 ms at 44100. */
enum { FRAMES_PER_STEP = 64 };

/* Which are looked at: what comes at a line first, then what sounds, and what that grows to. */
enum { NEXT, NOW, LATER, TIMES };

static bool is_in_form(const Groove* const groove, const uint8_t letter)
{
    uint32_t bar = 0;
    while (bar < groove->form_bars && groove->form[bar] != letter) {
        ++bar;
    }
    return bar < groove->form_bars;
}

static bool varies(const Selection* const selection)
{
    return selection->groove &&
           (selection->variation || selection->variation_then || selection->grow_every);
}

/* How often its feet have grown at a tick. */
static int64_t turn_at(const Passage* const passage, const int64_t tick)
{
    const Selection* const selection = &passage->entry->selection;
    const int64_t from = tick - passage->origin;
    const int64_t index = from < 0 ? 0 : from / meter_bar_ticks(passage->meter);
    const Bar bar = bar_at(selection, passage->meter, index);
    return bar_turn(selection, &bar);
}

/* ---- Ahead */

/* Makes what is missing of a letter, as long as it may; true if nothing is then. */
static bool make_ahead(Engine* const engine, const uint32_t at, uint32_t* const makes)
{
    const int64_t drawn = engine->lookahead.drawn_until;
    const uint32_t time = at / PARTS_MAX;
    const uint8_t letter = (uint8_t)(at % PARTS_MAX);
    Passage passage = passage_at(engine, drawn);
    if (time == NEXT && !passage.next) {
        return true;
    }
    passage = time == NEXT ? passage_at(engine, passage.end) : passage;
    const Selection* const selection = &passage.entry->selection;
    if (!varies(selection) || !is_in_form(selection->groove, letter) ||
        (time == LATER && !selection->grow_every)) {
        return true;
    }
    const int64_t turn = turn_at(&passage, time == NEXT ? passage.begin : drawn);
    const VariedAsk ask = bar_ask(selection, passage.meter, letter, turn + (time == LATER));
    return !ask.feet || varied_step(&engine->varied, &ask, makes);
}

static bool any_varies(const Engine* const engine)
{
    bool any = false;
    for (uint32_t i = 0; i < engine->plan.count; ++i) {
        any = any || varies(&engine->plan.entries[i].selection);
    }
    return any;
}

/* Begins anew with what is another; feet that have grown are another phrase to who looks on. */
static void watch(Engine* const engine)
{
    Varying* const varying = &engine->varying;
    const Passage sounding = passage_sounding(engine);
    const Passage drawn = passage_at(engine, engine->lookahead.drawn_until);
    const int64_t heard = turn_at(&sounding, engine->groove_clock.played_until);
    const int64_t turn = turn_at(&drawn, engine->lookahead.drawn_until);
    engine->revision += varying->turn_heard != heard;
    if (varying->revision != engine->revision || varying->turn != turn) {
        *varying = (Varying){.revision = engine->revision, .turn = turn, .turn_heard = heard};
        varying->at = any_varies(engine) ? 0 : TIMES * PARTS_MAX;
    }
}

/* However short the blocks are. */
static uint32_t makes_in(const Engine* const engine, const uint32_t frames)
{
    const int64_t now = engine->groove_clock.clock.now;
    return (uint32_t)(floor_div(now + frames, FRAMES_PER_STEP) - floor_div(now, FRAMES_PER_STEP));
}

void engine_vary(Engine* const engine, const uint32_t frames)
{
    uint32_t makes = makes_in(engine, frames);
    if (!passage_entry(engine)->selection.groove) {
        engine->varying.at = TIMES * PARTS_MAX;
        engine->varying.revision = engine->revision;
        return;
    }
    watch(engine);
    while (engine->varying.at < TIMES * PARTS_MAX &&
           make_ahead(engine, engine->varying.at, &makes)) {
        ++engine->varying.at;
    }
}

bool engine_is_varied(const Engine* const engine)
{
    if (!any_varies(engine)) {
        return true;
    }
    return engine->varying.at == TIMES * PARTS_MAX && engine->varying.revision == engine->revision;
}

/* ---- Notice */

/* True if the feet of both are the same. */
static bool vary_alike(const Settings* const a, const Settings* const b)
{
    return a->kept == b->kept && a->groove == b->groove && a->hands == b->hands &&
           a->feet == b->feet && a->variation == b->variation &&
           a->variation_then == b->variation_then && a->grow_every == b->grow_every;
}

int64_t engine_vary_ticks(const Engine* const engine, const Settings* const settings)
{
    const PlanEntry* const entry = passage_entry(engine);
    const Selection selection = selection_make(engine->library, settings, 120.0);
    uint32_t steps = 0;
    if (!varies(&selection) || vary_alike(settings, &entry->settings)) {
        return 0;
    }
    for (int i = 0; i < PARTS_MAX; ++i) {
        const uint8_t letter = (uint8_t)i;
        const VariedAsk ask = bar_ask(&selection, engine->groove_clock.meter, letter, 0);
        steps += is_in_form(selection.groove, letter) ? varied_steps(&ask) : 0;
    }
    const double frames = (double)(steps + 1) * FRAMES_PER_STEP;
    return whole_number(frames * engine->groove_clock.clock.ticks_per_frame);
}

/* ---- Told */

Selection engine_grown(const Engine* const engine)
{
    const Passage sounding = passage_sounding(engine);
    Selection selection = sounding.entry->selection;
    if (selection.grow_every && selection.groove) {
        selection.grow_turn = turn_at(&sounding, engine->groove_clock.played_until);
    }
    return selection;
}
