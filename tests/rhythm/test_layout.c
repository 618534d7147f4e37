// SPDX-License-Identifier: ISC
/* test_layout.c - figures on other grids, cycles and displaced, against exact
   fractions and against steps counted round by hand. */
#include "fraction.h"

#include <stdio.h>

static const Meter four_four = {4.0, 4};

static Played played;

/* A rolling feet figure of one line of the right foot, played in 4/4 alone. */
static Selection roll_line(OwnFigure* const own, Groove* const groove, const int grid,
                           const int over, const char* const steps)
{
    *own = (OwnFigure){.figure = {.id = 1}};
    add_line(own, RIGHT_FOOT, VOICE_KICK, grid, over, steps);
    *groove = one_letter(NULL, &own->figure, four_four, 1);
    Selection selection = selection_of_groove(groove);
    selection.realign = REALIGN_NEVER;
    return selection;
}

static uint8_t level_of(const char sign)
{
    return (uint8_t)(strchr(".goO", sign) - ".goO");
}

/* The strokes must be the signs that aren't rests, in order, each at its step
   times `over`/`grid` of a quarter. */
static void check_spacing(const char* const steps, const int grid, const int over)
{
    const size_t length = strlen(steps);
    int64_t step = 0;
    for (uint32_t i = 0; i < played.count; ++i, ++step) {
        while (steps[(size_t)step % length] == '.') {
            ++step;
        }
        CHECK_PLACE(played.strokes[i].tick, fraction(step * over, grid));
        CHECK_INT(played.strokes[i].level, level_of(steps[(size_t)step % length]));
    }
}

static int strokes_in(const char* const steps)
{
    int count = 0;
    for (const char* sign = steps; *sign; ++sign) {
        count += *sign != '.';
    }
    return count;
}

static void steps_keep_their_order_and_take_the_spacing_of_any_grid(void)
{
    static const char steps[] = "Oo.go.oO";
    for (int grid = 1; grid <= 12; ++grid) {
        OwnFigure own;
        Groove groove;
        Selection selection = roll_line(&own, &groove, 4, 1, steps);
        selection.feet_regrid.grid = grid;
        check_case("grid %d", grid);
        play(&selection, four_four, 24 * TICKS_PER_QUARTER, &played);
        CHECK_INT(played.count, 3 * grid * strokes_in(steps)); /* 24 quarters, 8 steps a cycle */
        check_spacing(steps, grid, 1);
    }
}

static void grid_0_is_as_written(void)
{
    static const char steps[] = "O.og.";
    OwnFigure own;
    Groove groove;
    const Selection selection = roll_line(&own, &groove, 5, 2, steps);
    play(&selection, four_four, 20 * TICKS_PER_QUARTER, &played);
    CHECK_INT(played.count, 10 * strokes_in(steps));
    check_spacing(steps, 5, 2);
}

/* A figure of two grids has its steps on the finest that both share. */
static void lines_of_two_grids_keep_their_order_on_a_third(void)
{
    OwnFigure own;
    Groove groove;
    Selection selection = roll_line(&own, &groove, 3, 1, "OOO");
    add_line(&own, LEFT_FOOT, VOICE_KICK, 2, 1, ".o");
    selection.feet_regrid.grid = 12;
    play(&selection, four_four, TICKS_PER_QUARTER / 2, &played);
    CHECK_INT(played.count, 4);
    /* six steps: right on 0, 2 and 4, left on 3 */
    static const int steps[] = {0, 2, 3, 4};
    for (uint32_t i = 0; i < played.count; ++i) {
        CHECK_PLACE(played.strokes[i].tick, fraction(steps[i], 12));
        CHECK_INT(played.strokes[i].limb, steps[i] == 3 ? LEFT_FOOT : RIGHT_FOOT);
    }
}

static void every_tuplet_is_exact(void)
{
    for (int grid = 1; grid <= 16; ++grid) {
        for (int over = 1; over <= 16; ++over) {
            check_case("%d over %d", grid, over);
            CHECK_INT(figure_step_ticks(grid, over) * grid, TICKS_PER_QUARTER * over);
        }
    }
}

