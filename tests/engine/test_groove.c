// SPDX-License-Identifier: ISC
/* How figures meet bars, phrases and each other.  Expectations are counted by
   hand from the steps; the rules are groove.h's and DESIGN's. */
#include "../help/check.h"
#include "../help/same_strokes.h"
#include "library.h"

#include <stdio.h>

static const Meter four_four = {4.0, 4};
static const Meter seven_eight = {7.0, 8};
static const Meter five_four = {5.0, 4};

/* A bar as text, a sign for each sixteenth, of one limb. */
static const char* bar_text(const Selection* const selection, const Meter meter, const int bar,
                            const Limb limb)
{
    static char text[65];
    static StrokeList list;
    const int64_t ticks = meter_bar_ticks(meter);
    const int64_t step = TICKS_PER_QUARTER / 4;
    const int steps = (int)(ticks / step);
    memset(text, '.', (size_t)steps);
    text[steps] = '\0';
    groove_strokes(selection, meter, bar * ticks, (bar + 1) * ticks, &list);
    for (uint32_t i = 0; i < list.count; ++i) {
        if (list.strokes[i].limb == limb) {
            text[(list.strokes[i].tick - bar * ticks) / step] = ".goOfd"[list.strokes[i].level];
        }
    }
    return text;
}

static void a_bar_figure_is_cut_by_a_shorter_bar_and_starts_again(void)
{
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    add_line(&hands, RIGHT_HAND, VOICE_HAT_CLOSED, 4, 1, "O.o. g.o. O.o. g.oo");
    const Groove groove = one_letter(&hands.figure, NULL, four_four, 4);
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, seven_eight, 0, RIGHT_HAND), "O.o.g.o.O.o.g.");
    CHECK_TEXT(bar_text(&selection, seven_eight, 1, RIGHT_HAND), "O.o.g.o.O.o.g.");
}

static void a_bar_figure_starts_again_inside_a_longer_bar(void)
{
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    add_line(&hands, RIGHT_HAND, VOICE_HAT_CLOSED, 4, 1, "O.o. g.o. O.o. g.oo");
    const Groove groove = one_letter(&hands.figure, NULL, four_four, 4);
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, five_four, 1, RIGHT_HAND), "O.o.g.o.O.o.g.ooO.o.");
}

static void a_figure_of_two_bars_takes_its_bars_in_turn(void)
{
    OwnFigure hands = {.figure = {.id = 1, .bars = 2}};
    add_line(&hands, LEFT_HAND, VOICE_SNARE, 1, 1, ".O.. ..O.");
    const Groove groove = one_letter(&hands.figure, NULL, four_four, 3);
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, four_four, 0, LEFT_HAND), "....O...........");
    CHECK_TEXT(bar_text(&selection, four_four, 1, LEFT_HAND), "........O.......");
    CHECK_TEXT(bar_text(&selection, four_four, 2, LEFT_HAND), "....O...........");
    check_case("the next phrase begins with the first bar again");
    CHECK_TEXT(bar_text(&selection, four_four, 3, LEFT_HAND), "....O...........");
}

static void a_rolling_figure_crosses_bar_lines_and_begins_with_the_phrase(void)
{
    OwnFigure feet = {.figure = {.id = 1}};
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "Oo.");
    const Groove groove = one_letter(NULL, &feet.figure, four_four, 4);
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, four_four, 0, RIGHT_FOOT), "Oo.Oo.Oo.Oo.Oo.O");
    CHECK_TEXT(bar_text(&selection, four_four, 1, RIGHT_FOOT), "o.Oo.Oo.Oo.Oo.Oo");
    CHECK_TEXT(bar_text(&selection, four_four, 2, RIGHT_FOOT), ".Oo.Oo.Oo.Oo.Oo.");
    CHECK_TEXT(bar_text(&selection, four_four, 3, RIGHT_FOOT), "Oo.Oo.Oo.Oo.Oo.O");
    CHECK_TEXT(bar_text(&selection, four_four, 4, RIGHT_FOOT), "Oo.Oo.Oo.Oo.Oo.O");
}

static void the_form_says_which_bar_plays_what(void)
{
    OwnFigure a = {.figure = {.id = 1, .bars = 1}};
    OwnFigure b = {.figure = {.id = 2, .bars = 1}};
    add_line(&a, RIGHT_FOOT, VOICE_KICK, 1, 1, "O...");
    add_line(&b, RIGHT_FOOT, VOICE_KICK, 1, 1, "..O.");
    Groove groove = one_letter(NULL, &a.figure, four_four, 4);
    groove.parts[1] = (Part){.feet = &b.figure};
    groove.form[3] = 1; /* AAAB */
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, four_four, 2, RIGHT_FOOT), "O...............");
    CHECK_TEXT(bar_text(&selection, four_four, 3, RIGHT_FOOT), "........O.......");
    CHECK_TEXT(bar_text(&selection, four_four, 7, RIGHT_FOOT), "........O.......");
}

