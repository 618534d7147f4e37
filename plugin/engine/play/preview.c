// SPDX-License-Identifier: ISC
#include "preview.h"

#include "../groove/bar.h"
#include "../writing/liberty.h"
#include "articulation.h"
#include "engine_inside.h"

#include <math.h>
#include <string.h>

void preview_start(Preview* const preview)
{
    for (int i = 0; i < SEEN_BARS; ++i) {
        preview->slots[i] = (PreviewSlot){.bar = -1};
    }
    preview->made = 0;
    preview->origin = 0;
    preview->told_phrase = 0;
    preview->told_bars = SEEN_BARS;
    preview->is_making = preview->is_ready = false;
    preview->meet_bar = -1;
}

static PreviewKey key_now(const Engine* const engine)
{
    return (PreviewKey){engine->revision, passage_tempo_now(engine)};
}

/* A ramp of tempo changes the feel by hair's breadths: a thousandth is the same. */
static bool keys_alike(const PreviewKey a, const PreviewKey b)
{
    const double apart = a.tempo - b.tempo;
    const double same = 0.001 * b.tempo;
    return a.revision == b.revision && apart <= same && -apart <= same;
}

/* What sounds at the place now. */
static Passage passage_now(const Engine* const engine)
{
    const Clock* const clock = &engine->groove_clock.clock;
    return passage_at(engine, whole_number(clock_tick(clock, clock->now)));
}

/* A bar as its passage counts it. */
static int64_t own_bar(const Passage* const passage, const int64_t tick)
{
    return floor_div(tick - passage->origin, meter_bar_ticks(passage->meter));
}

/* As it is counted there; of a count-in the first to come. */
static int64_t own_bar_now(const Engine* const engine, const Passage* const now)
{
    const Clock* const clock = &engine->groove_clock.clock;
    const int64_t bar = own_bar(now, whole_number(clock_tick(clock, clock->now)));
    return bar < 0 ? 0 : bar;
}

/* Bars of the phrase before the one that plays; of a bar that loops, as if the phrase
   stood around it. */
static uint32_t bars_before(const Engine* const engine, const Passage* const now)
{
    const Selection* const selection = &now->entry->selection;
    return (uint32_t)bar_at(selection, now->meter, own_bar_now(engine, now)).in_phrase;
}

/* Where it is in the song. */
static int64_t phrase_now(const Engine* const engine, const Passage* const now)
{
    return now->number + own_bar_now(engine, now) - bars_before(engine, now);
}

/* The slot to make next: of those that are out of date the one now playing, then
   the one made longest ago, so that steady changes starve none.  -1: all is well. */
static int slot_due(const Preview* const preview, const Engine* const engine)
{
    const Passage now = passage_now(engine);
    const int count = (int)now.entry->selection.phrase_bars + 1;
    const PreviewKey key = key_now(engine);
    int due = -1;
    for (int i = 0; i < count && i < SEEN_BARS; ++i) {
        const int slot = (int)(bars_before(engine, &now) + (uint32_t)i) % count;
        const PreviewSlot* const held = &preview->slots[slot];
        const bool is_old = held->bar != preview->origin + slot || !keys_alike(held->key, key);
        if (is_old && (due < 0 || held->made < preview->slots[due].made)) {
            due = slot;
        }
    }
    return due;
}

/* What a bar is made from. */
typedef struct {
    Passage passage; /* at its line */
    int64_t begin;   /* its line */
    bool is_aside;   /* not the bar that loops, but one that stands around it */
} Source;

/* Of a phrase of which one bar loops, the others are shown as they would be: looked
   up where they would stand in the song. */
static Source source_of(const Preview* const preview, const Engine* const engine,
                        const uint32_t slot)
{
    Source source = {.passage = passage_now(engine)};
    const Selection* const now = &source.passage.entry->selection;
    source.is_aside =
        now->loop_bar && slot != bars_before(engine, &source.passage) && slot < now->phrase_bars;
    if (source.is_aside) {
        const int64_t bar = preview->origin + slot - source.passage.number;
        const int64_t there = bar - floor_mod(bar, now->phrase_bars) + slot;
        source.begin = source.passage.origin + there * meter_bar_ticks(source.passage.meter);
    } else {
        source.passage = passage_of_bar(engine, preview->origin + slot, &source.begin);
    }
    return source;
}

static Selection selection_at(const Engine* const engine, const Source* const source,
                              const Passage* const passage, const int64_t tick)
{
    const bool is_aside = source->is_aside;
    Selection selection =
        passage_selection(engine, passage, is_aside ? engine->groove_clock.played_until : tick);
    selection.loop_bar = is_aside ? 0 : selection.loop_bar;
    return selection;
}

static void copy_turns(SeenTurns* const turns, const Selection* const selection, const Meter meter,
                       const int64_t bar, const LimbPair pair)
{
    turns->count = groove_turns(selection, meter, bar, pair, turns->ticks, SEEN_TURNS_MAX);
}

