// SPDX-License-Identifier: ISC
/* The phrase as it is shown is the phrase as it is played.  Each bar's strokes are
   held against the notes that the engine sends later, by the frames that plain
   arithmetic gives. */
#include "../help/check.h"
#include "preview_rig.h"

static Bank* bank;
static PreviewFeed look; /* too large for a stack */
static NoteList wanted, heard;

static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}, {5.0, 4}, {3.0, 4}, {15.0, 16}};

enum { METERS = sizeof meters / sizeof *meters };

/* Feels, each as far from the grid as it goes. */
typedef struct {
    Control control;
    float value;
} Turn;

static const Turn feels[][4] = {
    {{CONTROL_TAKE, 1.0f}},
    {{CONTROL_LOOSENESS, 0.0f}, {CONTROL_TOUCH, 0.0f}},
    {{CONTROL_LOOSENESS, 30.0f}, {CONTROL_TAKE, 77.0f}, {CONTROL_TOUCH, 100.0f}},
    {{CONTROL_SWING_RATIO, 1.67f}, {CONTROL_SWING_GRID, 1.0f}},
    {{CONTROL_PUSH_HANDS, -20.0f}, {CONTROL_PUSH_SNARE, 15.0f}, {CONTROL_PUSH_FEET, 8.0f}},
    {{CONTROL_ACCENT, 100.0f}, {CONTROL_GHOST, 100.0f}, {CONTROL_LEVEL, 100.0f}},
    {{CONTROL_FEET_GRID, 5.0f}, {CONTROL_FEET_CYCLE, 7.0f}, {CONTROL_REALIGN, 0.0f}},
    {{CONTROL_HANDS_CYCLE, 3.0f}, {CONTROL_HANDS_SHIFT, -1.0f}, {CONTROL_REALIGN, 2.0f}},
    {{CONTROL_LEAD_FOOT, 1.0f}, {CONTROL_TURNAROUND, -1.0f}},
    {{CONTROL_LEFT_HAND, 0.0f}, {CONTROL_RIGHT_FOOT, 0.0f}},
};

enum { FEELS = sizeof feels / sizeof *feels };

static void begin(const int groove, const int feel, const Meter meter, const double tempo,
                  const int phrase)
{
    const Library* const library = bank_library(bank);
    look_begin(&look, library, meter, tempo);
    look_set(&look, CONTROL_GROOVE, (float)library->grooves[groove].id);
    look_set(&look, CONTROL_PHRASE_BARS, (float)phrase);
    for (int i = 0; i < 4; ++i) {
        if (feels[feel][i].control != CONTROL_ENABLED) {
            look_set(&look, feels[feel][i].control, feels[feel][i].value);
        }
    }
    look_play(&look, 1); /* so that the groove's own meter and tempo are out of the way */
    look_report(&look, 0.0);
    look_all(&look);
    look.frames = 0;
    look.played.count = 0;
}

/* From the second quarter on: what lies before bar 0 can't be played in its place. */
static void check_played(const int bars, const double from_bar, const double to_bar)
{
    const double bar = look_frame(&look, (double)look_bar_ticks(&look));
    const int64_t from = (int64_t)(from_bar * bar);
    const int64_t to = (int64_t)(to_bar * bar);
    look_expect(&look, bars, from, to, &wanted);
    look_heard(&look, from, to, &heard);
    CHECK(heard.count > 0);
    CHECK_INT(heard.count, wanted.count);
    for (int i = 0; i < heard.count && i < wanted.count; ++i) {
        CHECK_INT(heard.notes[i].frame, wanted.notes[i].frame);
        CHECK_INT(heard.notes[i].key, wanted.notes[i].key);
        CHECK_INT(heard.notes[i].velocity, wanted.notes[i].velocity);
    }
}

