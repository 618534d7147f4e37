// SPDX-License-Identifier: ISC
/* test_fill_now.c - a fill that is asked for while it plays: where it ends, from what was
   drawn when it was asked for, and what is heard until then, in it and behind it. */
#include "../help/check.h"
#include "library.h"
#include "preview_rig.h"

enum { BLOCK = 256, EVENTS = 512 };

static const Meter meters[] = {{4.0, 4}, {3.0, 4},  {6.0, 8}, {7.0, 8}, {5.0, 4},
                               {9.0, 8}, {12.0, 8}, {2.0, 2}, {7.0, 16}};
enum { METERS = sizeof meters / sizeof *meters };
static const double tempi[] = {61.0, 120.0, 187.3};

static OwnFigure hands, feet, beat, bar, two_bars;
static Groove groove;
static Kit kit;
static Library library;
static PreviewFeed look; /* too large for a stack */

/* Fills strike the floor tom alone, the groove never. */
static void make_library(void)
{
    hands = feet = beat = bar = two_bars = (OwnFigure){0};
    add_line(&hands, RIGHT_HAND, VOICE_RIDE, 2, 1, "o");
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "o..");
    add_line(&beat, LEFT_HAND, VOICE_TOM_FLOOR, 4, 1, "oooo");
    add_line(&bar, LEFT_HAND, VOICE_TOM_FLOOR, 2, 1, "oooooooo");
    add_line(&two_bars, LEFT_HAND, VOICE_TOM_FLOOR, 2, 1, "oooo oooo oooo oooo");
    bar.figure.bars = 1;
    two_bars.figure.bars = 2;
    hands.figure.kind = FIGURE_HANDS;
    feet.figure.kind = FIGURE_FEET;
    groove = one_letter(&hands.figure, &feet.figure, meters[0], 16);
    groove.turnaround = &beat.figure;
    kit = (Kit){.id = 1};
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        kit.notes[voice] = (uint8_t)(voice + 1);
    }
    library = (Library){.grooves = &groove, .groove_count = 1, .kits = &kit, .kit_count = 1};
}

/* Rolls from bar 0 on, on the grid, without fills but those that are asked for: the phrase
   is sixteen bars. */
static void begin(const Meter meter, const double tempo, const OwnFigure* const fill)
{
    groove.turnaround = fill ? &fill->figure : NULL;
    look_begin(&look, &library, meter, tempo);
    look_set(&look, CONTROL_LOOSENESS, 0.0f);
    look_set(&look, CONTROL_TOUCH, 0.0f);
    look_report(&look, 1.0);
}

static int64_t bar_ticks(void)
{
    return meter_bar_ticks(look.meter);
}

/* The fill's strokes heard so far, as ticks; the n-th, or how many. */
static int64_t fill_ticks[EVENTS];
static int64_t crash_ticks[EVENTS];
static int crashes;

static int fill_strokes(void)
{
    int count = 0;
    crashes = 0;
    for (int i = 0; i < look.played.count && count < EVENTS; ++i) {
        const Note note = look.played.notes[i];
        const double tick =
            (double)note.frame * look.tempo * (double)TICKS_PER_QUARTER / (60.0 * LOOK_RATE);
        if (note.key == VOICE_TOM_FLOOR + 1) {
            fill_ticks[count++] = llround(tick);
        } else if (note.key == VOICE_CRASH + 1) {
            crash_ticks[crashes++] = llround(tick);
        }
    }
    return count;
}

/* As long as the figure, but no more than its bars of the meter. */
static int64_t length_of(const Figure* const fill)
{
    const int64_t most = fill->bars * bar_ticks();
    return fill->bars && most < fill->cycle_ticks ? most : fill->cycle_ticks;
}

/* All that was heard of fills is these ends' own, in order. */
static void check_fills(const Figure* const fill, const int64_t* const ends, const int count)
{
    const int heard = fill_strokes();
    const double frame = look.tempo * (double)TICKS_PER_QUARTER / (60.0 * LOOK_RATE);
    int next = 0;
    for (int i = 0; i < count; ++i) {
        for (uint32_t s = 0; s < fill->stroke_count; ++s) {
            const int64_t before = fill->cycle_ticks - fill->strokes[s].tick;
            if (before <= length_of(fill)) {
                CHECK(next < heard);
                CHECK_NEAR(fill_ticks[next % EVENTS], ends[i] - before, frame);
                ++next;
            }
        }
    }
    CHECK_INT(heard, next);
}

