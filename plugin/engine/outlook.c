// SPDX-License-Identifier: ISC
#include "outlook.h"

#include "rendition.h"

#include <string.h>

void outlook_start(Outlook* const outlook)
{
    for (int i = 0; i < OUTLOOK_BARS; ++i) {
        outlook->slots[i] = (OutlookSlot){.bar = -1};
    }
    outlook->made = 0;
    outlook->origin = 0;
    outlook->phrase_bars = 0;
    outlook->is_making = outlook->is_ready = false;
    outlook->coming_from = INT64_MAX;
    outlook->meet_bar = -1;
}

static OutlookKey key_now(const Engine* const engine)
{
    return (OutlookKey){engine->revision, position_tempo(&engine->position)};
}

/* A ramp of tempo changes the feel by hair's breadths: a thousandth is the same. */
static bool keys_alike(const OutlookKey a, const OutlookKey b)
{
    const double apart = a.tempo - b.tempo;
    const double same = 0.001 * b.tempo;
    return a.revision == b.revision && apart <= same && -apart <= same;
}

static int64_t bar_now(const Engine* const engine)
{
    const Position* const position = &engine->position;
    const double tick = clock_tick(&position->clock, position->clock.now);
    const int64_t bar = floor_div((int64_t)tick, meter_bar_ticks(position->meter));
    return bar < 0 ? 0 : bar;
}

/* Engines draw a little ahead: what was played before a change sounds until its line,
   and its bars can't be made again. */
static bool sounds_still(const Engine* const engine, const int64_t bar)
{
    return engine->line_waits && bar * meter_bar_ticks(engine->position.meter) < engine->line_tick;
}

/* Bars of the phrase that sounds. */
static uint32_t phrase_now(Outlook* const outlook, const Engine* const engine)
{
    if (!outlook->phrase_bars || !engine->line_waits) {
        outlook->phrase_bars = engine->choice.phrase_bars;
    }
    return outlook->phrase_bars;
}

/* The slot to make next: of those that are out of date the one now playing, then
   the one made longest ago, so that steady changes starve none.  -1: all is well. */
static int slot_due(const Outlook* const outlook, const Engine* const engine)
{
    const int64_t now = bar_now(engine);
    const OutlookKey key = key_now(engine);
    int due = -1;
    const int count = (int)outlook->phrase_bars + 1;
    for (int i = 0; i < count && i < OUTLOOK_BARS; ++i) {
        const int slot = (int)((now - outlook->origin + i) % count);
        const OutlookSlot* const held = &outlook->slots[slot];
        const bool is_old = held->bar != outlook->origin + slot || !keys_alike(held->key, key);
        if (is_old && !sounds_still(engine, outlook->origin + slot) &&
            (due < 0 || held->made < outlook->slots[due].made)) {
            due = slot;
        }
    }
    return due;
}

static void note_coming(Outlook* const outlook, const Engine* const engine)
{
    outlook->coming_from = INT64_MAX;
    if (engine->waiting) {
        outlook->coming =
            choice_make(engine->library, &engine->settings, position_tempo(&engine->position));
        outlook->coming_from = engine->change_tick;
    }
}

static void copy_turns(SeenTurns* const turns, const Choice* const choice, const Meter meter,
                       const int64_t bar, const LimbPair pair)
{
    turns->count = choice_turns(choice, meter, bar, pair, turns->ticks, SEEN_TURNS_MAX);
}

static const Choice* choice_at(const Outlook* const outlook, const Engine* const engine,
                               const int64_t tick)
{
    return tick >= outlook->coming_from ? &outlook->coming : &engine->choice;
}

static void begin_bar(Outlook* const outlook, const Engine* const engine, const uint32_t slot)
{
    SeenBar* const seen = &outlook->seen;
    const Meter meter = engine->position.meter;
    note_coming(outlook, engine);
    outlook->slot = slot;
    outlook->key = key_now(engine);
    outlook->at = 0;
    outlook->is_making = true;
    const int64_t bar = outlook->origin + slot;
    const Choice* const choice = choice_at(outlook, engine, bar * meter_bar_ticks(meter));
    const BarParts parts = choice_bar(choice, meter, bar);
    *seen = (SeenBar){
        .bar = bar,
        .meter = meter,
        .in_phrase = parts.in_phrase,
        .phrase_bars = choice->phrase_bars,
        .part = parts.part,
        .turns = parts.turns,
        .is_coming = choice == &outlook->coming ||
                     (engine->line_waits && bar * meter_bar_ticks(meter) >= engine->line_tick),
        .groove = choice->groove->id,
        .hands = parts.hands ? parts.hands->id : 0,
        .feet = parts.feet ? parts.feet->id : 0,
        .hands_step = (int32_t)parts.hands_step,
        .feet_step = (int32_t)parts.feet_step,
    };
    copy_turns(&seen->hands_turns, choice, meter, bar, PAIR_HANDS);
    copy_turns(&seen->feet_turns, choice, meter, bar, PAIR_FEET);
}

static void see_hit(SeenBar* const seen, const Hit hit, const uint8_t level, const int64_t begin)
{
    if (seen->count == SEEN_STROKES_MAX) {
        ++seen->dropped;
        return;
    }
    seen->strokes[seen->count++] = (SeenStroke){
        .written = (int32_t)(hit.written - begin),
        .felt = (int32_t)(hit.tick - begin),
        .limb = hit.limb,
        .voice = hit.voice,
        .level = hit.is_grace ? LEVEL_GHOST : level,
        .velocity = hit.velocity,
        .is_grace = hit.is_grace,
    };
}