static void notes_over_beats_fall_on_exact_fractions(int grid, int over)
{
    OwnFigure own;
    Groove groove;
    const Selection selection = roll_line(&own, &groove, grid, over, "o");
    play(&selection, four_four, 4 * over * TICKS_PER_QUARTER, &played);
    CHECK_INT(played.count, 4 * grid);
    check_spacing("o", grid, over);
}

static void five_over_four_is_exact(void)
{
    notes_over_beats_fall_on_exact_fractions(5, 4);
}

static void seven_over_two_is_exact(void)
{
    notes_over_beats_fall_on_exact_fractions(7, 2);
}

static void a_tuplet_of_any_size_over_any_beats_is_played_exactly(void)
{
    for (int grid = 1; grid <= 16; ++grid) {
        for (int over = 1; over <= 16; ++over) {
            check_case("%d over %d", grid, over);
            notes_over_beats_fall_on_exact_fractions(grid, over);
        }
    }
}

/* The right foot of so many sixteenths, a sign each. */
static const char* sixteenths(const Selection* const selection, const int count)
{
    static char text[129];
    memset(text, '.', (size_t)count);
    text[count] = '\0';
    play(selection, four_four, count * TICKS_PER_QUARTER / 4, &played);
    for (uint32_t i = 0; i < played.count; ++i) {
        text[played.strokes[i].tick * 4 / TICKS_PER_QUARTER] = ".goO"[played.strokes[i].level];
    }
    return text;
}

static const char* relaid(const Regrid regrid, const int count)
{
    OwnFigure own;
    Groove groove;
    Selection selection = roll_line(&own, &groove, 4, 1, "OgoO.o");
    selection.feet_regrid = regrid;
    return sixteenths(&selection, count);
}

static void a_shorter_cycle_cuts_the_figure(void)
{
    CHECK_TEXT(relaid((Regrid){.cycle = 4}, 12), "OgoOOgoOOgoO");
    CHECK_TEXT(relaid((Regrid){.cycle = 1}, 4), "OOOO");
}

static void a_longer_cycle_goes_on_with_the_figure_from_its_start(void)
{
    CHECK_TEXT(relaid((Regrid){.cycle = 8}, 16), "OgoO.oOgOgoO.oOg");
    CHECK_TEXT(relaid((Regrid){.cycle = 13}, 16), "OgoO.oOgoO.oOOgo");
}

static void the_written_cycle_changes_nothing(void)
{
    CHECK_TEXT(relaid((Regrid){.cycle = 6}, 12), "OgoO.oOgoO.o");
}

static void a_shift_plays_the_figure_later_and_wraps(void)
{
    CHECK_TEXT(relaid((Regrid){.shift = 1}, 12), "oOgoO.oOgoO.");
    CHECK_TEXT(relaid((Regrid){.shift = 2}, 6), ".oOgoO");
}

static void a_negative_shift_plays_it_earlier(void)
{
    CHECK_TEXT(relaid((Regrid){.shift = -1}, 12), "goO.oOgoO.oO");
    CHECK_TEXT(relaid((Regrid){.shift = -32}, 6), "oO.oOg"); /* -32 is -2 round a cycle of 6 */
}

static void a_shift_of_a_whole_cycle_changes_nothing(void)
{
    CHECK_TEXT(relaid((Regrid){.shift = 6}, 12), "OgoO.oOgoO.o");
    CHECK_TEXT(relaid((Regrid){.shift = -12}, 12), "OgoO.oOgoO.o");
    CHECK_TEXT(relaid((Regrid){.cycle = 4, .shift = 32}, 8), "OgoOOgoO");
}

static void a_shift_wraps_in_the_asked_cycle(void)
{
    CHECK_TEXT(relaid((Regrid){.cycle = 4, .shift = 1}, 8), "OOgoOOgo");
    CHECK_TEXT(relaid((Regrid){.cycle = 8, .shift = 3}, 8), "oOgOgoO.");
}