/* The line after whose fill nothing of it was drawn when it was asked for. */
static int64_t line_after(const int64_t drawn, const int64_t length)
{
    int64_t line = bar_ticks();
    while (line - length < drawn) {
        line += bar_ticks();
    }
    return line;
}

static int64_t ask(void)
{
    const int64_t drawn = look.engine.lookahead.drawn_until;
    CHECK(engine_fill_now(&look.engine));
    return drawn;
}

static void it_ends_on_the_first_bar_line_that_it_can_reach_whole(void)
{
    const OwnFigure* const all[] = {&beat, &bar, &two_bars};
    for (int i = 0; i < METERS * 3 * 3 * 5; ++i) {
        const OwnFigure* const fill = all[i / METERS % 3];
        begin(meters[i % METERS], tempi[i / METERS / 3 % 3], fill);
        look_play_to_bar(&look, 2.03 + 0.2 * (i / METERS / 9), BLOCK);
        const double place = (double)look.engine.groove_clock.played_until;
        const int64_t drawn = ask();
        const int64_t end = line_after(drawn, length_of(&fill->figure));
        check_case("%g/%d at %g, fill of %u strokes, asked at %g", look.meter.beats_per_bar,
                   look.meter.beat_unit, look.tempo, fill->figure.stroke_count,
                   place / (double)bar_ticks());
        /* what is drawn ahead is half a quarter and a block at most */
        CHECK((double)drawn - place < 0.6 * (double)TICKS_PER_QUARTER);
        look_play_to_bar(&look, 9.0, BLOCK);
        check_fills(&fill->figure, &end, 1);
    }
}

static void asked_again_before_it_ends_it_is_asked_once(void)
{
    begin(meters[0], 120.0, &bar);
    look_play_to_bar(&look, 1.2, BLOCK);
    int64_t ends[2] = {line_after(ask(), length_of(&bar.figure)), 0};
    for (double at = 1.3; at < 2.95; at += 0.1) {
        look_play_to_bar(&look, at, BLOCK);
        ask();
    }
    look_play_to_bar(&look, 3.1, BLOCK);
    ends[1] = line_after(ask(), length_of(&bar.figure));
    look_play_to_bar(&look, 9.0, BLOCK);
    check_fills(&bar.figure, ends, 2);
    CHECK_INT(ends[0], 3 * bar_ticks());
    CHECK_INT(ends[1], 5 * bar_ticks());
}

static void where_the_groove_has_one_by_itself_there_is_no_other(void)
{
    begin(meters[0], 120.0, &bar);
    look_set(&look, CONTROL_FILL_EVERY, 3.0f);
    look_play_to_bar(&look, 3.1, BLOCK);
    ask(); /* bar 4 is free */
    look_play_to_bar(&look, 7.1, BLOCK);
    ask(); /* that of bar 8 comes, and ends on 9 */
    look_play_to_bar(&look, 10.3, BLOCK);
    ask(); /* that of bar 11 comes */
    look_play_to_bar(&look, 11.5, BLOCK);
    ask(); /* in it: the next is free */
    look_play_to_bar(&look, 14.0, BLOCK);
    const int64_t b = bar_ticks();
    check_fills(&bar.figure, (int64_t[]){3 * b, 5 * b, 6 * b, 9 * b, 12 * b, 13 * b}, 6);
}

/* Two bars every five, on 3 and 8: none is cut short for another. */
static void it_never_reaches_into_one_that_the_groove_has(void)
{
    begin(meters[0], 120.0, &two_bars);
    look_set(&look, CONTROL_FILL_EVERY, 5.0f);
    look_play_to_bar(&look, 1.2, BLOCK);
    ask(); /* from bar 2 on it would reach into that on 3 */
    look_play_to_bar(&look, 5.2, BLOCK);
    ask();
    look_play_to_bar(&look, 8.5, BLOCK);
    ask(); /* from bar 9 on it would begin in that on 8 */
    look_play_to_bar(&look, 14.9, BLOCK);
    const int64_t b = bar_ticks();
    check_fills(&two_bars.figure, (int64_t[]){5 * b, 8 * b, 10 * b, 12 * b, 15 * b}, 5);
}