static void see_clicks(Preview* const preview, const Source* const source, const int64_t bar)
{
    SeenBar* const seen = &preview->seen;
    const int64_t length = meter_bar_ticks(seen->meter);
    const ClickSettings asked = source->passage.entry->settings.click;
    ClickSettings always = asked;
    always.when = CLICK_ALWAYS;
    click_strokes(&source->passage.entry->selection, always, seen->meter, bar * length,
                  (bar + 1) * length, &preview->clicks);
    for (uint32_t i = 0; i < preview->clicks.count && i < SEEN_CLICKS_MAX; ++i) {
        seen->clicks.ticks[seen->clicks.count++] =
            (int32_t)(preview->clicks.clicks[i].tick - bar * length);
    }
    seen->gap = click_gap(asked, bar).is_silent;
}

/* What stands in the bar, but for its strokes. */
_Static_assert((int)SEEN_VARIED == (int)VARIED_DEPTH, "all variations are told");

static void see_parts(Preview* const preview, const Selection* const selection, const int64_t bar)
{
    SeenBar* const seen = &preview->seen;
    const Meter meter = seen->meter;
    const BarParts parts = groove_bar(selection, meter, bar);
    seen->in_phrase = parts.in_phrase;
    seen->part = parts.part;
    seen->groove = selection->groove->id;
    seen->hands = parts.hands ? parts.hands->id : 0;
    seen->feet = parts.feet ? parts.feet->id : 0;
    seen->hands_step = (int32_t)parts.hands_step;
    seen->feet_step = (int32_t)parts.feet_step;
    for (int i = 0; i < SEEN_VARIED; ++i) {
        seen->varied.numbers[i] = parts.varied.numbers[i];
        seen->varied.reasons[i] = parts.varied.reasons[i];
    }
    if (parts.fill) {
        seen->fill = parts.fill->id;
        seen->fill_feet = figure_has_feet(parts.fill);
        seen->fill_begin = (int32_t)parts.fill_begin;
        seen->fill_end = parts.fill_end;
        seen->fill_step = (int32_t)parts.fill->step_ticks;
    }
    copy_turns(&seen->hands_turns, selection, meter, bar, PAIR_HANDS);
    copy_turns(&seen->feet_turns, selection, meter, bar, PAIR_FEET);
}

static void begin_bar(Preview* const preview, const Engine* const engine, const uint32_t slot)
{
    const Source source = source_of(preview, engine, slot);
    const Selection selection = selection_at(engine, &source, &source.passage, source.begin);
    const int64_t bar = own_bar(&source.passage, source.begin);
    preview->slot = slot;
    preview->key = key_now(engine);
    preview->at = 0;
    preview->is_making = true;
    preview->seen = (SeenBar){
        .bar = preview->origin + slot,
        .slot = slot,
        .meter = source.passage.meter,
        .phrase_bars = selection.phrase_bars,
        .is_coming = source.passage.is_coming,
    };
    if (selection.groove) {
        see_parts(preview, &selection, bar);
    }
    see_clicks(preview, &source, bar);
}

static void see_hit(SeenBar* const seen, const Hit hit, const int64_t begin, const bool is_free)
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
        .free = is_free,
    };
}

/* Looks at the ticks [from, to) of a passage, all limbs. */
static void see_span(Preview* const preview, const Engine* const engine, const Source* const source,
                     const Passage* const passage, const int64_t from, const int64_t to)
{
    const int64_t begin = from - passage->origin, end = to - passage->origin;
    Selection selection = selection_at(engine, source, passage, from);
    memset(selection.limbs, true, sizeof selection.limbs);
    const Score score = {.selection = &selection,
                         .feel = &selection.feel,
                         .meter = passage->meter,
                         .tempo = passage_tempo(engine, passage, engine->groove_clock.played_until),
                         .in_song = passage_in_song(passage)};
    const LibertyPlace place = {&selection, score.meter, score.tempo, score.in_song};
    liberty_strokes(&place, begin - TICKS_PER_QUARTER, end + TICKS_PER_QUARTER, &preview->written,
                    &preview->around);
    preview->seen.dropped += preview->around.dropped;
    for (uint32_t i = 0; i < preview->around.count; ++i) {
        const Stroke stroke = preview->around.strokes[i];
        if (stroke.tick < begin || stroke.tick >= end) {
            continue;
        }
        Hit hits[ARTICULATION_MAX];
        const bool is_free =
            selection.feel.liberty > 0.0 && liberty_is_own(stroke, &preview->written);
        const uint32_t count = articulation_of(&score, stroke, &preview->around, hits);
        for (uint32_t h = 0; h < count; ++h) {
            see_hit(&preview->seen, hits[h], source->begin - passage->origin, is_free);
        }
    }
}

/* Another passage may begin within the bar. */
static void look_on(Preview* const preview, const Engine* const engine)
{
    const Source source = source_of(preview, engine, preview->slot);
    const int64_t bar_ticks = meter_bar_ticks(preview->seen.meter);
    const int64_t next = preview->at + TICKS_PER_QUARTER;
    int64_t from = source.begin + preview->at;
    const int64_t to = source.begin + (next < bar_ticks ? next : bar_ticks);
    while (from < to) {
        const Passage passage = source.is_aside ? source.passage : passage_at(engine, from);
        const int64_t end = source.is_aside || passage.end > to ? to : passage.end;
        see_span(preview, engine, &source, &passage, from, end);
        from = end;
    }
    preview->at = to - source.begin;
    preview->is_making = preview->at < bar_ticks;
}