static void each_bar_says_exactly_what_is_played(void)
{
    const int grooves = (int)bank_library(bank)->groove_count;
    for (int i = 0; i < 2 * grooves; ++i) {
        const Meter meter = meters[i % METERS];
        const double tempo = 60.0 + (double)(i * 37 % 180);
        const int phrase = 1 + i % 16;
        begin(i % grooves, i % FEELS, meter, tempo, phrase);
        check_case("groove %u, feel %d, %g/%d, %d bars at %g",
                   engine_selection(&look.engine).groove->id, i % FEELS, meter.beats_per_bar,
                   meter.beat_unit, phrase, tempo);
        CHECK_INT(look.told, phrase + 1);
        const int bars = phrase + 1 < 6 ? phrase + 1 : 6;
        look_report(&look, 1.0);
        look_play_to_bar(&look, bars, i % 3 ? 256 : 1021);
        const double quarter = 4.0 / meter.beat_unit * meter.beats_per_bar;
        check_played(phrase + 1, 1.0 / quarter, bars - 0.5 / quarter);
        for (int bar = 0; bar <= phrase; ++bar) {
            CHECK_INT(look.bars[bar].dropped, 0);
        }
    }
}

static void a_bar_says_what_it_is(void)
{
    begin(0, 0, (Meter){7.0, 8}, 120.0, 5);
    for (int bar = 0; bar <= 5; ++bar) {
        const SeenBar* const seen = &look.bars[bar];
        check_case("bar %d", bar);
        CHECK_INT(seen->bar, bar);
        CHECK_INT(seen->in_phrase, bar % 5);
        CHECK_INT(seen->phrase_bars, 5);
        CHECK_INT(seen->meter.beat_unit, 8);
        CHECK_INT(seen->groove, engine_selection(&look.engine).groove->id);
        CHECK(!seen->is_coming);
    }
}

static void strokes_stand_in_order_and_inside_their_bar(void)
{
    for (int groove = 0; groove < (int)bank_library(bank)->groove_count; groove += 7) {
        begin(groove, 2, (Meter){4.0, 4}, 120.0, 4);
        for (int bar = 0; bar <= 4; ++bar) {
            const SeenBar* const seen = &look.bars[bar];
            check_case("groove %d, bar %d", groove, bar);
            for (uint32_t i = 0; i < seen->count; ++i) {
                CHECK(seen->strokes[i].written >= 0 &&
                      seen->strokes[i].written < look_bar_ticks(&look));
                CHECK(i == 0 || seen->strokes[i - 1].written <= seen->strokes[i].written);
                CHECK(seen->strokes[i].velocity >= 1 && seen->strokes[i].velocity <= 127);
            }
        }
    }
}

/* ---- Changes that wait */

typedef struct {
    ChangeAt at;
    double asked; /* bars */
    double line;  /* where it comes in, by hand */
    int phrase;
    Meter meter;
} Wait;

/* The next beat, bar or phrase after where it is asked; in 7/8 a beat is an eighth,
   so that a line can lie within a quarter note. */
static const Wait waits[] = {
    {CHANGE_AT_BEAT, 1.4, 1.5, 4, {4.0, 4}},
    {CHANGE_AT_BEAT, 2.7, 2.75, 4, {4.0, 4}},
    {CHANGE_AT_BAR, 1.2, 2.0, 4, {4.0, 4}},
    {CHANGE_AT_BAR, 3.3, 4.0, 4, {4.0, 4}},
    {CHANGE_AT_PHRASE, 1.2, 4.0, 4, {4.0, 4}},
    {CHANGE_AT_BAR, 0.5, 1.0, 1, {4.0, 4}},
    {CHANGE_AT_PHRASE, 9.1, 16.0, 16, {4.0, 4}},
    {CHANGE_AT_BEAT, 1.0 + 2.4 / 7.0, 1.0 + 3.0 / 7.0, 4, {7.0, 8}},
    {CHANGE_AT_BEAT, 2.0 + 4.2 / 7.0, 2.0 + 5.0 / 7.0, 3, {7.0, 8}},
};

/* "Slow Kettle" swings its sixteenths, which the other groove doesn't: swing changes
   with the line, or with the next quarter note where the line lies within one. */
enum { SWUNG_GROOVE = 35 };

