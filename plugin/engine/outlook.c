// SPDX-License-Identifier: ISC
#include "outlook.h"

#include "rendition.h"

#include <math.h>
#include <string.h>

void outlook_start(Outlook* const outlook)
{
    for (int i = 0; i < OUTLOOK_BARS; ++i) {
        outlook->slots[i] = (OutlookSlot){.bar = -1};
    }
    outlook->made = 0;
    outlook->origin = 0;
    outlook->is_making = outlook->is_ready = false;
    outlook->coming_from = INT64_MAX;
    outlook->meet_bar = -1;
}

static double tempo_now(const Engine* const engine)
{
    return course_tempo(&engine->course, &engine->position);
}

static OutlookKey key_now(const Engine* const engine)
{
    return (OutlookKey){engine->revision, tempo_now(engine)};
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
    const Clock* const clock = &engine->course.clock;
    const double tick = clock_tick(clock, clock->now);
    const int64_t bar = floor_div(whole_number(tick), meter_bar_ticks(engine->course.meter));
    return bar < 0 ? 0 : bar;
}

/* Engines draw a little ahead: what was played before a change sounds until its
   line. */
static const Choice* choice_played(const Engine* const engine, const int64_t tick)
{
    return engine->line_waits && tick < engine->line_tick ? &engine->before : &engine->choice;
}

/* What sounds at the place now. */
static const Choice* choice_now(const Engine* const engine)
{
    const Clock* const clock = &engine->course.clock;
    return choice_played(engine, whole_number(clock_tick(clock, clock->now)));
}

/* The first bar of the phrase now playing; of a bar that loops, as if the phrase
   stood around it. */
static int64_t phrase_now(const Engine* const engine)
{
    const int64_t bar = bar_now(engine);
    return bar - choice_bar(choice_now(engine), engine->course.meter, bar).in_phrase;
}

/* The slot to make next: of those that are out of date the one now playing, then
   the one made longest ago, so that steady changes starve none.  -1: all is well. */
static int slot_due(const Outlook* const outlook, const Engine* const engine)
{
    const int64_t now = bar_now(engine);
    const OutlookKey key = key_now(engine);
    int due = -1;
    const int count = (int)choice_now(engine)->phrase_bars + 1;
    for (int i = 0; i < count && i < OUTLOOK_BARS; ++i) {
        const int slot = (int)((now - outlook->origin + i) % count);
        const OutlookSlot* const held = &outlook->slots[slot];
        const bool is_old = held->bar != outlook->origin + slot || !keys_alike(held->key, key);
        if (is_old && (due < 0 || held->made < outlook->slots[due].made)) {
            due = slot;
        }
    }
    return due;
}

static void note_coming(Outlook* const outlook, const Engine* const engine)
{
    outlook->coming_from = INT64_MAX;
    if (engine->waiting) {
        outlook->coming = choice_make(engine->library, &engine->settings, tempo_now(engine));
        outlook->coming_from = engine->change_tick;
    }
}

static void copy_turns(SeenTurns* const turns, const Choice* const choice, const Meter meter,
                       const int64_t bar, const LimbPair pair)
{
    turns->count = choice_turns(choice, meter, bar, pair, turns->ticks, SEEN_TURNS_MAX);
}

/* Of a phrase of which one bar loops, the others are shown as they would be: looked
   up where they would stand in the song. */
static void find_source(Outlook* const outlook, const Engine* const engine, const uint32_t slot)
{
    const Choice* const now = choice_now(engine);
    const uint32_t bars = now->phrase_bars;
    const int64_t looped = bar_now(engine) - outlook->origin;
    outlook->source = outlook->origin + slot;
    outlook->is_aside = now->loop_bar && (int64_t)slot != looped && slot < bars;
    if (outlook->is_aside) {
        outlook->whole = *now;
        outlook->whole.loop_bar = 0;
        outlook->source = outlook->source - outlook->source % bars + slot;
    }
}

/* A new swing comes in at a quarter note. */
static Swing swing_from(const Engine* const engine, const Choice* const choice, const int64_t tick)
{
    return engine->swing_waits && tick >= engine->swing_tick
               ? choice_swing(&engine->played, choice->groove, tempo_now(engine))
               : choice->swing;
}

