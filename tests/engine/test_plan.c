// SPDX-License-Identifier: ISC
/* test_plan.c - what is played from which place on: entries in order; a change that is
   asked for twice or taken back before its line; sections of a song, as they are played
   and as they are shown. */
#include "../help/check.h"
#include "preview_rig.h"

enum { FRAMES = 64, GALLOP_GROOVE = 1, PLAIN_GROOVE = 3 };

static Bank* bank;
static PreviewFeed look, alone; /* too large for a stack */

/* ---- The list */

static void put(Plan* const plan, const int64_t bar, const int64_t tick, const uint32_t groove)
{
    plan_put(plan, &(PlanEntry){.from = {bar, tick}, .settings = {.groove = groove}});
}

static uint32_t at(const Plan* const plan, const int64_t bar, const int64_t tick)
{
    return plan_at(plan, (Place){bar, tick})->settings.groove;
}

static void a_place_has_the_last_entry_before_it(void)
{
    static Plan plan;
    plan.count = 0;
    CHECK(!plan_at(&plan, (Place){0, 0}) && !plan_next(&plan, (Place){0, 0}));
    put(&plan, 2, 0, 1);
    put(&plan, 4, 100, 2);
    CHECK_INT(at(&plan, 0, 0), 1); /* before all: the first */
    CHECK_INT(at(&plan, 4, 99), 1);
    CHECK_INT(at(&plan, 4, 100), 2);
    CHECK_INT(at(&plan, 400, 0), 2);
    CHECK_INT(plan_next(&plan, (Place){4, 99})->settings.groove, 2);
    CHECK(!plan_next(&plan, (Place){4, 100}));
}

static void an_entry_takes_the_place_of_all_from_there_on(void)
{
    static Plan plan;
    plan.count = 0;
    for (uint32_t i = 0; i < 4; ++i) {
        put(&plan, i, 0, i);
    }
    put(&plan, 1, 50, 9);
    CHECK_INT(plan.count, 3);
    CHECK_INT(at(&plan, 1, 49), 1);
    CHECK_INT(at(&plan, 3, 0), 9);
    plan_drop_after(&plan, (Place){1, 0});
    CHECK_INT(plan.count, 2);
    plan_drop_before(&plan, (Place){1, 0});
    CHECK_INT(plan.count, 1);
    CHECK_INT(at(&plan, -5, 0), 1);
}

static void a_full_plan_forgets_its_first(void)
{
    static Plan plan;
    plan.count = 0;
    for (uint32_t i = 0; i < PLAN_MAX + 3; ++i) {
        put(&plan, i, 0, i);
    }
    CHECK_INT(plan.count, PLAN_MAX);
    CHECK_INT(at(&plan, 0, 0), 3);
}

/* ---- Changes */

static void begin(PreviewFeed* const feed, const double tempo)
{
    look_begin(feed, bank_library(bank), (Meter){4.0, 4}, tempo);
    look_set(feed, CONTROL_GROOVE, PLAIN_GROOVE);
    look_set(feed, CONTROL_TURNAROUND, -1.0f);
    look_report(feed, 1.0);
}

/* Notes that begin, and those that end: the second list's keys. */
static void check_alike(const PreviewFeed* const got, const PreviewFeed* const want)
{
    CHECK(want->played.count > 0);
    CHECK_INT(got->played.count, want->played.count);
    for (int i = 0; i < got->played.count && i < want->played.count; ++i) {
        CHECK_INT(got->played.notes[i].frame, want->played.notes[i].frame);
        CHECK_INT(got->played.notes[i].key, want->played.notes[i].key);
        CHECK_INT(got->played.notes[i].velocity, want->played.notes[i].velocity);
    }
}

/* The click goes along the feet's grid: it tells which feet are thought to play.  At 90
   in 4/4 a bar is 128,000 frames; strokes are drawn up to a third of a beat ahead;
   on the grid, so that none of the next bar sounds before its line. */