static void change_feet(const Wait* const wait, const int feel, const int groove)
{
    const Library* const library = bank_library(bank);
    const uint32_t count = library->figure_counts[FIGURE_FEET];
    begin(3, feel, wait->meter, 132.0, wait->phrase);
    look_set(&look, CONTROL_CHANGE_AT, (float)wait->at);
    look_report(&look, 1.0);
    look_play_to_bar(&look, wait->asked, 64);
    look_set(&look, CONTROL_FEET, (float)library->figures[FIGURE_FEET][count / 2].id);
    look_set(&look, CONTROL_HANDS, (float)library->figures[FIGURE_HANDS][5].id);
    look_set(&look, CONTROL_GROOVE, (float)groove);
}

static void a_change_that_waits_is_shown_from_its_line_on(void)
{
    for (size_t i = 0; i < sizeof waits / sizeof *waits; ++i) {
        const Wait* const wait = &waits[i];
        change_feet(wait, (int)i % 3, 4);
        look_all(&look);
        check_case("change %d asked at %g", (int)wait->at, wait->asked);
        const SeenPlace place = preview_place(&look.preview, &look.engine);
        CHECK(place.waiting);
        const double line =
            (double)place.change_bar + (double)place.change_tick / (double)look_bar_ticks(&look);
        CHECK_NEAR(line, wait->line, 1e-9);
        const int first = (int)ceil(wait->line);
        for (int bar = 0; bar <= first && bar <= wait->phrase; ++bar) {
            CHECK_INT(look.bars[bar].is_coming, bar >= first);
        }
    }
}

static void what_is_shown_of_a_change_is_played_when_it_comes(void)
{
    for (size_t i = 0; i < sizeof waits / sizeof *waits; ++i) {
        const Wait* const wait = &waits[i];
        for (int feel = 0; feel < 4; ++feel) {
            change_feet(wait, feel, feel % 2 ? SWUNG_GROOVE : 4);
            look_all(&look);
            check_case("change %d asked at %g, feel %d", (int)wait->at, wait->asked, feel);
            const int bar = (int)wait->asked;
            const int origin = bar - bar % wait->phrase;
            const double end = origin + wait->phrase + 1.0;
            look_play_to_bar(&look, end, 256);
            check_played((int)end, wait->asked + 0.1, end - 0.2);
        }
    }
}

static bool strokes_alike(const SeenBar* const a, const SeenBar* const b)
{
    bool alike = a->count == b->count;
    for (uint32_t i = 0; alike && i < a->count; ++i) {
        const SeenStroke x = a->strokes[i], y = b->strokes[i];
        alike =
            x.felt == y.felt && x.limb == y.limb && x.voice == y.voice && x.velocity == y.velocity;
    }
    return alike;
}

/* The engine draws half a quarter note ahead: up to the line itself the old bar is
   shown, in its old phrase. */
static void up_to_its_line_a_change_waits(void)
{
    for (size_t i = 0; i < sizeof waits / sizeof *waits; ++i) {
        const Wait* const wait = &waits[i];
        static SeenBar before;
        change_feet(wait, 0, SWUNG_GROOVE);
        look_all(&look);
        const int now = (int)(wait->line - 1e-6); /* the bar that ends at the line, or has it */
        before = look.bars[now];
        const double line = look_frame(&look, wait->line * (double)look_bar_ticks(&look));
        check_case("change %d asked at %g", (int)wait->at, wait->asked);
        while ((double)look.frames + 64.0 < line) {
            look_play(&look, 64);
            look_all(&look);
            const SeenPlace place = preview_place(&look.preview, &look.engine);
            CHECK(place.waiting);
            CHECK_INT(place.phrase_bars, wait->phrase);
            CHECK(strokes_alike(&look.bars[now], &before));
        }
        look_play(&look, 128);
        look_all(&look);
        CHECK(!preview_place(&look.preview, &look.engine).waiting);
        CHECK(!look.bars[now + 1].is_coming);
    }
}

/* ---- The work */