static void a_turnaround_takes_the_last_bar_from_the_hands(void)
{
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    OwnFigure feet = {.figure = {.id = 1, .bars = 1}};
    OwnFigure fill = {.figure = {.id = 1, .bars = 1}};
    add_line(&hands, LEFT_HAND, VOICE_SNARE, 1, 1, ".O.O");
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 1, 1, "O.O.");
    add_line(&fill, LEFT_HAND, VOICE_TOM_LOW, 1, 1, "oooo");
    Groove groove = one_letter(&hands.figure, &feet.figure, four_four, 2);
    groove.turnaround = &fill.figure;
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, four_four, 0, LEFT_HAND), "....O.......O...");
    CHECK_TEXT(bar_text(&selection, four_four, 1, LEFT_HAND), "o...o...o...o...");
    CHECK_TEXT(bar_text(&selection, four_four, 1, RIGHT_FOOT), "O.......O.......");
}

static void a_turnaround_with_feet_takes_the_feet_too(void)
{
    OwnFigure feet = {.figure = {.id = 1, .bars = 1}};
    OwnFigure fill = {.figure = {.id = 1, .bars = 1}};
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 1, 1, "O.O.");
    add_line(&fill, LEFT_HAND, VOICE_TOM_LOW, 1, 1, "oo..");
    add_line(&fill, LEFT_FOOT, VOICE_KICK, 1, 1, "..oo");
    Groove groove = one_letter(NULL, &feet.figure, four_four, 2);
    groove.turnaround = &fill.figure;
    const Selection selection = selection_of_groove(&groove);
    CHECK_TEXT(bar_text(&selection, four_four, 1, RIGHT_FOOT), "................");
    CHECK_TEXT(bar_text(&selection, four_four, 1, LEFT_FOOT), "........o...o...");
}

static void the_crash_takes_the_right_hands_first_stroke_of_each_phrase(void)
{
    static StrokeList list;
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    add_line(&hands, RIGHT_HAND, VOICE_RIDE, 1, 1, "oooo");
    Groove groove = one_letter(&hands.figure, NULL, four_four, 2);
    groove.crash_start = true;
    const Selection selection = selection_of_groove(&groove);
    const int64_t bar = meter_bar_ticks(four_four);
    groove_strokes(&selection, four_four, 0, 4 * bar, &list);
    CHECK_INT(list.count, 16);
    for (uint32_t i = 0; i < list.count; ++i) {
        check_case("stroke %u", i);
        CHECK_INT(list.strokes[i].voice, i % 8 == 0 ? VOICE_CRASH : VOICE_RIDE);
    }
}

static void bars_before_the_first_are_silent(void)
{
    static StrokeList list;
    OwnFigure feet = {.figure = {.id = 1}};
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "O");
    const Groove groove = one_letter(NULL, &feet.figure, four_four, 4);
    const Selection selection = selection_of_groove(&groove);
    groove_strokes(&selection, four_four, -10 * TICKS_PER_QUARTER, 0, &list);
    CHECK_INT(list.count, 0);
    groove_strokes(&selection, four_four, -TICKS_PER_QUARTER, 1, &list);
    CHECK_INT(list.count, 1);
}

/* The law of the engine: any cut of a span gives the same strokes. */
static void a_span_gives_the_same_strokes_however_it_is_cut(void)
{
    static StrokeList whole, part;
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    OwnFigure feet = {.figure = {.id = 1}};
    add_line(&hands, RIGHT_HAND, VOICE_RIDE, 3, 1, "ooo ooo ooo ooo");
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 7, 2, "O.oo.");
    const Groove groove = one_letter(&hands.figure, &feet.figure, four_four, 3);
    const Selection selection = selection_of_groove(&groove);
    const int64_t end = 10 * meter_bar_ticks(seven_eight);
    groove_strokes(&selection, seven_eight, 0, end, &whole);
    for (int64_t piece = 99991; piece < end; piece = 3 * piece + 1) {
        uint32_t met = 0;
        check_case("pieces of %d ticks", (int)piece);
        for (int64_t begin = 0; begin < end; begin += piece) {
            const int64_t stop = begin + piece < end ? begin + piece : end;
            groove_strokes(&selection, seven_eight, begin, stop, &part);
            CHECK(same_strokes(part.strokes, &whole.strokes[met], part.count));
            met += part.count;
        }
        CHECK_INT(met, whole.count);
    }
}