static void a_change_asked_for_twice_just_before_its_line_changes_nothing_before_it(void)
{
    begin(&alone, 90.0);
    look_set(&alone, CONTROL_LOOSENESS, 0.0f);
    look_set(&alone, CONTROL_CLICK, 2.0f);
    look_set(&alone, CONTROL_CLICK_GRID, 4.0f);
    look_all(&alone);
    look_play_to_bar(&alone, 1.0, FRAMES);
    begin(&look, 90.0);
    look_set(&look, CONTROL_LOOSENESS, 0.0f);
    look_set(&look, CONTROL_CLICK, 2.0f);
    look_set(&look, CONTROL_CLICK_GRID, 4.0f);
    look_play_to_bar(&look, 0.985, FRAMES);
    look_set(&look, CONTROL_FEET, 240.0f);
    look_play(&look, FRAMES);
    look_set(&look, CONTROL_FEET, 50.0f);
    look_play(&look, FRAMES);
    look_all(&look);
    CHECK_INT(look.bars[0].feet, alone.bars[0].feet);
    look_play_to_bar(&look, 1.0, FRAMES);
    check_alike(&look, &alone);
}

static void a_change_taken_back_just_before_its_line_leaves_no_trace(void)
{
    begin(&alone, 90.0);
    look_play_to_bar(&alone, 3.0, FRAMES);
    begin(&look, 90.0);
    look_play_to_bar(&look, 0.985, FRAMES);
    look_set(&look, CONTROL_FEET, 240.0f);
    look_play(&look, FRAMES);
    look_set(&look, CONTROL_FEET, 0.0f);
    CHECK(!preview_place(&look.preview, &look.engine).waiting);
    look_play_to_bar(&look, 3.0, FRAMES);
    check_alike(&look, &alone);
}

/* ---- Sections */

typedef struct {
    int64_t bar;
    int bars;
    Meter meter;
    double tempo;
    float groove;
    float swing;
} Section;

static const Section sections[] = {
    {0, 2, {4.0, 4}, 70.0, PLAIN_GROOVE, 3.0f},
    {2, 3, {7.0, 8}, 200.0, GALLOP_GROOVE, 3.0f},
    {5, 2, {3.0, 4}, 90.0, 4.0f, 1.0f},
};

enum { SECTIONS = sizeof sections / sizeof *sections };

static Settings settings_of(const Section* const section)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    values[CONTROL_GROOVE] = section->groove;
    values[CONTROL_SWING_RATIO] = section->swing;
    values[CONTROL_SWING_FOLLOW] = 1.0f;
    values[CONTROL_LOOSENESS] = values[CONTROL_TOUCH] = values[CONTROL_LIBERTY] = 0.0f;
    return settings_from_controls(values);
}

static void tell_section(PreviewFeed* const feed, const Section* const section, const int64_t bar)
{
    engine_plan_put(&feed->engine, &(PlanEntry){.from = {bar, 0},
                                                .origin = bar,
                                                .meter = section->meter,
                                                .tempo = section->tempo,
                                                .settings = settings_of(section)});
}

static void begin_section(PreviewFeed* const feed, const Section* const section, const int64_t bar)
{
    const int64_t bar_ticks = meter_bar_ticks(section->meter);
    engine_locate(&feed->engine, section->meter, section->tempo, bar * bar_ticks);
    feed->meter = section->meter;
    feed->tempo = section->tempo;
}

static int64_t bars_frames(const Section* const section)
{
    const double quarters =
        section->bars * section->meter.beats_per_bar * 4.0 / section->meter.beat_unit;
    return (int64_t)floor(quarters * 60.0 / section->tempo * LOOK_RATE + 0.5);
}

static void play_frames(PreviewFeed* const feed, const int64_t frames)
{
    for (int64_t done = 0; done < frames; done += FRAMES) {
        look_play(feed, (uint32_t)(frames - done < FRAMES ? frames - done : FRAMES));
    }
}

