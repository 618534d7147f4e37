// SPDX-License-Identifier: ISC
/* test_realign.c - after how many bars hands, feet, bar line and phrase meet:
   held against a table of least common multiples, and against counting where
   the first stroke of a figure falls on a bar line again. */
#include "../data/tsv.h"
#include "fraction.h"

static const Meter four_four = {4.0, 4};
static const Meter seven_eight = {7.0, 8};

enum { SIXTEENTH = TICKS_PER_QUARTER / 4 };

/* A figure of so many sixteenths, struck on its first alone. */
static void first_of(OwnFigure* const own, const Limb limb, const int units)
{
    char steps[TSV_LINE_ROOM] = "O";
    memset(steps + 1, '.', (size_t)units - 1);
    steps[units] = '\0';
    *own = (OwnFigure){.figure = {.id = 1}};
    add_line(own, limb, limb == RIGHT_FOOT ? VOICE_KICK : VOICE_RIDE, 4, 1, steps);
}

/* A bar of so many sixteenths. */
static Meter bar_of(const int units)
{
    return units % 4 ? (Meter){units / 2.0, 8} : (Meter){units / 4.0, 4};
}

/* Hands of one length over feet of another, rolling for ever. */
typedef struct {
    OwnFigure hands, feet;
    Groove groove;
    Selection selection;
} Pair;

static const Selection* pair_of(Pair* const pair, const int hands, const int feet,
                                const uint32_t phrase)
{
    first_of(&pair->hands, RIGHT_HAND, hands);
    first_of(&pair->feet, RIGHT_FOOT, feet);
    pair->groove = one_letter(&pair->hands.figure, &pair->feet.figure, four_four, phrase);
    pair->selection = selection_of_groove(&pair->groove);
    pair->selection.realign = REALIGN_NEVER;
    return &pair->selection;
}

static void feet_meet_the_bar_line_after_the_bars_of_the_table(void)
{
    Tsv table = tsv_open("rhythm-realignment.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        static Pair pair;
        const int bar = tsv_integer(&table, 0);
        const int feet = tsv_integer(&table, 1);
        check_case("%d units over bars of %d", feet, bar);
        CHECK_INT(groove_realign_bars(pair_of(&pair, bar, feet, 1), bar_of(bar)),
                  tsv_integer(&table, 3));
        check_case("the same in the hands");
        CHECK_INT(groove_realign_bars(pair_of(&pair, feet, bar, 1), bar_of(bar)),
                  tsv_integer(&table, 3));
    }
    CHECK_INT(rows, 19);
}

static void an_asked_cycle_meets_after_the_bars_of_the_table(void)
{
    Tsv table = tsv_open("rhythm-realignment.tsv");
    while (tsv_next(&table)) {
        static Pair pair;
        const int bar = tsv_integer(&table, 0);
        const int feet = tsv_integer(&table, 1);
        pair_of(&pair, bar, 16, 1);
        pair.selection.feet_regrid.cycle = feet;
        check_case("%d units over bars of %d", feet, bar);
        CHECK_INT(groove_realign_bars(&pair.selection, bar_of(bar)), tsv_integer(&table, 3));
    }
}

/* The table's 12 units are a bar of 4/4 in triplets as well. */
static void an_asked_grid_meets_after_the_bars_of_the_table(void)
{
    static Pair pair;
    pair_of(&pair, 16, 5, 1);
    pair.selection.feet_regrid.grid = 3;
    CHECK_INT(groove_realign_bars(&pair.selection, four_four), 5);
    pair_of(&pair, 16, 7, 1);
    pair.selection.feet_regrid.grid = 3;
    CHECK_INT(groove_realign_bars(&pair.selection, four_four), 7);
}

/* 5 and 7 sixteenths over 4/4: 560 sixteenths (arithmetic). */
static void two_figures_meet_after_the_multiple_of_both(void)
{
    static Pair pair;
    CHECK_INT(groove_realign_bars(pair_of(&pair, 5, 7, 1), four_four), 35);
    CHECK_INT(groove_realign_bars(pair_of(&pair, 7, 5, 1), four_four), 35);
}

static void the_phrase_counts_too(void)
{
    static Pair pair;
    CHECK_INT(groove_realign_bars(pair_of(&pair, 16, 5, 4), four_four), 20);
    CHECK_INT(groove_realign_bars(pair_of(&pair, 16, 6, 4), four_four), 12);
    CHECK_INT(groove_realign_bars(pair_of(&pair, 14, 5, 4), seven_eight), 20);
    CHECK_INT(groove_realign_bars(pair_of(&pair, 16, 16, 7), four_four), 7);
}

static void what_starts_again_with_the_phrase_meets_with_it(void)
{
    static Pair pair;
    pair_of(&pair, 5, 7, 4);
    pair.selection.realign = REALIGN_PHRASE;
    CHECK_INT(groove_realign_bars(&pair.selection, four_four), 4);
    pair.selection.realign = REALIGN_BAR;
    CHECK_INT(groove_realign_bars(&pair.selection, four_four), 4);
}

