// SPDX-License-Identifier: ISC
/* test_foot_load.c - what the feet are asked for: strokes in the busiest second
   against published rates, shortest gaps against arithmetic. */
#include "../data/tsv.h"
#include "../../plugin/engine/groove/foot_load.h"
#include "fraction.h"

#include <math.h>

static const Meter four_four = {4.0, 4};

static FootLoad foot_load;

/* Looks through the whole phrase, two seconds at least. */
static void look_through(const Selection* const selection, const Meter meter, const double tempo)
{
    foot_load = (FootLoad){.at = 0};
    foot_load_start(&foot_load, selection, meter, tempo);
    for (int i = 0; i < 10000 && foot_load.at < foot_load.end; ++i) {
        foot_load_step(&foot_load, tempo);
    }
    CHECK(foot_load.at >= foot_load.end);
}

/* Looks through rolling feet, either line NULL. */
static void look_through_feet(const int grid, const char* const right, const char* const left,
                              const uint32_t bars, const double tempo)
{
    OwnFigure own = {.figure = {.id = 1}};
    if (right) {
        add_line(&own, RIGHT_FOOT, VOICE_KICK, grid, 1, right);
    }
    if (left) {
        add_line(&own, LEFT_FOOT, VOICE_KICK, grid, 1, left);
    }
    const Groove groove = one_letter(NULL, &own.figure, four_four, bars);
    const Selection selection = selection_of_groove(&groove);
    look_through(&selection, four_four, tempo);
}

/* A second that begins with a stroke has the whole number of even strokes next
   above their rate, or the rate itself where it is whole. */
static void running_sixteenths_are_counted_at_the_published_rates(void)
{
    Tsv table = tsv_open("rhythm-rates.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        const double tempo = tsv_number(&table, 0);
        look_through_feet(4, "O.o.", ".o.o", 2, tempo);
        check_case("each foot at %s a minute", table.fields[0]);
        CHECK_NEAR(foot_load.found[0].rate, ceil(tsv_number(&table, 1) / 2.0), 0.0);
        CHECK_NEAR(foot_load.found[1].rate, ceil(tsv_number(&table, 1) / 2.0), 0.0);
        look_through_feet(4, "oooo", NULL, 2, tempo);
        check_case("one foot alone at %s a minute", table.fields[0]);
        CHECK_NEAR(foot_load.found[0].rate, ceil(tsv_number(&table, 1)), 0.0);
    }
    CHECK_INT(rows, 5);
}

static void the_gap_of_running_sixteenths_is_a_quarter_or_half_of_the_beat(void)
{
    for (double tempo = 60.0; tempo <= 260.0; tempo += 12.5) {
        check_case("%g a minute", tempo);
        look_through_feet(4, "oooo", NULL, 1, tempo);
        CHECK_NEAR(foot_load.found[0].gap_ms, 60000.0 / tempo / 4.0, 1e-3);
        look_through_feet(4, "O.o.", ".o.o", 1, tempo);
        CHECK_NEAR(foot_load.found[0].gap_ms, 60000.0 / tempo / 2.0, 1e-3);
        CHECK_NEAR(foot_load.found[1].gap_ms, 60000.0 / tempo / 2.0, 1e-3);
    }
}

static void the_shortest_gap_is_told(void)
{
    look_through_feet(8, "O...o..o oo......", NULL, 4, 100.0);
    CHECK_NEAR(foot_load.found[0].gap_ms, 75.0, 1e-3); /* a thirty-second of 600 ms */
}

/* The last stroke of a phrase and the first of the next are neighbours. */
static void the_gap_over_the_phrase_s_end_counts(void)
{
    look_through_feet(4, "O....... .......o", NULL, 1, 120.0);
    CHECK_NEAR(foot_load.found[0].gap_ms, 125.0, 1e-3);
}

static void the_busiest_second_may_lie_over_the_phrase_s_end(void)
{
    /* at 60 a second is a quarter: two before the line and two after it */
    look_through_feet(4, "oo.. .... .... ..oo", NULL, 1, 60.0);
    CHECK_NEAR(foot_load.found[0].rate, 4.0, 0.0);
}

static void the_busiest_second_of_the_phrase_is_told(void)
{
    /* at 120 a second is two quarters; the third bar is the busy one */
    OwnFigure calm = {.figure = {.id = 1, .bars = 1}};
    OwnFigure busy = {.figure = {.id = 2, .bars = 1}};
    add_line(&calm, RIGHT_FOOT, VOICE_KICK, 1, 1, "O.O.");
    add_line(&busy, RIGHT_FOOT, VOICE_KICK, 4, 1, "O... oooo o... ....");
    Groove groove = one_letter(NULL, &calm.figure, four_four, 4);
    groove.parts[1] = (Part){.feet = &busy.figure};
    groove.form[2] = 1;
    const Selection selection = selection_of_groove(&groove);
    look_through(&selection, four_four, 120.0);
    CHECK_NEAR(foot_load.found[0].rate, 5.0, 0.0); /* a quarter before, four, or after them */
    CHECK_NEAR(foot_load.found[0].gap_ms, 125.0, 1e-3);
}

static void a_foot_that_rests_has_no_rate_and_no_gap(void)
{
    look_through_feet(4, "O.o.", NULL, 1, 120.0);
    CHECK_NEAR(foot_load.found[1].rate, 0.0, 0.0);
    CHECK_NEAR(foot_load.found[1].gap_ms, 0.0, 0.0);
}

