// SPDX-License-Identifier: ISC
/* A fill that is asked for while it plays: engine_fill_now of engine.h. */
#include "engine_inside.h"

#include "../groove/fill.h"

static PlanEntry* entry_of(Engine* const engine, const Passage* const passage)
{
    return &engine->plan.entries[passage->entry - engine->plan.entries];
}

static int64_t line_of(const Passage* const passage, const int64_t bar)
{
    return passage->origin + bar * meter_bar_ticks(passage->meter);
}

/* Whether one that was asked for hasn't ended. */
static bool is_asked_for(const Engine* const engine)
{
    Passage passage = passage_sounding(engine);
    const int64_t now = engine->groove_clock.played_until;
    bool is = false;
    while (!is) {
        const int64_t bar = passage.entry->fill_bar;
        is = bar > 0 && line_of(&passage, bar) > now && line_of(&passage, bar) <= passage.end;
        if (!passage.next) {
            break;
        }
        passage = passage_at(engine, passage.end);
    }
    return is;
}

/* What comes after a change of settings counts its bars likewise: there the fill goes on,
   and its end is known. */
static void ask_from(Engine* const engine, const Passage* const passage, const int64_t bar)
{
    PlanEntry* const first = entry_of(engine, passage);
    const PlanEntry* const end = &engine->plan.entries[engine->plan.count];
    first->fill_bar = bar;
    for (PlanEntry* entry = first + 1; !engine->is_song && entry < end; ++entry) {
        entry->fill_bar = bar;
    }
    engine_find(engine);
}

bool engine_fill_now(Engine* const engine)
{
    if (!engine->groove_clock.rolling) {
        return false;
    }
    const int64_t drawn = engine->lookahead.drawn_until;
    Passage passage = passage_at(engine, drawn);
    bool is_done = is_asked_for(engine);
    while (!is_done) {
        bool comes = false;
        const int64_t from = passage.is_coming && passage.begin > drawn ? passage.begin : drawn;
        const int64_t bar =
            fill_next_bar(&passage.entry->selection, passage.meter, from - passage.origin, &comes);
        const bool is_here = bar > 0 && line_of(&passage, bar) <= passage.end;
        if (is_here && !comes) {
            ask_from(engine, &passage, bar);
        }
        is_done = is_here || !passage.next;
        if (!is_done) {
            passage = passage_at(engine, passage.end);
        }
    }
    return true;
}

void engine_forget_fill(Engine* const engine)
{
    bool is_any = false;
    for (uint32_t i = 0; i < engine->plan.count; ++i) {
        is_any = is_any || engine->plan.entries[i].fill_bar;
        engine->plan.entries[i].fill_bar = 0;
    }
    if (is_any) {
        engine_find(engine);
    }
}