static void a_step_looks_at_one_quarter_note_at_most(void)
{
    for (int i = 0; i < METERS; ++i) {
        const double quarters = meters[i].beats_per_bar * 4.0 / meters[i].beat_unit;
        begin(0, 0, meters[i], 120.0, 4);
        look_begin(&look, bank_library(bank), meters[i], 120.0);
        check_case("%g/%d", meters[i].beats_per_bar, meters[i].beat_unit);
        const int bars = (int)engine_selection(&look.engine).phrase_bars + 1;
        while (look.told < bars && look.steps < 4096) {
            const int64_t before = look.preview.is_making ? look.preview.at : 0;
            preview_step(&look.preview, &look.engine);
            ++look.steps;
            CHECK(look.preview.at - before <= TICKS_PER_QUARTER);
            look.told += preview_fetch(&look.preview) != NULL;
        }
        CHECK_INT(look.steps, bars * (int)ceil(quarters));
        CHECK(!look_step(&look));
    }
}

static void a_bar_that_nobody_fetches_waits(void)
{
    begin(0, 0, (Meter){4.0, 4}, 120.0, 4);
    preview_start(&look.preview);
    for (int i = 0; i < 100; ++i) {
        preview_step(&look.preview, &look.engine);
    }
    const SeenBar* const seen = preview_fetch(&look.preview);
    CHECK(seen && seen->bar == 0);
    CHECK(!preview_fetch(&look.preview));
}

/* Automation that changes the feel before every step: each bar has its turn. */
static void steady_automation_starves_no_bar(void)
{
    int made[17] = {0};
    begin(0, 0, (Meter){4.0, 4}, 120.0, 16);
    look_report(&look, 1.0);
    enum { ROUNDS = 8, STEPS = ROUNDS * 17 * 4 };
    for (int step = 0; step < STEPS; ++step) {
        look_set(&look, CONTROL_TOUCH, (float)(step % 100));
        const int before = look.told;
        look_step(&look);
        if (look.told > before) {
            ++made[look.preview.seen.bar % 17];
        }
    }
    for (int bar = 0; bar < 17; ++bar) {
        check_case("bar %d", bar);
        CHECK(made[bar] >= ROUNDS - 1 && made[bar] <= ROUNDS + 1);
    }
}

static void the_bar_now_playing_is_made_first(void)
{
    begin(0, 0, (Meter){4.0, 4}, 120.0, 8);
    look_report(&look, 1.0);
    look_play_to_bar(&look, 5.2, 256);
    preview_start(&look.preview);
    memset(look.has, 0, sizeof look.has);
    while (!look.told || !look.has[5]) {
        look_step(&look);
        if (!CHECK(look.steps < 4096)) {
            return;
        }
        for (int bar = 0; bar < 9; ++bar) {
            CHECK(bar == 5 || !look.has[bar]);
        }
    }
}

/* ---- The place */

static void the_place_is_where_the_frames_say(void)
{
    begin(0, 0, (Meter){5.0, 4}, 90.0, 4);
    look_report(&look, 1.0);
    for (int i = 0; i < 500; ++i) {
        look_play(&look, 777);
        const SeenPlace place = preview_place(&look.preview, &look.engine);
        const double tick = (double)look.frames * 90.0 / 60.0 / LOOK_RATE * TICKS_PER_QUARTER;
        CHECK_NEAR((double)(place.bar * look_bar_ticks(&look)) + place.tick, tick, 1.0);
        CHECK_NEAR(place.ticks_per_second, 1.5 * TICKS_PER_QUARTER, 1e-3);
        CHECK(place.rolling && place.host_has_tempo && place.host_has_place);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(each_bar_says_exactly_what_is_played);
    RUN(a_bar_says_what_it_is);
    RUN(strokes_stand_in_order_and_inside_their_bar);
    RUN(a_change_that_waits_is_shown_from_its_line_on);
    RUN(what_is_shown_of_a_change_is_played_when_it_comes);
    RUN(up_to_its_line_a_change_waits);
    RUN(a_step_looks_at_one_quarter_note_at_most);
    RUN(a_bar_that_nobody_fetches_waits);
    RUN(steady_automation_starves_no_bar);
    RUN(the_bar_now_playing_is_made_first);
    RUN(the_place_is_where_the_frames_say);
    bank_free(bank);
    return tests_end();
}
