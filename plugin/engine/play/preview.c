// SPDX-License-Identifier: ISC
#include "preview.h"

#include "articulation.h"

#include <math.h>
#include <string.h>

void preview_start(Preview* const preview)
{
    for (int i = 0; i < PREVIEW_BARS; ++i) {
        preview->slots[i] = (PreviewSlot){.bar = -1};
    }
    preview->made = 0;
    preview->origin = 0;
    preview->is_making = preview->is_ready = false;
    preview->coming_from = INT64_MAX;
    preview->meet_bar = -1;
}

static double tempo_now(const Engine* const engine)
{
    return groove_clock_tempo(&engine->groove_clock, &engine->position);
}

static PreviewKey key_now(const Engine* const engine)
{
    return (PreviewKey){engine->revision, tempo_now(engine)};
}

/* A ramp of tempo changes the feel by hair's breadths: a thousandth is the same. */
static bool keys_alike(const PreviewKey a, const PreviewKey b)
{
    const double apart = a.tempo - b.tempo;
    const double same = 0.001 * b.tempo;
    return a.revision == b.revision && apart <= same && -apart <= same;
}

static int64_t bar_now(const Engine* const engine)
{
    const Clock* const clock = &engine->groove_clock.clock;
    const double tick = clock_tick(clock, clock->now);
    const int64_t bar = floor_div(whole_number(tick), meter_bar_ticks(engine->groove_clock.meter));
    return bar < 0 ? 0 : bar;
}

/* Engines draw a little ahead: what was played before a change sounds until its
   line. */
static const Selection* selection_played(const Engine* const engine, const int64_t tick)
{
    return engine->line_waits && tick < engine->line_tick ? &engine->before : &engine->selection;
}

/* What sounds at the place now. */
static const Selection* selection_now(const Engine* const engine)
{
    const Clock* const clock = &engine->groove_clock.clock;
    return selection_played(engine, whole_number(clock_tick(clock, clock->now)));
}

/* The first bar of the phrase now playing; of a bar that loops, as if the phrase
   stood around it. */
static int64_t phrase_now(const Engine* const engine)
{
    const int64_t bar = bar_now(engine);
    return bar - selection_bar(selection_now(engine), engine->groove_clock.meter, bar).in_phrase;
}

/* The slot to make next: of those that are out of date the one now playing, then
   the one made longest ago, so that steady changes starve none.  -1: all is well. */
static int slot_due(const Preview* const preview, const Engine* const engine)
{
    const int64_t now = bar_now(engine);
    const PreviewKey key = key_now(engine);
    int due = -1;
    const int count = (int)selection_now(engine)->phrase_bars + 1;
    for (int i = 0; i < count && i < PREVIEW_BARS; ++i) {
        const int slot = (int)((now - preview->origin + i) % count);
        const PreviewSlot* const held = &preview->slots[slot];
        const bool is_old = held->bar != preview->origin + slot || !keys_alike(held->key, key);
        if (is_old && (due < 0 || held->made < preview->slots[due].made)) {
            due = slot;
        }
    }
    return due;
}

static void note_coming(Preview* const preview, const Engine* const engine)
{
    preview->coming_from = INT64_MAX;
    if (engine->waiting) {
        preview->coming = selection_make(engine->library, &engine->settings, tempo_now(engine));
        preview->coming_from = engine->change_tick;
    }
}

static void copy_turns(PreviewTurns* const turns, const Selection* const selection,
                       const Meter meter, const int64_t bar, const LimbPair pair)
{
    turns->count = selection_turns(selection, meter, bar, pair, turns->ticks, PREVIEW_TURNS_MAX);
}

/* Of a phrase of which one bar loops, the others are shown as they would be: looked
   up where they would stand in the song. */
static void find_source(Preview* const preview, const Engine* const engine, const uint32_t slot)
{
    const Selection* const now = selection_now(engine);
    const uint32_t bars = now->phrase_bars;
    const int64_t looped = bar_now(engine) - preview->origin;
    preview->source = preview->origin + slot;
    preview->is_aside = now->loop_bar && (int64_t)slot != looped && slot < bars;
    if (preview->is_aside) {
        preview->whole = *now;
        preview->whole.loop_bar = 0;
        preview->source = preview->source - preview->source % bars + slot;
    }
}

/* A new swing comes in at a quarter note. */
static Swing swing_from(const Engine* const engine, const Selection* const selection,
                        const int64_t tick)
{
    return engine->swing_waits && tick >= engine->swing_tick
               ? selection_swing(&engine->played, selection->groove, tempo_now(engine))
               : selection->swing;
}