static void a_foot_s_switch_changes_nothing_of_what_is_asked(void)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "o");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.limbs[RIGHT_FOOT] = false;
    look_through(&selection, four_four, 120.0);
    CHECK_NEAR(foot_load.found[0].rate, 8.0, 0.0);
}

static void a_leading_left_foot_is_asked_for_what_the_right_was(void)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "Oo..");
    add_line(&own, LEFT_FOOT, VOICE_KICK, 4, 1, "...o");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.left_foot_leads = true;
    look_through(&selection, four_four, 120.0);
    CHECK_NEAR(foot_load.found[0].rate, 2.0, 0.0);
    CHECK_NEAR(foot_load.found[1].rate, 4.0, 0.0);
    CHECK_NEAR(foot_load.found[1].gap_ms, 125.0, 1e-3);
}

/* Eighths at 2 to 1: the short note is a third of the quarter. */
static void a_shuffle_shortens_the_gap(void)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 2, 1, "o");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.swing.ratio = 2.0;
    look_through(&selection, four_four, 120.0);
    CHECK_NEAR(foot_load.found[0].gap_ms, 500.0 / 3.0, 1e-3);
}

static void an_asked_grid_changes_what_is_asked(void)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "o");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.feet_regrid.grid = 6;
    look_through(&selection, four_four, 120.0);
    CHECK_NEAR(foot_load.found[0].rate, 12.0, 0.0);
    CHECK_NEAR(foot_load.found[0].gap_ms, 500.0 / 6.0, 1e-3);
}

static void another_tempo_is_looked_through_anew(void)
{
    look_through_feet(4, "oooo", NULL, 1, 120.0);
    for (int i = 0; i < 100; ++i) {
        foot_load_step(&foot_load, 180.0);
    }
    CHECK_NEAR(foot_load.found[0].rate, 12.0, 0.0);
}

/* A phrase of a bar, quarters in the feet, and every third bar's last beat four
   sixteenths of one foot: at 120 the second before the last has three of them and two
   quarters, or the four and one. */
static void fills_with_feet_that_come_round_otherwise_are_looked_at(void)
{
    OwnFigure own = {.figure = {.id = 1, .bars = 1}};
    OwnFigure fill = {.figure = {.id = 2, .kind = FIGURE_TURNAROUND}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 1, 1, "oooo");
    add_line(&fill, RIGHT_FOOT, VOICE_KICK, 4, 1, "oooo");
    Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    groove.turnaround = &fill.figure;
    Selection selection = selection_of_groove(&groove);
    for (uint32_t every = 3; every <= 64; every += 61) {
        selection.fill_every = every;
        look_through(&selection, four_four, 120.0);
        check_case("every %u bars", every);
        CHECK_NEAR(foot_load.found[0].rate, 5.0, 0.0);
        CHECK_NEAR(foot_load.found[0].gap_ms, 125.0, 1e-3);
    }
    selection.fill_bar = 2; /* one more is no reason to begin anew */
    CHECK(foot_load_is_of(&foot_load, &selection, selection.swing, four_four));
    selection.fill_beats = 1;
    CHECK(!foot_load_is_of(&foot_load, &selection, selection.swing, four_four));
}

/* It comes but once, and what is told of goes on being told while it waits. */
static void a_fill_that_is_asked_for_once_is_not_looked_at(void)
{
    OwnFigure kicks = {.figure = {.id = 1}}, roll = {.figure = {.id = 2}};
    add_line(&kicks, RIGHT_FOOT, VOICE_KICK, 1, 1, "o");
    add_line(&roll, RIGHT_FOOT, VOICE_KICK, 4, 1, "oooo");
    roll.figure.kind = FIGURE_TURNAROUND;
    const Groove groove = one_letter(NULL, &kicks.figure, four_four, 4);
    Selection selection = selection_of_groove(&groove);
    selection.turnaround = &roll.figure;
    look_through(&selection, four_four, 120.0);
    const FootDemand before = foot_load.found[0];
    selection.fill_bar = 2;
    CHECK(foot_load_is_of(&foot_load, &selection, selection.swing, four_four));
    look_through(&selection, four_four, 120.0);
    CHECK(foot_load_is_of(&foot_load, &selection, selection.swing, four_four));
    CHECK_NEAR(foot_load.found[0].rate, before.rate, 0.0);
}

int main(void)
{
    RUN(running_sixteenths_are_counted_at_the_published_rates);
    RUN(the_gap_of_running_sixteenths_is_a_quarter_or_half_of_the_beat);
    RUN(the_shortest_gap_is_told);
    RUN(the_gap_over_the_phrase_s_end_counts);
    RUN(the_busiest_second_may_lie_over_the_phrase_s_end);
    RUN(the_busiest_second_of_the_phrase_is_told);
    RUN(a_foot_that_rests_has_no_rate_and_no_gap);
    RUN(a_foot_s_switch_changes_nothing_of_what_is_asked);
    RUN(a_leading_left_foot_is_asked_for_what_the_right_was);
    RUN(a_shuffle_shortens_the_gap);
    RUN(an_asked_grid_changes_what_is_asked);
    RUN(another_tempo_is_looked_through_anew);
    RUN(fills_with_feet_that_come_round_otherwise_are_looked_at);
    RUN(a_fill_that_is_asked_for_once_is_not_looked_at);
    return tests_end();
}