/* A host that goes over the seam says its new tempo there, by a report. */
static void report_section(PreviewFeed* const feed, const Section* const section)
{
    const Report report = {.has =
                               HAS_SPEED | HAS_BEAT_UNIT | HAS_BEATS_PER_BAR | HAS_BEATS_PER_MINUTE,
                           .speed = 1.0,
                           .beat_unit = section->meter.beat_unit,
                           .beats_per_bar = section->meter.beats_per_bar,
                           .beats_per_minute = section->tempo};
    engine_begin(&feed->engine, MIDI_LIST_MAX);
    engine_report(&feed->engine, &report, 0);
}

static void drop_before(NoteList* const list, const int64_t frame)
{
    int kept = 0;
    for (int i = 0; i < list->count; ++i) {
        if (list->notes[i].frame >= frame) {
            list->notes[kept] = list->notes[i];
            list->notes[kept++].frame -= frame;
        }
    }
    list->count = kept;
}

static void check_seam(const Section first, const Section then)
{
    const int64_t seam = bars_frames(&first);
    look_begin(&look, bank_library(bank), first.meter, first.tempo);
    tell_section(&look, &first, 0);
    tell_section(&look, &then, then.bar);
    begin_section(&look, &first, 0);
    play_frames(&look, seam);
    report_section(&look, &then);
    play_frames(&look, bars_frames(&then) - LOOK_RATE / 20); /* the bar after isn't asked for */
    drop_before(&look.played, seam + LOOK_RATE / 20);        /* its first is early */
    look_begin(&alone, bank_library(bank), then.meter, then.tempo);
    tell_section(&alone, &then, 0);
    begin_section(&alone, &then, 0);
    play_frames(&alone, bars_frames(&then) - LOOK_RATE / 20);
    drop_before(&alone.played, LOOK_RATE / 20);
    CHECK_INT(look.played.count, alone.played.count);
    for (int i = 0; i < alone.played.count && i < look.played.count; ++i) {
        CHECK_NEAR(look.played.notes[i].frame, alone.played.notes[i].frame, 1.0);
        CHECK_INT(look.played.notes[i].key, alone.played.notes[i].key);
        CHECK_INT(look.played.notes[i].velocity, alone.played.notes[i].velocity);
    }
}

/* Friberg and Sundstrom's ratio at 70 is 3 to 1, at 200 two to one: swing.h. */
static void a_section_swings_at_its_own_tempo_from_its_first_beat_on(void)
{
    static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}, {3.0, 4}, {5.0, 4}, {2.0, 2}};
    static const double tempi[][2] = {{70.0, 200.0}, {200.0, 70.0}, {133.7, 90.0}, {96.0, 240.0}};
    for (int m = 0; m < 6; ++m) {
        for (int t = 0; t < 4; ++t) {
            for (int other = 0; other < 2; ++other) { /* the same meter, or the next */
                const Section first = {0, 2, meters[m], tempi[t][0], PLAIN_GROOVE, 3.0f};
                const Section then = {2,   2, meters[(m + other) % 6], tempi[t][1], GALLOP_GROOVE,
                                      3.0f};
                check_case("%g/%d at %g, then %g/%d at %g", first.meter.beats_per_bar,
                           first.meter.beat_unit, first.tempo, then.meter.beats_per_bar,
                           then.meter.beat_unit, then.tempo);
                check_seam(first, then);
            }
        }
    }
}

/* Looks at the phrase of a section, told alone. */
static void look_alone(const Section* const section)
{
    look_begin(&alone, bank_library(bank), section->meter, section->tempo);
    tell_section(&alone, section, section->bar);
    begin_section(&alone, section, section->bar);
    look_all(&alone);
}

static void check_bar(const int64_t bar)
{
    const SeenBar* const got = &look.bars[bar];
    const SeenBar* const want = &alone.bars[bar];
    CHECK(look.has[bar] && alone.has[bar]);
    CHECK_INT(got->groove, want->groove);
    CHECK_INT(got->in_phrase, want->in_phrase);
    CHECK(meter_equal(got->meter, want->meter));
    CHECK_INT(got->feet_turns.count, want->feet_turns.count);
    CHECK_INT(got->count, want->count);
    for (uint32_t i = 0; i < got->count && i < want->count; ++i) {
        CHECK_INT(got->strokes[i].written, want->strokes[i].written);
        CHECK_INT(got->strokes[i].felt, want->strokes[i].felt);
        CHECK_INT(got->strokes[i].velocity, want->strokes[i].velocity);
    }
}