void preview_step(Preview* const preview, const Engine* const engine)
{
    const Passage now = passage_now(engine);
    if (preview->is_ready || !now.entry->selection.groove || !engine_is_varied(engine)) {
        return;
    }
    if (!preview->is_making) {
        preview->origin = phrase_now(engine, &now);
        const int slot = slot_due(preview, engine);
        if (slot < 0) {
            return;
        }
        begin_bar(preview, engine, (uint32_t)slot);
    }
    look_on(preview, engine);
    preview->is_ready = !preview->is_making;
}

const SeenBar* preview_fetch(Preview* const preview)
{
    if (!preview->is_ready) {
        return NULL;
    }
    preview->is_ready = false;
    preview->slots[preview->slot] = (PreviewSlot){preview->seen.bar, preview->key, ++preview->made};
    return &preview->seen;
}

void preview_told(Preview* const preview, const SeenPlace* const place)
{
    const uint32_t after = preview->told_bars;
    if (place->phrase == preview->told_phrase && place->phrase_bars == after) {
        return;
    }
    if (!place->loops && after < SEEN_BARS && preview->slots[after].bar == place->phrase) {
        preview->slots[0] = preview->slots[after];
    }
    for (uint32_t slot = place->phrase_bars + 1; slot < SEEN_BARS; ++slot) {
        preview->slots[slot].bar = -1;
    }
    preview->told_phrase = place->phrase;
    preview->told_bars = place->phrase_bars;
}

static void find_meetings(Preview* const preview, const Engine* const engine,
                          const Passage* const now)
{
    const PreviewKey key = key_now(engine);
    const int64_t bar = own_bar_now(engine, now);
    if ((now->number + bar == preview->meet_bar && keys_alike(preview->meet_key, key)) ||
        !engine_is_varied(engine)) {
        return;
    }
    preview->meet_bar = now->number + bar;
    preview->meet_key = key;
    const Selection selection = engine_grown(engine);
    preview->feet_meet = groove_feet_meet(&selection, now->meter, bar);
    preview->all_meet = groove_all_meet(&selection, now->meter, bar);
}

/* What practice adds: the gap of the click, the ladder. */
static void see_practice(const Engine* const engine, const Passage* const now, const int64_t bar,
                         SeenPlace* const place)
{
    const GapReach gap = click_gap(now->entry->settings.click, bar);
    const GrooveClock* const groove_clock = &engine->groove_clock;
    place->loops = now->entry->selection.loop_bar > 0;
    place->own_clock = groove_clock->own;
    place->click_rests = gap.is_silent;
    place->click_bars = gap.bars_left;
    if (groove_clock->own) {
        const LadderReach reach =
            ladder_reach(groove_clock->ladder, groove_clock->phrase_bars, bar);
        place->next_tempo = reach.next_tempo;
        place->ladder_bars = reach.bars_left;
    }
}

/* The line that what sounds lasts to, if there is one. */
static void see_line(const Engine* const engine, SeenPlace* const place)
{
    const Passage sounding = passage_sounding(engine);
    place->waiting = sounding.end < INT64_MAX;
    if (place->waiting) {
        place->late = sounding.next->is_late;
        const int64_t tick = sounding.end - sounding.origin;
        place->change_bar = sounding.number + own_bar(&sounding, sounding.end);
        place->change_tick = (int32_t)floor_mod(tick, meter_bar_ticks(sounding.meter));
    }
}

SeenPlace preview_place(Preview* const preview, const Engine* const engine)
{
    const GrooveClock* const groove_clock = &engine->groove_clock;
    const Passage now = passage_now(engine);
    const double tick = clock_tick(&groove_clock->clock, groove_clock->clock.now);
    const int64_t bar = own_bar(&now, whole_number(floor(tick)));
    const int64_t line = now.origin + bar * meter_bar_ticks(now.meter);
    SeenPlace place = {
        .bar = now.number + bar,
        .tick = tick - (double)line,
        .ticks_per_second = groove_clock->rolling ? groove_clock->clock.ticks_per_frame *
                                                        groove_clock->frames_per_second
                                                  : 0.0,
        .rolling = groove_clock->rolling,
        .host_has_tempo = engine->position.has_tempo,
        .host_has_place = engine->position.has_meter && !engine->position.provisional,
        .phrase_bars = now.entry->selection.phrase_bars,
    };
    see_line(engine, &place);
    see_practice(engine, &now, bar, &place);
    if (now.entry->selection.groove) {
        find_meetings(preview, engine, &now);
        place.phrase = phrase_now(engine, &now);
    }
    place.feet_meet = preview->feet_meet;
    place.all_meet = preview->all_meet;
    return place;
}