static void a_locate_before_it_and_a_stop_forget_it(void)
{
    const Meter meter = meters[0];
    for (int how = 0; how < 3; ++how) {
        begin(meter, 120.0, &bar);
        check_case("way %d", how);
        look_play_to_bar(&look, 1.2, BLOCK);
        ask();
        if (how == 0) {
            engine_locate(&look.engine, meter, 120.0, 0);
        } else if (how == 1) {
            engine_stop(&look.engine, 0);
            CHECK(!engine_fill_now(&look.engine)); /* it stands */
            look_report(&look, 1.0);
        } else {
            look_report(&look, 1.0); /* the host loops back to bar 0 */
        }
        look_play_to_bar(&look, 9.0, BLOCK);
        CHECK_INT(fill_strokes(), 0);
    }
}

static void without_a_turnaround_nothing_comes_of_it(void)
{
    begin(meters[0], 120.0, NULL);
    look_play_to_bar(&look, 1.2, BLOCK);
    ask();
    look_play_to_bar(&look, 6.0, BLOCK);
    CHECK_INT(fill_strokes(), 0);
}

/* Two bars of count-in are silent: the first that can end it is the first line. */
static void on_the_own_clock_a_count_in_is_no_place_for_it(void)
{
    const double at[] = {0.5, 1.9, 2.6};
    for (int i = 0; i < 3; ++i) {
        begin(meters[0], 120.0, &beat);
        look_set(&look, CONTROL_CLOCK, 1.0f);
        look_set(&look, CONTROL_TEMPO, 120.0f);
        look_set(&look, CONTROL_COUNT_IN, 2.0f);
        look_set(&look, CONTROL_CLICK, 0.0f);
        look.frames = 0;
        look.played.count = 0;
        look_set(&look, CONTROL_ENABLED, 0.0f);
        look_play(&look, BLOCK);
        look_set(&look, CONTROL_ENABLED, 1.0f);
        look.frames = 0;
        look_play_to_bar(&look, at[i], BLOCK);
        ask();
        look_play_to_bar(&look, 7.0, BLOCK);
        check_case("asked %g bars from the count-in's beginning", at[i]);
        const int64_t end = 3 * bar_ticks(); /* two bars of count-in, one of groove */
        check_fills(&beat.figure, &end, 1);
    }
}

static void while_a_bar_loops_it_ends_on_the_next_line(void)
{
    begin(meters[3], 120.0, &beat);
    look_set(&look, CONTROL_LOOP_BAR, 2.0f);
    look_set(&look, CONTROL_CHANGE_AT, 0.0f);
    look_play_to_bar(&look, 3.2, BLOCK);
    const int64_t end = line_after(ask(), length_of(&beat.figure));
    look_play_to_bar(&look, 9.0, BLOCK);
    check_fills(&beat.figure, &end, 1);
    CHECK_INT(end, 4 * bar_ticks());
    check_case("a looped bar that is all fill stays so");
    begin(meters[0], 120.0, &bar);
    look_set(&look, CONTROL_LOOP_BAR, 16.0f);
    look_play_to_bar(&look, 3.2, BLOCK);
    const int before = fill_strokes();
    ask();
    look_play_to_bar(&look, 6.2, BLOCK);
    CHECK_INT(fill_strokes() - before, 3 * 8);
}

/* A change that waits for a line: a fill that is whole before it ends there; one that isn't
   comes behind it, as the new has it. */
static void a_change_that_waits_for_its_line_is_no_obstacle(void)
{
    const double at[] = {1.2, 1.7};
    for (int i = 0; i < 2; ++i) {
        begin(meters[0], 120.0, &beat);
        look_play_to_bar(&look, 1.1, BLOCK);
        look_set(&look, CONTROL_FILL_BEATS, 1.0f); /* at bar 2 */
        look_play_to_bar(&look, at[i], BLOCK);
        ask();
        look_play_to_bar(&look, 6.0, BLOCK);
        check_case("asked at %g", at[i]);
        const int64_t end = (i ? 3 : 2) * bar_ticks();
        if (at[i] < 1.5) {
            check_fills(&beat.figure, &end, 1);
        } else {
            CHECK_INT(fill_strokes(), 4);
            CHECK(fill_ticks[0] >= bar_ticks());
        }
    }
    check_case("a change that comes after it was asked for");
    begin(meters[0], 120.0, &two_bars);
    look_play_to_bar(&look, 1.1, BLOCK);
    const int64_t end = line_after(ask(), length_of(&two_bars.figure));
    look_set(&look, CONTROL_FEET, 7.0f); /* other feet, at bar 2: hands fill on */
    look_play_to_bar(&look, 9.0, BLOCK);
    check_fills(&two_bars.figure, &end, 1);
}

