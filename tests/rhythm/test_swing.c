// SPDX-License-Identifier: ISC
/* test_swing.c - the shuffle against the triplet, published ratios and exact
   fractions of the pair that it bends. */
#include "../data/tsv.h"
#include "../help/same_strokes.h"
#include "fraction.h"

static const Meter four_four = {4.0, 4};
static const Meter seven_eight = {7.0, 8};

enum { EIGHTHS = TICKS_PER_QUARTER, SIXTEENTHS = TICKS_PER_QUARTER / 2 }; /* the pairs bent */

static Played played;

/* Plays so many quarters of a rolling line in a meter, bent. */
static void play_swung(const int grid, const int over, const char* const steps, const Swing swing,
                       const Meter meter, const int quarters)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_HAND, VOICE_RIDE, grid, over, steps);
    const Groove groove = one_letter(&own.figure, NULL, meter, 1);
    Selection selection = selection_of_groove(&groove);
    selection.realign = REALIGN_NEVER;
    selection.swing = swing;
    play(&selection, meter, quarters * TICKS_PER_QUARTER, &played);
}

static void check_same(const Played* const got, const Played* const want)
{
    CHECK_INT(got->count, want->count);
    for (uint32_t i = 0; i < got->count && i < want->count; ++i) {
        CHECK_INT(got->strokes[i].tick, want->strokes[i].tick);
    }
}

/* Common practice, no source: a shuffle is the triplet without its middle. */
static void eighths_at_2_to_1_are_the_triplet_to_the_tick(void)
{
    static Played shuffled;
    play_swung(2, 1, "Oo", (Swing){2.0, EIGHTHS}, four_four, 64);
    shuffled = played;
    play_swung(3, 1, "O.o", (Swing){1.0, EIGHTHS}, four_four, 64);
    CHECK_INT(played.count, 128);
    check_same(&shuffled, &played);
}

static void sixteenths_at_2_to_1_are_the_sextuplet_to_the_tick(void)
{
    static Played shuffled;
    play_swung(4, 1, "Oooo", (Swing){2.0, SIXTEENTHS}, four_four, 64);
    shuffled = played;
    play_swung(6, 1, "O.oo.o", (Swing){1.0, SIXTEENTHS}, four_four, 64);
    CHECK_INT(played.count, 256);
    check_same(&shuffled, &played);
}

static void the_long_note_of_2_to_1_is_two_thirds(void)
{
    CHECK_PLACE(swing_bend((Swing){2.0, EIGHTHS}, EIGHTHS / 2, 4 * EIGHTHS), fraction(2, 3));
}

/* No tick is nearer to the exact place. */
static void check_nearest(const int64_t tick, const Fraction place)
{
    const int64_t off = tick * place.below - place.above * TICKS_PER_QUARTER;
    CHECK((off < 0 ? -off : off) * 2 <= place.below);
}

static void a_ratio_of_long_to_short_puts_the_second_there(void)
{
    for (int below = 1; below <= 20; ++below) {
        for (int above = below; above <= 3 * below; ++above) {
            const Swing swing = {(double)above / below, EIGHTHS};
            check_case("%d to %d", above, below);
            check_nearest(swing_bend(swing, EIGHTHS / 2, 4 * EIGHTHS),
                          fraction(above, above + below));
        }
    }
}

static void the_second_note_stands_at_the_published_percentage(void)
{
    Tsv table = tsv_open("rhythm-swing.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        const Swing swing = {tsv_number(&table, 0) / tsv_number(&table, 1), EIGHTHS};
        const int64_t second = swing_bend(swing, EIGHTHS / 2, 4 * EIGHTHS);
        check_case("%s to %s", table.fields[0], table.fields[1]);
        CHECK_NEAR(100.0 * (double)second / EIGHTHS, tsv_number(&table, 2), 0.05);
    }
    CHECK_INT(rows, 5);
}

/* Of each step in a pair: below its middle stretched, above it pressed. */
static Fraction bent_place(const int64_t step, const int grid, const int above, const int below)
{
    const int64_t quarter = step / grid;
    const int64_t in = step % grid; /* of grid, in a quarter */
    const int64_t whole = (int64_t)grid * (above + below);
    const int64_t bent =
        2 * in <= grid ? 2 * in * above : (int64_t)grid * above + (2 * in - grid) * below;
    return fraction(quarter * whole + bent, whole);
}

static void strokes_inside_the_pair_bend_in_proportion(void)
{
    for (int grid = 2; grid <= 16; grid *= 2) {
        for (int above = 2; above <= 6; ++above) {
            play_swung(grid, 1, "o", (Swing){above / 2.0, EIGHTHS}, four_four, 16);
            check_case("grid %d, %d to 2", grid, above);
            CHECK_INT(played.count, 16 * grid);
            for (uint32_t i = 0; i < played.count; ++i) {
                check_nearest(played.strokes[i].tick, bent_place(i, grid, above, 2));
            }
        }
    }
}