/* What is played from a tick of the bar being made. */
static Selection selection_at(const Preview* const preview, const Engine* const engine,
                              const int64_t tick)
{
    if (preview->is_aside) {
        return preview->whole;
    }
    if (tick >= preview->coming_from) {
        return preview->coming;
    }
    Selection selection = *selection_played(engine, tick);
    selection.swing = swing_from(engine, &selection, tick);
    return selection;
}

/* True if what is played there waits for its line. */
static bool is_coming(const Preview* const preview, const Engine* const engine, const int64_t tick)
{
    return !preview->is_aside &&
           (tick >= preview->coming_from || (engine->line_waits && tick >= engine->line_tick));
}

static void see_clicks(Preview* const preview, const Engine* const engine,
                       const Selection* const selection)
{
    PreviewBar* const seen = &preview->seen;
    const Meter meter = engine->groove_clock.meter;
    const int64_t begin = seen->bar * meter_bar_ticks(meter);
    ClickSettings always = engine->settings.click;
    always.when = CLICK_ALWAYS;
    click_strokes(selection, always, meter, begin, begin + meter_bar_ticks(meter),
                  &preview->clicks);
    for (uint32_t i = 0; i < preview->clicks.count && i < PREVIEW_CLICKS_MAX; ++i) {
        seen->clicks.ticks[seen->clicks.count++] =
            (int32_t)(preview->clicks.clicks[i].tick - begin);
    }
    seen->gap = click_gap(engine->settings.click, seen->bar).is_silent;
}

static void begin_bar(Preview* const preview, const Engine* const engine, const uint32_t slot)
{
    PreviewBar* const seen = &preview->seen;
    const Meter meter = engine->groove_clock.meter;
    note_coming(preview, engine);
    find_source(preview, engine, slot);
    preview->slot = slot;
    preview->key = key_now(engine);
    preview->at = 0;
    preview->is_making = true;
    const int64_t bar = preview->source;
    const int64_t begin = bar * meter_bar_ticks(meter);
    const Selection selection = selection_at(preview, engine, begin);
    const BarParts parts = selection_bar(&selection, meter, bar);
    *seen = (PreviewBar){
        .bar = preview->origin + slot,
        .slot = slot,
        .meter = meter,
        .in_phrase = parts.in_phrase,
        .phrase_bars = selection.phrase_bars,
        .part = parts.part,
        .turns = parts.turns,
        .is_coming = is_coming(preview, engine, begin),
        .groove = selection.groove->id,
        .hands = parts.hands ? parts.hands->id : 0,
        .feet = parts.feet ? parts.feet->id : 0,
        .hands_step = (int32_t)parts.hands_step,
        .feet_step = (int32_t)parts.feet_step,
    };
    copy_turns(&seen->hands_turns, &selection, meter, bar, PAIR_HANDS);
    copy_turns(&seen->feet_turns, &selection, meter, bar, PAIR_FEET);
    see_clicks(preview, engine, &selection);
}

static void see_hit(PreviewBar* const seen, const Hit hit, const int64_t begin)
{
    if (seen->count == PREVIEW_STROKES_MAX) {
        ++seen->dropped;
        return;
    }
    seen->strokes[seen->count++] = (PreviewStroke){
        .written = (int32_t)(hit.written - begin),
        .felt = (int32_t)(hit.tick - begin),
        .limb = hit.limb,
        .voice = hit.voice,
        .level = hit.level,
        .velocity = hit.velocity,
        .is_grace = hit.is_grace,
    };
}

/* Looks at the ticks [from, to) of the song, all limbs. */
static void see_span(Preview* const preview, const Engine* const engine, Selection selection,
                     const int64_t from, const int64_t to)
{
    PreviewBar* const seen = &preview->seen;
    const Meter meter = engine->groove_clock.meter;
    const int64_t begin = preview->source * meter_bar_ticks(meter);
    memset(selection.limbs, true, sizeof selection.limbs);
    const Score score = {.selection = &selection,
                         .feel = &selection.feel,
                         .meter = meter,
                         .tempo = tempo_now(engine)};
    selection_strokes(&selection, meter, from, to, &preview->strokes);
    seen->dropped += preview->strokes.dropped;
    selection_strokes(&selection, meter, from - TICKS_PER_QUARTER, to + TICKS_PER_QUARTER,
                      &preview->around);
    for (uint32_t i = 0; i < preview->strokes.count; ++i) {
        Hit hits[ARTICULATION_MAX];
        const Stroke stroke = preview->strokes.strokes[i];
        const uint32_t count = articulation_of(&score, stroke, &preview->around, hits);
        for (uint32_t h = 0; h < count; ++h) {
            see_hit(seen, hits[h], begin);
        }
    }
}

/* The line of a change inside (from, to); `to` if there is none. */
static int64_t line_within(const Preview* const preview, const Engine* const engine,
                           const int64_t from, const int64_t to)
{
    int64_t line = to;
    if (preview->coming_from > from && preview->coming_from < line) {
        line = preview->coming_from;
    }
    if (engine->line_waits && engine->line_tick > from && engine->line_tick < line) {
        line = engine->line_tick;
    }
    return preview->is_aside ? to : line;
}