static void a_shifted_figure_of_one_bar_keeps_to_the_bar(void)
{
    OwnFigure own = {.figure = {.id = 1, .bars = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "O... .... g... ..o.");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.feet_regrid.shift = 3;
    CHECK_TEXT(sixteenths(&selection, 32), ".o.O.......g.....o.O.......g....");
}

/* Three bars of a one-bar figure of 16 steps, played in phrases of three. */
static const char* bar_figure(const Regrid regrid, const Realign realign)
{
    OwnFigure own = {.figure = {.id = 1, .bars = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "O... .... g... ....");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 3);
    Selection selection = selection_of_groove(&groove);
    selection.feet_regrid = regrid;
    selection.realign = realign;
    return sixteenths(&selection, 48);
}

static void a_figure_of_one_bar_on_another_cycle_rolls_over_the_bar_lines(void)
{
    CHECK_TEXT(bar_figure((Regrid){.cycle = 12}, REALIGN_PHRASE),
               "O.......g...O.......g...O.......g...O.......g...");
    CHECK_TEXT(bar_figure((Regrid){.cycle = 12}, REALIGN_BAR),
               "O.......g...O...O.......g...O...O.......g...O...");
}

static void a_figure_of_one_bar_on_another_grid_rolls_over_the_bar_lines(void)
{
    CHECK_TEXT(bar_figure((Regrid){.grid = 2}, REALIGN_PHRASE),
               "O...............g...............O...............");
    CHECK_TEXT(bar_figure((Regrid){.grid = 2}, REALIGN_BAR),
               "O...............O...............O...............");
}

static void hands_and_feet_are_relaid_apart(void)
{
    OwnFigure hands = {.figure = {.id = 1}};
    OwnFigure feet = {.figure = {.id = 1}};
    add_line(&hands, RIGHT_HAND, VOICE_RIDE, 4, 1, "oo");
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "oo");
    const Groove groove = one_letter(&hands.figure, &feet.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.hands_regrid.grid = 3;
    selection.feet_regrid.grid = 5;
    int counts[LIMB_COUNT] = {0};
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &played);
    for (uint32_t i = 0; i < played.count; ++i) {
        ++counts[played.strokes[i].limb];
    }
    CHECK_INT(counts[RIGHT_HAND], 12);
    CHECK_INT(counts[RIGHT_FOOT], 20);
}

/* A property's case: two lines of one length, laid anew in any way. */
typedef struct {
    char right[65], left[65];
    int written; /* steps */
    int grid;    /* in effect */
    Regrid regrid;
    Realign realign;
    int beats, unit, phrase;
} Case;

static void random_steps(uint32_t* const state, const int count, char steps[65])
{
    for (int i = 0; i < count; ++i) {
        steps[i] = "..goO"[dice(state, 5)];
    }
    steps[0] = 'O';
    steps[count] = '\0';
}

static Case random_case(uint32_t* const state, OwnFigure* const own)
{
    static const int meters[][2] = {{4, 4}, {7, 8}, {5, 4}, {5, 8}, {11, 8}, {3, 4}, {7, 16}};
    const int written_grid = 1 + (int)dice(state, 8);
    const uint32_t meter = dice(state, 7);
    Case made = {.written = 1 + (int)dice(state, 24),
                 .regrid = {(int)dice(state, 13), (int)dice(state, 65), (int)dice(state, 65) - 32},
                 .realign = (Realign)dice(state, 3),
                 .beats = meters[meter][0],
                 .unit = meters[meter][1],
                 .phrase = 1 + (int)dice(state, 5)};
    made.grid = made.regrid.grid ? made.regrid.grid : written_grid;
    random_steps(state, made.written, made.right);
    random_steps(state, made.written, made.left);
    *own = (OwnFigure){.figure = {.id = 1}};
    add_line(own, RIGHT_FOOT, VOICE_KICK, written_grid, 1, made.right);
    add_line(own, LEFT_FOOT, VOICE_KICK, written_grid, 1, made.left);
    return made;
}

/* Where the steps of a bar are counted from: a bar's number. */
static int64_t origin_bar(const Case* const given, const int64_t bar)
{
    const int64_t origins[] = {0, bar / given->phrase * given->phrase, bar};
    return origins[given->realign];
}

static int64_t round_the(const int64_t number, const int64_t cycle)
{
    return (number % cycle + cycle) % cycle;
}