static int divisor_of_both(const int a, const int b)
{
    return b ? divisor_of_both(b, a % b) : a;
}

/* 6 over 3 are eighths, so no tuplet. */
static bool is_tuplet(const int grid, const int over)
{
    const int notes = grid / divisor_of_both(grid, over);
    return (notes & (notes - 1)) != 0;
}

static void check_unbent(const int grid, const int over)
{
    play_swung(grid, over, "o", (Swing){3.0, EIGHTHS}, four_four, 4 * over);
    check_case("%d over %d", grid, over);
    CHECK_INT(played.count, 4 * grid);
    for (uint32_t i = 0; i < played.count; ++i) {
        CHECK_PLACE(played.strokes[i].tick, fraction((int64_t)i * over, grid));
    }
}

static void tuplets_are_never_bent(void)
{
    for (int grid = 3; grid <= 16; ++grid) {
        for (int over = 1; over <= 4; ++over) {
            if (is_tuplet(grid, over)) {
                check_unbent(grid, over);
            }
        }
    }
}

/* Whether anything of a sixteenths figure on another grid is out of its place. */
static bool is_bent_on(const int grid)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_HAND, VOICE_RIDE, 4, 1, "o");
    const Groove groove = one_letter(&own.figure, NULL, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.hands_regrid.grid = grid;
    selection.swing = (Swing){2.0, EIGHTHS};
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &played);
    CHECK_INT(played.count, 4 * grid);
    bool bent = false;
    for (uint32_t i = 0; i < played.count; ++i) {
        bent |= played.strokes[i].tick * grid != i * TICKS_PER_QUARTER;
    }
    return bent;
}

static void what_is_laid_on_a_grid_is_bent_by_that_grid(void)
{
    for (int grid = 2; grid <= 12; ++grid) {
        check_case("grid %d", grid);
        CHECK_INT(is_bent_on(grid), grid == 2 || grid == 4 || grid == 8);
    }
}

static void triplets_laid_on_sixteenths_are_bent(void)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_HAND, VOICE_RIDE, 3, 1, "o");
    const Groove groove = one_letter(&own.figure, NULL, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.hands_regrid.grid = 4;
    selection.swing = (Swing){2.0, EIGHTHS};
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &played);
    CHECK_INT(played.count, 16);
    for (uint32_t i = 0; i < played.count; ++i) {
        CHECK_PLACE(played.strokes[i].tick, bent_place(i, 4, 2, 1));
    }
}

static void every_pair_is_mapped_onto_itself_in_order(void)
{
    for (double ratio = 1.0; ratio <= 3.0; ratio += 0.0625) {
        const Swing swing = {ratio, EIGHTHS};
        int64_t last = -1;
        check_case("ratio %g", ratio);
        for (int64_t tick = 0; tick < 4 * EIGHTHS; tick += EIGHTHS / 480) {
            const int64_t bent = swing_bend(swing, tick, 4 * EIGHTHS);
            CHECK(bent > last);
            CHECK_INT(bent / EIGHTHS, tick / EIGHTHS);
            CHECK(tick % EIGHTHS != 0 || bent == tick);
            last = bent;
        }
    }
}

/* Bent ticks are whole: half a tick is the most that is lost, and the steepest part of
   the way back makes (1 + ratio) / 2 of it. */
static void what_is_unbent_is_as_it_was_written(void)
{
    for (double ratio = 1.0; ratio <= 3.0; ratio += 0.125) {
        const Swing swing = {ratio, EIGHTHS};
        check_case("ratio %g", ratio);
        for (int64_t tick = 0; tick < 7 * EIGHTHS / 2; tick += EIGHTHS / 480) {
            const int64_t bent = swing_bend(swing, tick, 7 * EIGHTHS / 2);
            CHECK_NEAR(swing_unbend(swing, (double)bent, 7 * EIGHTHS / 2), (double)tick,
                       0.25 * (1.0 + ratio) + 1e-6);
        }
    }
}

/* Every eighth of a bar of 7/8 but the last is in a pair. */
static void the_pair_that_seven_eight_cuts_stays_even(void)
{
    play_swung(2, 1, "o", (Swing){2.0, EIGHTHS}, seven_eight, 7); /* two bars */
    static const Fraction want[] = {{0, 3}, {2, 3}, {3, 3}, {5, 3}, {6, 3}, {8, 3}, {9, 3}};
    CHECK_INT(played.count, 14);
    for (uint32_t i = 0; i < played.count; ++i) {
        const Fraction bar = {i / 7 * 21, 6};
        const Fraction in = want[i % 7];
        CHECK_PLACE(played.strokes[i].tick, fraction(bar.above + 2 * in.above, 6));
    }
}