static void look_on(Preview* const preview, const Engine* const engine)
{
    const int64_t bar_ticks = meter_bar_ticks(engine->groove_clock.meter);
    const int64_t begin = preview->source * bar_ticks;
    const int64_t from = begin + preview->at;
    const int64_t next = preview->at + TICKS_PER_QUARTER;
    const int64_t to = begin + (next < bar_ticks ? next : bar_ticks);
    const int64_t line = line_within(preview, engine, from, to);
    if (line < to) {
        Selection after = selection_at(preview, engine, line);
        const Selection before = selection_at(preview, engine, from);
        after.swing = before.swing; /* goes on until the next quarter */
        see_span(preview, engine, before, from, line);
        see_span(preview, engine, after, line, to);
    } else {
        see_span(preview, engine, selection_at(preview, engine, from), from, to);
    }
    preview->at = to - begin;
    preview->is_making = to < begin + bar_ticks;
}

void preview_step(Preview* const preview, const Engine* const engine)
{
    if (preview->is_ready || !engine->selection.groove) {
        return;
    }
    if (preview->is_making && !meter_equal(preview->seen.meter, engine->groove_clock.meter)) {
        preview->is_making = false;
    }
    if (!preview->is_making) {
        preview->origin = phrase_now(engine);
        const int slot = slot_due(preview, engine);
        if (slot < 0) {
            return;
        }
        begin_bar(preview, engine, (uint32_t)slot);
    }
    look_on(preview, engine);
    if (!preview->is_making) {
        preview->is_ready = true;
        preview->slots[preview->slot] =
            (PreviewSlot){preview->seen.bar, preview->key, ++preview->made};
    }
}

const PreviewBar* preview_fetch(Preview* const preview)
{
    const bool was_ready = preview->is_ready;
    preview->is_ready = false;
    return was_ready ? &preview->seen : NULL;
}

static void find_meetings(Preview* const preview, const Engine* const engine, const int64_t bar)
{
    const PreviewKey key = key_now(engine);
    if (bar == preview->meet_bar && keys_alike(preview->meet_key, key)) {
        return;
    }
    preview->meet_bar = bar;
    preview->meet_key = key;
    preview->feet_meet =
        selection_feet_meet(selection_now(engine), engine->groove_clock.meter, bar);
    preview->all_meet = selection_all_meet(selection_now(engine), engine->groove_clock.meter, bar);
}

/* What practice adds: the gap of the click, the ladder. */
static void see_practice(const Engine* const engine, PreviewPlace* const place)
{
    const GapReach gap = click_gap(engine->settings.click, place->bar);
    const GrooveClock* const groove_clock = &engine->groove_clock;
    place->loops = selection_now(engine)->loop_bar > 0;
    place->own_clock = groove_clock->own;
    place->click_rests = gap.is_silent;
    place->click_bars = gap.bars_left;
    if (groove_clock->own) {
        const LadderReach reach =
            ladder_reach(groove_clock->ladder, groove_clock->phrase_bars, place->bar);
        place->next_tempo = reach.next_tempo;
        place->ladder_bars = reach.bars_left;
    }
}

PreviewPlace preview_place(Preview* const preview, const Engine* const engine)
{
    const GrooveClock* const groove_clock = &engine->groove_clock;
    const int64_t bar_ticks = meter_bar_ticks(groove_clock->meter);
    const double tick = clock_tick(&groove_clock->clock, groove_clock->clock.now);
    PreviewPlace place = {
        .bar = floor_div(whole_number(floor(tick)), bar_ticks),
        .ticks_per_second = groove_clock->rolling ? groove_clock->clock.ticks_per_frame *
                                                        groove_clock->frames_per_second
                                                  : 0.0,
        .rolling = groove_clock->rolling,
        .host_has_tempo = engine->position.has_tempo,
        .host_has_place = engine->position.has_meter && !engine->position.provisional,
        .waiting = engine->waiting || engine->line_waits,
        .phrase_bars = selection_now(engine)->phrase_bars,
    };
    place.tick = tick - (double)(place.bar * bar_ticks);
    if (place.waiting) {
        const int64_t line = engine->line_waits ? engine->line_tick : engine->change_tick;
        place.change_bar = floor_div(line, bar_ticks);
        place.change_tick = (int32_t)floor_mod(line, bar_ticks);
    }
    see_practice(engine, &place);
    if (engine->selection.groove) {
        place.phrase = phrase_now(engine);
        find_meetings(preview, engine, bar_now(engine));
    }
    place.feet_meet = preview->feet_meet;
    place.all_meet = preview->all_meet;
    return place;
}