/* What is played from a tick of the bar being made. */
static Choice choice_at(const Outlook* const outlook, const Engine* const engine,
                        const int64_t tick)
{
    if (outlook->is_aside) {
        return outlook->whole;
    }
    if (tick >= outlook->coming_from) {
        return outlook->coming;
    }
    Choice choice = *choice_played(engine, tick);
    choice.swing = swing_from(engine, &choice, tick);
    return choice;
}

/* True if what is played there waits for its line. */
static bool is_coming(const Outlook* const outlook, const Engine* const engine, const int64_t tick)
{
    return !outlook->is_aside &&
           (tick >= outlook->coming_from || (engine->line_waits && tick >= engine->line_tick));
}

static void see_clicks(Outlook* const outlook, const Engine* const engine,
                       const Choice* const choice)
{
    SeenBar* const seen = &outlook->seen;
    const Meter meter = engine->course.meter;
    const int64_t begin = seen->bar * meter_bar_ticks(meter);
    ClickSettings always = engine->settings.click;
    always.when = CLICK_ALWAYS;
    click_strokes(choice, always, meter, begin, begin + meter_bar_ticks(meter), &outlook->clicks);
    for (uint32_t i = 0; i < outlook->clicks.count && i < SEEN_CLICKS_MAX; ++i) {
        seen->clicks.ticks[seen->clicks.count++] =
            (int32_t)(outlook->clicks.clicks[i].tick - begin);
    }
    seen->gap = click_gap(engine->settings.click, seen->bar).is_silent;
}

static void begin_bar(Outlook* const outlook, const Engine* const engine, const uint32_t slot)
{
    SeenBar* const seen = &outlook->seen;
    const Meter meter = engine->course.meter;
    note_coming(outlook, engine);
    find_source(outlook, engine, slot);
    outlook->slot = slot;
    outlook->key = key_now(engine);
    outlook->at = 0;
    outlook->is_making = true;
    const int64_t bar = outlook->source;
    const int64_t begin = bar * meter_bar_ticks(meter);
    const Choice choice = choice_at(outlook, engine, begin);
    const BarParts parts = choice_bar(&choice, meter, bar);
    *seen = (SeenBar){
        .bar = outlook->origin + slot,
        .slot = slot,
        .meter = meter,
        .in_phrase = parts.in_phrase,
        .phrase_bars = choice.phrase_bars,
        .part = parts.part,
        .turns = parts.turns,
        .is_coming = is_coming(outlook, engine, begin),
        .groove = choice.groove->id,
        .hands = parts.hands ? parts.hands->id : 0,
        .feet = parts.feet ? parts.feet->id : 0,
        .hands_step = (int32_t)parts.hands_step,
        .feet_step = (int32_t)parts.feet_step,
    };
    copy_turns(&seen->hands_turns, &choice, meter, bar, PAIR_HANDS);
    copy_turns(&seen->feet_turns, &choice, meter, bar, PAIR_FEET);
    see_clicks(outlook, engine, &choice);
}

static void see_hit(SeenBar* const seen, const Hit hit, const int64_t begin)
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
        .level = hit.level,
        .velocity = hit.velocity,
        .is_grace = hit.is_grace,
    };
}

/* Looks at the ticks [from, to) of the song, all limbs. */
static void see_span(Outlook* const outlook, const Engine* const engine, Choice choice,
                     const int64_t from, const int64_t to)
{
    SeenBar* const seen = &outlook->seen;
    const Meter meter = engine->course.meter;
    const int64_t begin = outlook->source * meter_bar_ticks(meter);
    memset(choice.limbs, true, sizeof choice.limbs);
    const Score score = {
        .choice = &choice, .feel = &choice.feel, .meter = meter, .tempo = tempo_now(engine)};
    choice_strokes(&choice, meter, from, to, &outlook->strokes);
    seen->dropped += outlook->strokes.dropped;
    choice_strokes(&choice, meter, from - TICKS_PER_QUARTER, to + TICKS_PER_QUARTER,
                   &outlook->around);
    for (uint32_t i = 0; i < outlook->strokes.count; ++i) {
        Hit hits[RENDITION_MAX];
        const Stroke stroke = outlook->strokes.strokes[i];
        const uint32_t count = rendition_of(&score, stroke, &outlook->around, hits);
        for (uint32_t h = 0; h < count; ++h) {
            see_hit(seen, hits[h], begin);
        }
    }
}

