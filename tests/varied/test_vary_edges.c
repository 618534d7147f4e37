// SPDX-License-Identifier: ISC
/* test_vary_edges.c - where a rule of variation.h, vary_foot.h or an operation's header begins and
   ends, on figures written out here: each was written because an operation broken there on purpose
   was not noticed.  Stickings: common practice, no source. */
#include "own_feet.h"

static void of_a_run_the_one_comes_before_the_beats_and_an_eighth_before_the_rest(void)
{
    OwnFigure over = feet_of(1, 4, "o... .... .... o.o.", ".... .... .... .o.o");
    CHECK_TEXT(varied(&over, VARIATION_TRIPLETS, Q / 3), "R........LRL");
    OwnFigure off = feet_of(1, 2, ".o .. .o ..", "");
    CHECK_TEXT(varied(&off, VARIATION_PICKUPS, S), ".LR......LR.....");
}

static void two_feet_keep_what_stands_alone(void)
{
    OwnFigure own = feet_of(1, 2, "o. .. .. ..", ".. .. o. ..");
    CHECK_TEXT(varied(&own, VARIATION_PAIRS, Q / 2), "RR..LR..");
}

static void one_foot_keeps_a_run_that_is_no_longer_than_it_had(void)
{
    OwnFigure own = feet_of(1, 4, "oooo oooo oooo oooo", "");
    CHECK_TEXT(varied(&own, VARIATION_FIVES, S), "RRRR.");
}

static void of_two_feet_at_once_the_louder_is_the_kick(void)
{
    OwnFigure own = feet_of(1, 4, "o... o... o... o...", "O... .... .... ....");
    CHECK_INT(level_in(&own, VARIATION_FILLED, 0), LEVEL_ACCENT);
    OwnFigure other = feet_of(1, 4, "O... o... o... o...", "o... .... .... ....");
    CHECK_INT(level_in(&other, VARIATION_FILLED, 0), LEVEL_ACCENT);
}

/* Twelve in a quarter are made: a sextuplet's half. */
static void a_sextuplet_can_be_halved_and_a_thirty_second_can_not(void)
{
    OwnFigure sextuplets = feet_of(0, 6, "o.o.o.", ".o.o.o");
    CHECK_INT(reason_of(&sextuplets, VARIATION_HERTAS), VARY_NONE);
    OwnFigure mixed = feet_of(1, 8, "oo...... ........ ........ ........", "");
    add_line(&mixed, RIGHT_FOOT, VOICE_KICK, 6, 1, "...... .o.... ...... ......");
    CHECK_INT(reason_of(&mixed, VARIATION_DOUBLED), VARY_TOO_FINE);
}

static void what_has_no_half_is_not_played_twice_as_fast(void)
{
    OwnFigure own = feet_of(0, 1, "o o", "");
    own.strokes[1].tick = Q + 1;
    own.figure.step_ticks = 1;
    CHECK_INT(reason_of(&own, VARIATION_DOUBLE_TIME), VARY_TOO_FINE);
}

/* A hand that chokes a cymbal strikes nothing. */
static void a_choke_is_no_stroke_to_keep_out_of(void)
{
    OwnFigure own = feet_of(1, 1, "o o o .", "");
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    add_line(&hands, LEFT_HAND, VOICE_SNARE, 1, 1, ". O . .");
    add_line(&hands, RIGHT_HAND, VOICE_CHOKE, 1, 1, ". . O .");
    const Variation made =
        variation_make(whole(&own), whole(&hands), four, VARIATION_LINEAR, &room);
    CHECK_TEXT(made.figure ? figure_sticking(made.figure, Q) : "nothing", "R.R.");
    CHECK_INT(variation_make(whole(&own), whole(&hands), four, VARIATION_SHOTS, &room)
                  .figure->stroke_count,
              1);
}

/* swing.h: a triplet isn't bent, whatever stood there before. */
static void kicks_on_new_steps_are_bent_as_those_are(void)
{
    OwnFigure own = feet_of(1, 3, ".o. ... ... ...", "");
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 1, 1, "o . . o");
    const Variation made = variation_make(whole(&own), NULL, four, VARIATION_EVEN, &room);
    CHECK(made.figure && !any_bends(made.figure, true));
}

/* The last beat of 7/8 is half of one: what follows is the next bar's. */
static void half_a_beat_has_its_own_level(void)
{
    OwnFigure own = feet_of(2, 2, "......o O......", "");
    const Variation made =
        variation_make(whole(&own), NULL, (Meter){7.0, 8}, VARIATION_GALLOPS, &room);
    CHECK_INT(made.figure ? kick_at(made.figure, 3 * Q) : 0, LEVEL_NORMAL);
    CHECK_INT(made.figure ? kick_at(made.figure, 7 * Q / 2) : 0, LEVEL_ACCENT);
}