/* figure.h's promises, broken one by one. */
static void a_figure_that_breaks_a_promise_is_not_valid(void)
{
    OwnFigure own = {.figure = {.id = 1, .bars = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "O.oo");
    CHECK(figure_valid(&own.figure));
    const int64_t tick = own.strokes[1].tick;
    own.strokes[1].tick = tick + 1;
    CHECK(!figure_valid(&own.figure)); /* off its own grid */
    own.strokes[1].tick = 0;
    own.strokes[0].tick = tick;
    CHECK(!figure_valid(&own.figure)); /* out of order */
    own.strokes[0].tick = 0;
    own.strokes[1].tick = tick;
    own.strokes[2].tick = own.figure.cycle_ticks;
    CHECK(!figure_valid(&own.figure)); /* past its end */
    own.strokes[2].tick = 3 * TICKS_PER_QUARTER / 4;
    own.strokes[2].level = LEVEL_REST;
    CHECK(!figure_valid(&own.figure)); /* a stroke that is none */
    own.strokes[2].level = LEVEL_NORMAL;
    CHECK(figure_valid(&own.figure));
}

/* Whoever was told of a bar finds in the figure what is played: every place of every bar
   has a stroke of the figure where a stroke is played, and only there. */
static void check_copies(const Figure* const figure, const Selection* const selection,
                         const Meter meter, const int bar)
{
    const int64_t bar_ticks = meter_bar_ticks(meter);
    const FigureBar at = {.meter = meter,
                          .bar = bar,
                          .in_phrase = selection->loop_bar ? (int64_t)selection->loop_bar - 1
                                                           : bar % (int)selection->phrase_bars,
                          .loops = selection->loop_bar,
                          .realign = selection->realign};
    char found[65] = "";
    const int64_t step = TICKS_PER_QUARTER / 4;
    for (int i = 0; i < (int)(bar_ticks / step); ++i) {
        const FigureCopy copy = groove_copy(figure, at, i * step);
        const int64_t tick = copy.from + i * step - copy.begin;
        const uint32_t stroke = figure_first_from(figure, tick);
        const bool is_there = stroke < figure->stroke_count && figure->strokes[stroke].tick == tick;
        found[i] = '.';
        if (is_there) {
            found[i] = ".goOfd"[figure->strokes[stroke].level];
        }
        CHECK(copy.begin <= i * step && i * step < copy.begin + copy.ticks);
    }
    CHECK_TEXT(found, bar_text(selection, meter, bar, RIGHT_FOOT));
}

static void the_turn_of_a_figure_that_is_told_is_the_one_played(void)
{
    static const char* const steps[] = {"Oo.", "O.ogo", "Oo.. o.g. .o.. O...",
                                        "Oo.. .... g... .O.. o... ..oo O.g. ...o"};
    static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {5.0, 4}, {2.0, 4}};
    for (int row = 0; row < 4; ++row) {
        OwnFigure feet = {.figure = {.id = 1, .bars = row == 2 ? 1 : row == 3 ? 2 : 0}};
        add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, steps[row]);
        const Groove groove = one_letter(NULL, &feet.figure, four_four, 3);
        Selection selection = selection_of_groove(&groove);
        for (int i = 0; i < 4 * 3 * 4 * 7; ++i) {
            selection.realign = (Realign)(i / 7 % 3);
            selection.loop_bar = (uint32_t)(i / 21 % 4); /* 0: none */
            check_case("\"%s\", realign %d, loop %u, meter %d, bar %d", steps[row],
                       (int)selection.realign, selection.loop_bar, i / 84, i % 7);
            check_copies(&feet.figure, &selection, meters[i / 84], i % 7);
        }
    }
}

int main(void)
{
    RUN(a_figure_that_breaks_a_promise_is_not_valid);
    RUN(a_bar_figure_is_cut_by_a_shorter_bar_and_starts_again);
    RUN(a_bar_figure_starts_again_inside_a_longer_bar);
    RUN(a_figure_of_two_bars_takes_its_bars_in_turn);
    RUN(a_rolling_figure_crosses_bar_lines_and_begins_with_the_phrase);
    RUN(the_form_says_which_bar_plays_what);
    RUN(a_turnaround_takes_the_last_bar_from_the_hands);
    RUN(a_turnaround_with_feet_takes_the_feet_too);
    RUN(the_crash_takes_the_right_hands_first_stroke_of_each_phrase);
    RUN(bars_before_the_first_are_silent);
    RUN(the_turn_of_a_figure_that_is_told_is_the_one_played);
    RUN(a_span_gives_the_same_strokes_however_it_is_cut);
    return tests_end();
}