/* Looks at the ticks [from, to) of the song, all limbs. */
static void see_span(Outlook* const outlook, const Engine* const engine, Choice choice,
                     const int64_t from, const int64_t to)
{
    SeenBar* const seen = &outlook->seen;
    const Meter meter = engine->position.meter;
    const int64_t begin = seen->bar * meter_bar_ticks(meter);
    memset(choice.limbs, true, sizeof choice.limbs);
    const Score score = {&choice, &choice.feel, meter, position_tempo(&engine->position)};
    choice_strokes(&choice, meter, from, to, &outlook->strokes);
    seen->dropped += outlook->strokes.dropped;
    choice_strokes(&choice, meter, from - TICKS_PER_QUARTER, to + TICKS_PER_QUARTER,
                   &outlook->around);
    for (uint32_t i = 0; i < outlook->strokes.count; ++i) {
        Hit hits[RENDITION_MAX];
        const Stroke stroke = outlook->strokes.strokes[i];
        const uint32_t count = rendition_of(&score, stroke, &outlook->around, hits);
        for (uint32_t h = 0; h < count; ++h) {
            see_hit(seen, hits[h], stroke.level, begin);
        }
    }
}

static void look_on(Outlook* const outlook, const Engine* const engine)
{
    const int64_t bar_ticks = meter_bar_ticks(engine->position.meter);
    const int64_t begin = outlook->seen.bar * bar_ticks;
    const int64_t from = begin + outlook->at;
    const int64_t next = outlook->at + TICKS_PER_QUARTER;
    const int64_t to = begin + (next < bar_ticks ? next : bar_ticks);
    const int64_t line = outlook->coming_from;
    if (line > from && line < to) {
        Choice coming = outlook->coming;
        coming.swing = engine->choice.swing; /* goes on until the next quarter */
        see_span(outlook, engine, engine->choice, from, line);
        see_span(outlook, engine, coming, line, to);
    } else {
        see_span(outlook, engine, *choice_at(outlook, engine, from), from, to);
    }
    outlook->at = to - begin;
    outlook->is_making = to < begin + bar_ticks;
}

void outlook_step(Outlook* const outlook, const Engine* const engine)
{
    if (outlook->is_ready || !engine->choice.groove) {
        return;
    }
    if (outlook->is_making && !meter_equal(outlook->seen.meter, engine->position.meter)) {
        outlook->is_making = false;
    }
    if (!outlook->is_making) {
        const int64_t now = bar_now(engine);
        outlook->origin = now - now % phrase_now(outlook, engine);
        const int slot = slot_due(outlook, engine);
        if (slot < 0) {
            return;
        }
        begin_bar(outlook, engine, (uint32_t)slot);
    }
    look_on(outlook, engine);
    if (!outlook->is_making) {
        outlook->is_ready = true;
        outlook->slots[outlook->slot] =
            (OutlookSlot){outlook->seen.bar, outlook->key, ++outlook->made};
    }
}

const SeenBar* outlook_fetch(Outlook* const outlook)
{
    const bool was_ready = outlook->is_ready;
    outlook->is_ready = false;
    return was_ready ? &outlook->seen : NULL;
}

static void find_meetings(Outlook* const outlook, const Engine* const engine, const int64_t bar)
{
    const OutlookKey key = key_now(engine);
    if (!engine->choice.groove ||
        (bar == outlook->meet_bar && keys_alike(outlook->meet_key, key))) {
        return;
    }
    outlook->meet_bar = bar;
    outlook->meet_key = key;
    outlook->feet_meet = choice_feet_meet(&engine->choice, engine->position.meter, bar);
    outlook->all_meet = choice_all_meet(&engine->choice, engine->position.meter, bar);
}

SeenPlace outlook_place(Outlook* const outlook, const Engine* const engine)
{
    const Position* const position = &engine->position;
    const int64_t bar_ticks = meter_bar_ticks(position->meter);
    const double tick = clock_tick(&position->clock, position->clock.now);
    SeenPlace place = {
        .bar = floor_div((int64_t)tick, bar_ticks),
        .ticks_per_second =
            position->rolling ? position->clock.ticks_per_frame * position->frames_per_second : 0.0,
        .rolling = position->rolling,
        .host_has_tempo = position->has_tempo,
        .host_has_place = position->has_meter && !position->provisional,
        .waiting = engine->waiting || engine->line_waits,
    };
    const int64_t bar = bar_now(engine);
    place.phrase_bars = phrase_now(outlook, engine);
    place.phrase = bar - bar % place.phrase_bars;
    place.tick = tick - (double)(place.bar * bar_ticks);
    if (place.waiting) {
        const int64_t line = engine->line_waits ? engine->line_tick : engine->change_tick;
        place.change_bar = floor_div(line, bar_ticks);
        place.change_tick = (int32_t)floor_mod(line, bar_ticks);
    }
    find_meetings(outlook, engine, bar);
    place.feet_meet = outlook->feet_meet;
    place.all_meet = outlook->all_meet;
    return place;
}