static void a_bar_shorter_than_a_quarter_has_no_room_for_a_burst(void)
{
    OwnFigure own = feet_of(1, 4, "o..", "");
    CHECK_INT(variation_make(whole(&own), NULL, (Meter){3.0, 16}, VARIATION_BURST, &room).reason,
              VARY_NO_ROOM);
}

/* A line of five beats that rolls crosses bar lines anywhere: it has a start, and beats. */
static void a_line_that_rolls_goes_by_its_own_start(void)
{
    OwnFigure own = feet_of(0, 4, ".... .... .... o.o. o...", ".... .... .... .o.o ....");
    CHECK_TEXT(varied(&own, VARIATION_TRIPLETS, Q / 3), ".........RLRL..");
}

static void one_foot_has_no_part_of_its_own(void)
{
    OwnFigure own = feet_of(1, 2, "o. o. o. oo", "");
    CHECK_INT(reason_of(&own, VARIATION_RIGHT), VARY_ONE_FOOT);
    CHECK_INT(reason_of(&own, VARIATION_LEFT), VARY_ONE_FOOT);
    CHECK_INT(reason_of(&own, VARIATION_ONE_FOOT), VARY_ONE_FOOT);
}

/* What is longer than a longest phrase as it is needs no laying out. */
static void a_figure_of_seventeen_bars_is_varied_bar_by_bar(void)
{
    char steps[17 * 4 + 1] = "";
    for (int bar = 0; bar < 17; ++bar) {
        strcat(steps, bar % 2 ? "oo.." : "o.o.");
    }
    OwnFigure own = feet_of(17, 1, steps, "");
    CHECK_INT(reason_of(&own, VARIATION_OFF_ONE), VARY_NONE);
    CHECK_INT(reason_of(&own, VARIATION_BARS), VARY_TOO_LONG);
}

static void what_is_written_finer_than_it_is_played_moves_by_what_is_played(void)
{
    OwnFigure own = feet_of(1, 8, "o.o..... o.o..... o.o..... o.o.....", "");
    CHECK_TEXT(varied(&own, VARIATION_LATER, S), ".RR..RR..RR..RR.");
}

static void a_beat_is_a_bar_at_most(void)
{
    OwnFigure own = feet_of(1, 8, "o....", "");
    CHECK_TEXT(varied_in(&own, (Meter){5.0, 32}, VARIATION_BEAT_LATER, Q / 8),
               "the same as chosen");
}

static void a_foot_that_closes_the_hat_gives_its_kicks_away(void)
{
    OwnFigure own = feet_of(1, 1, "o . . .", ". . o .");
    add_line(&own, LEFT_FOOT, VOICE_HAT_PEDAL, 1, 1, ". o . o");
    const Variation made = variation_make(whole(&own), NULL, four, VARIATION_BEAT_LATER, &room);
    for (int beat = 0; CHECK(made.figure) && beat < 4; ++beat) {
        CHECK_INT(feet_at(made.figure, beat * Q), beat % 2 ? 1U << RIGHT_FOOT : 0);
    }
    OwnFigure run = feet_of(1, 4, "oooo oooo .... ....", "");
    add_line(&run, LEFT_FOOT, VOICE_HAT_PEDAL, 1, 1, ". o . o");
    CHECK_INT(reason_of(&run, VARIATION_DOUBLES), VARY_ONE_FOOT);
    CHECK_INT(reason_of(&run, VARIATION_PARADIDDLES), VARY_ONE_FOOT);
}

int main(void)
{
    RUN(of_a_run_the_one_comes_before_the_beats_and_an_eighth_before_the_rest);
    RUN(two_feet_keep_what_stands_alone);
    RUN(one_foot_keeps_a_run_that_is_no_longer_than_it_had);
    RUN(of_two_feet_at_once_the_louder_is_the_kick);
    RUN(a_sextuplet_can_be_halved_and_a_thirty_second_can_not);
    RUN(what_has_no_half_is_not_played_twice_as_fast);
    RUN(a_choke_is_no_stroke_to_keep_out_of);
    RUN(kicks_on_new_steps_are_bent_as_those_are);
    RUN(half_a_beat_has_its_own_level);
    RUN(a_bar_shorter_than_a_quarter_has_no_room_for_a_burst);
    RUN(a_line_that_rolls_goes_by_its_own_start);
    RUN(one_foot_has_no_part_of_its_own);
    RUN(a_figure_of_seventeen_bars_is_varied_bar_by_bar);
    RUN(what_is_written_finer_than_it_is_played_moves_by_what_is_played);
    RUN(a_beat_is_a_bar_at_most);
    RUN(a_foot_that_closes_the_hat_gives_its_kicks_away);
    return tests_end();
}