/* The line of a change inside (from, to); `to` if there is none. */
static int64_t line_within(const Outlook* const outlook, const Engine* const engine,
                           const int64_t from, const int64_t to)
{
    int64_t line = to;
    if (outlook->coming_from > from && outlook->coming_from < line) {
        line = outlook->coming_from;
    }
    if (engine->line_waits && engine->line_tick > from && engine->line_tick < line) {
        line = engine->line_tick;
    }
    return outlook->is_aside ? to : line;
}

static void look_on(Outlook* const outlook, const Engine* const engine)
{
    const int64_t bar_ticks = meter_bar_ticks(engine->course.meter);
    const int64_t begin = outlook->source * bar_ticks;
    const int64_t from = begin + outlook->at;
    const int64_t next = outlook->at + TICKS_PER_QUARTER;
    const int64_t to = begin + (next < bar_ticks ? next : bar_ticks);
    const int64_t line = line_within(outlook, engine, from, to);
    if (line < to) {
        Choice after = choice_at(outlook, engine, line);
        const Choice before = choice_at(outlook, engine, from);
        after.swing = before.swing; /* goes on until the next quarter */
        see_span(outlook, engine, before, from, line);
        see_span(outlook, engine, after, line, to);
    } else {
        see_span(outlook, engine, choice_at(outlook, engine, from), from, to);
    }
    outlook->at = to - begin;
    outlook->is_making = to < begin + bar_ticks;
}

void outlook_step(Outlook* const outlook, const Engine* const engine)
{
    if (outlook->is_ready || !engine->choice.groove) {
        return;
    }
    if (outlook->is_making && !meter_equal(outlook->seen.meter, engine->course.meter)) {
        outlook->is_making = false;
    }
    if (!outlook->is_making) {
        outlook->origin = phrase_now(engine);
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
    if (bar == outlook->meet_bar && keys_alike(outlook->meet_key, key)) {
        return;
    }
    outlook->meet_bar = bar;
    outlook->meet_key = key;
    outlook->feet_meet = choice_feet_meet(choice_now(engine), engine->course.meter, bar);
    outlook->all_meet = choice_all_meet(choice_now(engine), engine->course.meter, bar);
}

/* What practice adds: the gap of the click, the ladder. */
static void see_practice(const Engine* const engine, SeenPlace* const place)
{
    const GapReach gap = click_gap(engine->settings.click, place->bar);
    const Course* const course = &engine->course;
    place->loops = choice_now(engine)->loop_bar > 0;
    place->own_clock = course->own;
    place->click_rests = gap.is_silent;
    place->click_bars = gap.bars_left;
    if (course->own) {
        const LadderReach reach = ladder_reach(course->ladder, course->phrase_bars, place->bar);
        place->next_tempo = reach.next_tempo;
        place->ladder_bars = reach.bars_left;
    }
}

SeenPlace outlook_place(Outlook* const outlook, const Engine* const engine)
{
    const Course* const course = &engine->course;
    const int64_t bar_ticks = meter_bar_ticks(course->meter);
    const double tick = clock_tick(&course->clock, course->clock.now);
    SeenPlace place = {
        .bar = floor_div(whole_number(floor(tick)), bar_ticks),
        .ticks_per_second =
            course->rolling ? course->clock.ticks_per_frame * course->frames_per_second : 0.0,
        .rolling = course->rolling,
        .host_has_tempo = engine->position.has_tempo,
        .host_has_place = engine->position.has_meter && !engine->position.provisional,
        .waiting = engine->waiting || engine->line_waits,
        .phrase_bars = choice_now(engine)->phrase_bars,
    };
    place.tick = tick - (double)(place.bar * bar_ticks);
    if (place.waiting) {
        const int64_t line = engine->line_waits ? engine->line_tick : engine->change_tick;
        place.change_bar = floor_div(line, bar_ticks);
        place.change_tick = (int32_t)floor_mod(line, bar_ticks);
    }
    see_practice(engine, &place);
    if (engine->choice.groove) {
        place.phrase = phrase_now(engine);
        find_meetings(outlook, engine, bar_now(engine));
    }
    place.feet_meet = outlook->feet_meet;
    place.all_meet = outlook->all_meet;
    return place;
}