/* Takes the next stroke off the list if the step has one. */
static void expect_step(const Case* const given, const char* const steps, const Limb limb,
                        const int64_t step, const Fraction place, uint32_t* const next)
{
    const int64_t cycle = given->regrid.cycle ? given->regrid.cycle : given->written;
    const char sign = steps[round_the(step - given->regrid.shift, cycle) % given->written];
    if (sign == '.') {
        return;
    }
    const Stroke got = played.strokes[*next];
    CHECK(*next < played.count);
    CHECK_PLACE(got.tick, place);
    CHECK_INT(got.limb, limb);
    CHECK_INT(got.level, level_of(sign));
    ++*next;
}

/* Counted in quarters times `unit` times `grid`: all whole numbers. */
static void expect_bar(const Case* const given, const int64_t bar, uint32_t* const next)
{
    const int64_t bar_length = (int64_t)given->beats * 4 * given->grid;
    const int64_t origin = origin_bar(given, bar) * bar_length;
    const int64_t into = bar * bar_length - origin;
    int64_t step = (into + given->unit - 1) / given->unit;
    for (; step * given->unit < into + bar_length; ++step) {
        const Fraction place =
            fraction(origin + step * given->unit, (int64_t)given->unit * given->grid);
        expect_step(given, given->right, RIGHT_FOOT, step, place, next);
        expect_step(given, given->left, LEFT_FOOT, step, place, next);
    }
}

static void check_random_case(uint32_t* const state)
{
    enum { BARS = 9 };
    OwnFigure own;
    const Case given = random_case(state, &own);
    const Meter meter = {given.beats, given.unit};
    const Groove groove = one_letter(NULL, &own.figure, meter, (uint32_t)given.phrase);
    Selection selection = selection_of_groove(&groove);
    selection.feet_regrid = given.regrid;
    selection.realign = given.realign;
    const int64_t bar = TICKS_PER_QUARTER * 4 * given.beats / given.unit;
    const int64_t piece = 1000 + (int64_t)dice(state, 2 * TICKS_PER_QUARTER);
    check_case("%s and %s on %d, grid %d, cycle %d, shift %d, realign %d, %d/%d, phrase %d",
               given.right, given.left, given.grid, given.regrid.grid, given.regrid.cycle,
               given.regrid.shift, (int)given.realign, given.beats, given.unit, given.phrase);
    play_pieces(&selection, meter, BARS * bar, piece, &played);
    uint32_t next = 0;
    for (int64_t i = 0; i < BARS; ++i) {
        expect_bar(&given, i, &next);
    }
    CHECK_INT(played.count, next);
}

static void every_stroke_of_a_cycle_comes_once_a_cycle_however_it_is_laid_and_cut(void)
{
    uint32_t state = 1;
    for (int i = 0; i < 2000; ++i) {
        check_random_case(&state);
    }
}

int main(void)
{
    RUN(steps_keep_their_order_and_take_the_spacing_of_any_grid);
    RUN(grid_0_is_as_written);
    RUN(lines_of_two_grids_keep_their_order_on_a_third);
    RUN(every_tuplet_is_exact);
    RUN(five_over_four_is_exact);
    RUN(seven_over_two_is_exact);
    RUN(a_tuplet_of_any_size_over_any_beats_is_played_exactly);
    RUN(a_shorter_cycle_cuts_the_figure);
    RUN(a_longer_cycle_goes_on_with_the_figure_from_its_start);
    RUN(the_written_cycle_changes_nothing);
    RUN(a_shift_plays_the_figure_later_and_wraps);
    RUN(a_negative_shift_plays_it_earlier);
    RUN(a_shift_of_a_whole_cycle_changes_nothing);
    RUN(a_shift_wraps_in_the_asked_cycle);
    RUN(a_shifted_figure_of_one_bar_keeps_to_the_bar);
    RUN(a_figure_of_one_bar_on_another_cycle_rolls_over_the_bar_lines);
    RUN(a_figure_of_one_bar_on_another_grid_rolls_over_the_bar_lines);
    RUN(hands_and_feet_are_relaid_apart);
    RUN(every_stroke_of_a_cycle_comes_once_a_cycle_however_it_is_laid_and_cut);
    return tests_end();
}