static void sixteenths_in_the_cut_pair_stay_even_too(void)
{
    play_swung(4, 1, "o", (Swing){2.0, EIGHTHS}, seven_eight, 4);
    CHECK_PLACE(played.strokes[11].tick, fraction(17, 6)); /* of the third pair, bent */
    CHECK_PLACE(played.strokes[12].tick, fraction(12, 4));
    CHECK_PLACE(played.strokes[13].tick, fraction(13, 4));
}

static void seven_eight_cuts_no_pair_of_sixteenths(void)
{
    play_swung(4, 1, "o", (Swing){2.0, SIXTEENTHS}, seven_eight, 7);
    CHECK_INT(played.count, 28);
    for (uint32_t i = 0; i < played.count; ++i) {
        CHECK_PLACE(played.strokes[i].tick, fraction(3 * (i / 2) + 2 * (i % 2), 6));
    }
}

static void a_swung_span_gives_the_same_strokes_however_it_is_cut(void)
{
    static Played whole;
    OwnFigure hands = {.figure = {.id = 1}};
    OwnFigure feet = {.figure = {.id = 1}};
    add_line(&hands, RIGHT_HAND, VOICE_RIDE, 4, 1, "Oooo");
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 8, 1, "ooooo.");
    const Groove groove = one_letter(&hands.figure, &feet.figure, seven_eight, 3);
    Selection selection = selection_of_groove(&groove);
    selection.swing = (Swing){2.6, EIGHTHS};
    const int64_t end = 21 * TICKS_PER_QUARTER;
    play_pieces(&selection, seven_eight, end, TICKS_PER_QUARTER * 7 / 2, &whole);
    for (int64_t piece = 9973; piece < end; piece = 2 * piece + 1) {
        check_case("pieces of %d ticks", (int)piece);
        play_pieces(&selection, seven_eight, end, piece < 2 * EIGHTHS ? piece : 2 * EIGHTHS,
                    &played);
        CHECK_INT(played.count, whole.count);
        CHECK(same_strokes(played.strokes, whole.strokes, whole.count));
    }
}

static void the_ratio_falls_with_tempo_as_published(void)
{
    Tsv table = tsv_open("rhythm-swing-follow.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        check_case("%s a minute", table.fields[0]);
        CHECK_NEAR(swing_ratio_at(10.0, EIGHTHS, tsv_number(&table, 0)), tsv_number(&table, 1),
                   0.05);
    }
    CHECK_INT(rows, 5);
}

/* 600/tempo - 1 for eighths, half of the pair for sixteenths. */
static void the_short_note_lasts_100_ms(void)
{
    for (double tempo = 160.0; tempo < 300.0; tempo += 7.0) {
        check_case("%g a minute", tempo);
        CHECK_NEAR(swing_ratio_at(10.0, EIGHTHS, tempo), 600.0 / tempo - 1.0, 1e-9);
        CHECK_NEAR(swing_ratio_at(10.0, SIXTEENTHS, tempo / 2.0), 600.0 / tempo - 1.0, 1e-9);
    }
}

static void the_ratio_is_never_below_even(void)
{
    for (double tempo = 300.0; tempo <= 2000.0; tempo += 100.0) {
        check_case("%g a minute", tempo);
        CHECK_NEAR(swing_ratio_at(3.0, EIGHTHS, tempo), 1.0, 0.0);
    }
}

static void the_ratio_is_never_above_what_was_asked(void)
{
    for (double asked = 1.0; asked <= 3.0; asked += 0.25) {
        check_case("asked for %g", asked);
        CHECK_NEAR(swing_ratio_at(asked, EIGHTHS, 40.0), asked, 0.0);
    }
}

int main(void)
{
    RUN(eighths_at_2_to_1_are_the_triplet_to_the_tick);
    RUN(sixteenths_at_2_to_1_are_the_sextuplet_to_the_tick);
    RUN(the_long_note_of_2_to_1_is_two_thirds);
    RUN(a_ratio_of_long_to_short_puts_the_second_there);
    RUN(the_second_note_stands_at_the_published_percentage);
    RUN(strokes_inside_the_pair_bend_in_proportion);
    RUN(tuplets_are_never_bent);
    RUN(what_is_laid_on_a_grid_is_bent_by_that_grid);
    RUN(triplets_laid_on_sixteenths_are_bent);
    RUN(every_pair_is_mapped_onto_itself_in_order);
    RUN(what_is_unbent_is_as_it_was_written);
    RUN(the_pair_that_seven_eight_cuts_stays_even);
    RUN(sixteenths_in_the_cut_pair_stay_even_too);
    RUN(seven_eight_cuts_no_pair_of_sixteenths);
    RUN(a_swung_span_gives_the_same_strokes_however_it_is_cut);
    RUN(the_ratio_falls_with_tempo_as_published);
    RUN(the_short_note_lasts_100_ms);
    RUN(the_ratio_is_never_below_even);
    RUN(the_ratio_is_never_above_what_was_asked);
    return tests_end();
}