/* A phrase of four bars and the bar after, over three sections: each bar is as it is
   where its section is told alone. */
static void sections_are_shown_before_they_come(void)
{
    look_begin(&look, bank_library(bank), sections[0].meter, sections[0].tempo);
    for (int i = 0; i < SECTIONS; ++i) {
        tell_section(&look, &sections[i], sections[i].bar);
    }
    begin_section(&look, &sections[0], 0);
    look_all(&look);
    const SeenPlace place = preview_place(&look.preview, &look.engine);
    CHECK(place.waiting);
    CHECK_INT(place.change_bar, sections[1].bar);
    CHECK_INT(place.change_tick, 0);
    for (int i = 0; i < SECTIONS; ++i) {
        look_alone(&sections[i]);
        for (int64_t bar = sections[i].bar; bar < sections[i].bar + sections[i].bars; ++bar) {
            check_case("section %d, bar %d", i, (int)bar);
            if (bar <= (int64_t)place.phrase_bars) {
                check_bar(bar);
                CHECK_INT(look.bars[bar].is_coming, i > 0);
            }
        }
    }
}

/* ... and while it plays, counted from its own first bar. */
static void a_section_that_plays_is_shown_from_its_own_first_bar(void)
{
    look_begin(&look, bank_library(bank), sections[0].meter, sections[0].tempo);
    for (int i = 0; i < SECTIONS; ++i) {
        tell_section(&look, &sections[i], sections[i].bar);
    }
    begin_section(&look, &sections[1], sections[1].bar);
    look_play(&look, FRAMES);
    look_all(&look);
    look_alone(&sections[1]);
    const SeenPlace place = preview_place(&look.preview, &look.engine);
    CHECK_INT(place.bar, sections[1].bar);
    CHECK_INT(place.phrase, sections[1].bar);
    for (int64_t bar = sections[1].bar; bar < sections[2].bar; ++bar) {
        check_case("bar %d", (int)bar);
        check_bar(bar);
        CHECK(!look.bars[bar].is_coming);
    }
    CHECK_INT(look.bars[sections[2].bar].groove, (int)sections[2].groove);
}

/* Behind the last bar nothing is shown, and nothing played. */
static void the_end_of_a_song_is_shown_empty(void)
{
    look_begin(&look, bank_library(bank), sections[0].meter, sections[0].tempo);
    tell_section(&look, &sections[0], 0);
    PlanEntry end = {.from = {2, 0}, .origin = 2, .meter = {4.0, 4}, .tempo = 70.0, .ends = true};
    end.settings = settings_of(&sections[0]);
    engine_plan_put(&look.engine, &end);
    begin_section(&look, &sections[0], 0);
    look_all(&look);
    CHECK(look.has[2]);
    CHECK_INT(look.bars[2].groove, 0);
    CHECK_INT(look.bars[2].count, 0);
    CHECK(look.bars[1].count > 0);
}

int main(void)
{
    bank = factory_open();
    RUN(a_place_has_the_last_entry_before_it);
    RUN(an_entry_takes_the_place_of_all_from_there_on);
    RUN(a_full_plan_forgets_its_first);
    RUN(a_change_asked_for_twice_just_before_its_line_changes_nothing_before_it);
    RUN(a_change_taken_back_just_before_its_line_leaves_no_trace);
    RUN(a_section_swings_at_its_own_tempo_from_its_first_beat_on);
    RUN(sections_are_shown_before_they_come);
    RUN(a_section_that_plays_is_shown_from_its_own_first_bar);
    RUN(the_end_of_a_song_is_shown_empty);
    bank_free(bank);
    return tests_end();
}