/* 61 and 59 sixteenths, 4/4, 3 bars: 10797 bars, more than are told. */
static void more_than_9999_bars_are_told_as_0(void)
{
    static Pair pair;
    CHECK_INT(groove_realign_bars(pair_of(&pair, 61, 59, 3), four_four), 0);
    CHECK_INT(groove_realign_bars(pair_of(&pair, 61, 59, 1), four_four), 3599);
}

/* Whether both limbs strike on this bar line. */
static bool both_strike(const Selection* const selection, const Meter meter, const int64_t bar)
{
    static StrokeList list;
    const int64_t tick = bar * meter_bar_ticks(meter);
    groove_strokes(selection, meter, tick, tick + 1, &list);
    bool strikes[LIMB_COUNT] = {false};
    for (uint32_t i = 0; i < list.count; ++i) {
        strikes[list.strokes[i].limb] = true;
    }
    return strikes[RIGHT_HAND] && strikes[RIGHT_FOOT];
}

/* Bars until the first strokes of both fall on a phrase's first bar line. */
static int64_t counted_bars(const Selection* const selection, const Meter meter)
{
    int64_t bar = selection->phrase_bars;
    while (bar <= 9999 && !both_strike(selection, meter, bar)) {
        bar += selection->phrase_bars;
    }
    return bar;
}

static void the_bars_told_are_those_that_are_counted(void)
{
    static const int bars[] = {14, 16, 12, 20, 10, 22};
    uint32_t state = 7;
    for (int i = 0; i < 300; ++i) {
        static Pair pair;
        const int bar = bars[dice(&state, 6)];
        const int hands = 1 + (int)dice(&state, 24);
        const int feet = 1 + (int)dice(&state, 24);
        const uint32_t phrase = 1 + dice(&state, 5);
        pair_of(&pair, hands, feet, phrase);
        check_case("%d and %d sixteenths, bars of %d, phrases of %u", hands, feet, bar, phrase);
        CHECK_INT(groove_realign_bars(&pair.selection, bar_of(bar)),
                  counted_bars(&pair.selection, bar_of(bar)));
    }
}

/* Steps that stand k to a quarter meet a bar line by their own length, whatever
   was written: counted. */
static void the_bars_told_are_those_counted_on_other_grids_and_cycles(void)
{
    uint32_t state = 11;
    for (int i = 0; i < 300; ++i) {
        static Pair pair;
        pair_of(&pair, 16, 64, 1 + dice(&state, 3)); /* 64: no asked cycle repeats its first */
        pair.selection.feet_regrid =
            (Regrid){1 + (int)dice(&state, 12), 1 + (int)dice(&state, 64), 0};
        check_case("grid %d, cycle %d, phrases of %u", pair.selection.feet_regrid.grid,
                   pair.selection.feet_regrid.cycle, pair.selection.phrase_bars);
        CHECK_INT(groove_realign_bars(&pair.selection, four_four),
                  counted_bars(&pair.selection, four_four));
    }
}

/* What has to be shown of 7/8: a cycle of five sixteenths. */
static void five_sixteenths_over_seven_eight_meet_in_bar_six(void)
{
    static Pair pair;
    pair_of(&pair, 14, 5, 1);
    CHECK_INT(groove_realign_bars(&pair.selection, seven_eight), 5); /* 70 / 14 */
    for (int64_t bar = 0; bar <= 5; ++bar) {
        check_case("bar %d", (int)bar + 1);
        CHECK_INT(both_strike(&pair.selection, seven_eight, bar), bar % 5 == 0);
    }
}

/* The letters of a form take turns, but a rolling figure goes on beneath. */
static void figures_of_every_letter_count(void)
{
    static Pair pair;
    static OwnFigure other;
    pair_of(&pair, 16, 5, 2);
    first_of(&other, RIGHT_FOOT, 7);
    pair.groove.parts[1] = (Part){.feet = &other.figure};
    pair.groove.form[1] = 1;
    CHECK_INT(groove_realign_bars(&pair.selection, four_four), 70); /* 5, 7 and 2 bars */
}

int main(void)
{
    RUN(feet_meet_the_bar_line_after_the_bars_of_the_table);
    RUN(an_asked_cycle_meets_after_the_bars_of_the_table);
    RUN(an_asked_grid_meets_after_the_bars_of_the_table);
    RUN(two_figures_meet_after_the_multiple_of_both);
    RUN(the_phrase_counts_too);
    RUN(what_starts_again_with_the_phrase_meets_with_it);
    RUN(more_than_9999_bars_are_told_as_0);
    RUN(the_bars_told_are_those_that_are_counted);
    RUN(the_bars_told_are_those_counted_on_other_grids_and_cycles);
    RUN(five_sixteenths_over_seven_eight_meet_in_bar_six);
    RUN(figures_of_every_letter_count);
    return tests_end();
}