/* Sections at bars 0 and 4: a fill that isn't whole before the second's line comes in it,
   counted from its own first bar. */
static void in_a_song_it_keeps_to_its_section(void)
{
    const double at[] = {1.2, 2.6, 3.2, 4.3};
    const int want[] = {4, 6, 6, 7};
    for (int i = 0; i < 4; ++i) {
        begin(meters[3], 120.0, &two_bars);
        PlanEntry entry = {.meter = meters[3], .tempo = 120.0};
        entry.settings = settings_from_controls(look.values);
        engine_plan_put(&look.engine, &entry);
        entry.from.bar = entry.origin = 4;
        engine_plan_put(&look.engine, &entry);
        engine_begin(&look.engine, MIDI_LIST_MAX);
        engine_locate(&look.engine, meters[3], 120.0, 0);
        look_play_to_bar(&look, at[i], BLOCK);
        ask();
        look_play_to_bar(&look, 12.0, BLOCK);
        check_case("asked at %g", at[i]);
        const int64_t end = want[i] * bar_ticks();
        check_fills(&two_bars.figure, &end, 1);
    }
}

static void the_line_after_it_has_a_crash_where_it_is_asked_for(void)
{
    for (int crash = 0; crash < 4; ++crash) {
        for (int starts = 0; starts < 2; ++starts) {
            begin(meters[0], 120.0, &beat);
            groove.crash_start = starts;
            look_set(&look, CONTROL_CRASH, (float)crash);
            look_report(&look, 1.0);
            look_play_to_bar(&look, 1.2, BLOCK);
            ask();
            look_play_to_bar(&look, 6.0, BLOCK);
            const int heard = fill_strokes();
            const bool has = crash == 2 || (crash == 0 && starts);
            bool is_there = false;
            for (int i = 0; i < crashes; ++i) {
                is_there |= llabs(crash_ticks[i] - 2 * bar_ticks()) < 100;
            }
            check_case("crash %d, written %d", crash, starts);
            CHECK_INT(heard, 4);
            CHECK_INT(is_there, has);
            CHECK_INT(crashes, has ? 2 : crash == 3 ? 1 : 0);
            groove.crash_start = false;
        }
    }
}

static void it_is_shown_before_it_comes(void)
{
    begin(meters[0], 120.0, &bar);
    groove.form_bars = 4;
    look_set(&look, CONTROL_TURNAROUND, 0.0f);
    look_play_to_bar(&look, 0.3, BLOCK);
    look_all(&look);
    CHECK_INT(look.bars[1].fill, 0);
    groove.turnaround = &bar.figure;
    bar.figure.id = 5;
    ask();
    look_all(&look);
    CHECK_INT(look.bars[1].fill, 5);
    CHECK_INT(look.bars[1].fill_begin, 0);
    CHECK_INT(look.bars[2].fill, 0);
    bar.figure.id = 0;
    groove.form_bars = 16;
}

int main(void)
{
    make_library();
    RUN(it_ends_on_the_first_bar_line_that_it_can_reach_whole);
    RUN(asked_again_before_it_ends_it_is_asked_once);
    RUN(where_the_groove_has_one_by_itself_there_is_no_other);
    RUN(it_never_reaches_into_one_that_the_groove_has);
    RUN(a_locate_before_it_and_a_stop_forget_it);
    RUN(without_a_turnaround_nothing_comes_of_it);
    RUN(on_the_own_clock_a_count_in_is_no_place_for_it);
    RUN(while_a_bar_loops_it_ends_on_the_next_line);
    RUN(a_change_that_waits_for_its_line_is_no_obstacle);
    RUN(in_a_song_it_keeps_to_its_section);
    RUN(the_line_after_it_has_a_crash_where_it_is_asked_for);
    RUN(it_is_shown_before_it_comes);
    return tests_end();
}
