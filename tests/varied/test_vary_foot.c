// SPDX-License-Identifier: ISC
/* test_vary_foot.c - which foot plays a variation's kicks, what they strike, how loud and in
   which shuffle: of figures written out here.  Stickings: common practice, no source. */
#include "own_feet.h"

static Playability playability;

static void a_pair_that_ends_on_the_beat_goes_left_right(void)
{
    OwnFigure own = feet_of(1, 1, "O . O .", "");
    CHECK_TEXT(varied(&own, VARIATION_PICKUPS, S), "R......LR......L");
}

static void each_bar_line_is_the_leading_foot_s(void)
{
    OwnFigure own = feet_of(2, 4, "....... o......", "");
    CHECK_TEXT(varied_in(&own, (Meter){7.0, 16}, VARIATION_PICKUPS, S), "......LR......");
}

static void a_foot_that_leads_stays_the_one_that_leads(void)
{
    OwnFigure own = feet_of(0, 4, "...o", "o.o.");
    CHECK_TEXT(varied(&own, VARIATION_FILLED, S), "LRLR");
}

static void one_foot_keeps_what_is_no_harder_and_shares_a_run(void)
{
    OwnFigure own = feet_of(1, 4, "oo.. .... oo.. ....", "");
    CHECK_TEXT(varied(&own, VARIATION_EARLIER, S), "R......RR......R");
    CHECK_TEXT(varied(&own, VARIATION_FILLED, S), "RLRLRLRLRLRLRLRL");
}

static void two_feet_at_once_are_one_kick_where_feet_alternate(void)
{
    OwnFigure own = feet_of(1, 4, "o... o... o... o...", "o... .... .... ....");
    CHECK_TEXT(varied(&own, VARIATION_FILLED, S), "RLRLRLRLRLRLRLRL");
}

static void a_foot_on_the_hat_leaves_all_kicks_to_the_other(void)
{
    OwnFigure own = feet_of(1, 4, "o... .... o... ....", ".... .... ..o. ....");
    add_line(&own, LEFT_FOOT, VOICE_HAT_PEDAL, 1, 1, ". o . o");
    CHECK_INT(variation_make(whole(&own), NULL, four, VARIATION_LEFT, &room).reason, VARY_ONE_FOOT);
    CHECK_INT(variation_make(whole(&own), NULL, four, VARIATION_OTHER_FOOT, &room).reason,
              VARY_ONE_FOOT);
    const Figure* const made =
        variation_make(whole(&own), NULL, four, VARIATION_FILLED, &room).figure;
    for (int64_t tick = 0; CHECK(made) && tick < 4 * Q; tick += S) {
        CHECK_INT(feet_at(made, tick), 1U << RIGHT_FOOT);
    }
    CHECK(made && made->plays_pedal && made->stroke_count == 18);
}

/* A second bass drum is its foot's. */
static void a_kick_goes_to_the_drum_of_its_foot(void)
{
    OwnFigure own = begun(0);
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "o..o..");
    add_line(&own, LEFT_FOOT, VOICE_KICK_LEFT, 4, 1, ".o..o.");
    static const uint32_t numbers[] = {VARIATION_OTHER_FOOT, VARIATION_FILLED, VARIATION_DOUBLED};
    for (int i = 0; i < 3; ++i) {
        const Figure* const made =
            variation_make(whole(&own), NULL, four, numbers[i], &room).figure;
        for (uint32_t j = 0; CHECK(made) && j < made->stroke_count; ++j) {
            CHECK_INT(made->strokes[j].voice,
                      made->strokes[j].limb == LEFT_FOOT ? VOICE_KICK_LEFT : VOICE_KICK);
        }
    }
}

/* swing.h: halves and quarters of a quarter note are bent, tuplets are not. */
static void sixteenths_are_bent_by_a_shuffle_and_sextuplets_are_not(void)
{
    OwnFigure own = feet_of(1, 1, "o . . .", "");
    CHECK(
        !any_bends(variation_make(whole(&own), NULL, four, VARIATION_BURST, &room).figure, false));
    CHECK(any_bends(variation_make(whole(&own), NULL, four, VARIATION_SEXTUPLETS, &room).figure,
                    false));
    OwnFigure triplets = feet_of(0, 3, "o.o", "");
    CHECK(any_bends(variation_make(whole(&triplets), NULL, four, VARIATION_FILLED, &room).figure,
                    false));
    OwnFigure gallop = feet_of(0, 4, "o.oo", "");
    CHECK(!any_bends(variation_make(whole(&gallop), NULL, four, VARIATION_TRIPLETS, &room).figure,
                     true));
    OwnFigure quarters = feet_of(1, 1, "o o . o", "");
    CHECK(!any_bends(variation_make(whole(&quarters), NULL, four, VARIATION_PICKUPS, &room).figure,
                     false));
    OwnFigure sparse = feet_of(1, 1, "o . o o", ""); /* quarters, evenly spread, stay bent */
    CHECK(!any_bends(variation_make(whole(&sparse), NULL, four, VARIATION_EVEN, &room).figure,
                     false));
}

static void of_two_strokes_that_fall_together_the_louder_stays(void)
{
    OwnFigure own = feet_of(0, 4, "o.oO", "");
    const Figure* const made =
        variation_make(whole(&own), NULL, four, VARIATION_TRIPLETS, &room).figure;
    CHECK(made && made->stroke_count == 2 && kick_at(made, 2 * Q / 3) == LEVEL_ACCENT);
}

static void a_half_beat_at_the_bar_s_end_gets_half_a_gallop(void)
{
    OwnFigure own = feet_of(1, 4, ".... .... .... o.", "");
    const Meter seven = {7.0, 8};
    CHECK_TEXT(varied_in(&own, seven, VARIATION_REVERSE, S), "............RL");
    CHECK_TEXT(varied_in(&own, seven, VARIATION_GALLOPS, S), "the same as chosen");
}

static void no_more_than_twelve_in_a_quarter_are_made(void)
{
    OwnFigure sextuplets = feet_of(0, 6, "o.o.o.", ".o.o.o");
    OwnFigure herta = feet_of(0, 8, "o.o...", ".o..o.");
    CHECK_TEXT(varied(&sextuplets, VARIATION_DOUBLED, Q / 12), "RLRLRLRLRLRL");
    CHECK_TEXT(varied(&sextuplets, VARIATION_DOUBLE_TIME, Q / 12), "RLRLRL");
    CHECK_INT(variation_make(whole(&herta), NULL, four, VARIATION_DOUBLED, &room).reason,
              VARY_TOO_FINE);
    CHECK_INT(variation_make(whole(&herta), NULL, four, VARIATION_HERTAS, &room).reason,
              VARY_TOO_FINE);
    CHECK_INT(variation_make(whole(&herta), NULL, four, VARIATION_DOUBLE_TIME, &room).reason,
              VARY_TOO_FINE);
}

static void a_run_begins_behind_closer_strokes(void)
{
    OwnFigure own = feet_of(0, 4, "oo.o.o..", "");
    CHECK_INT(variation_make(whole(&own), NULL, four, VARIATION_HERTAS, &room).reason, VARY_NO_RUN);
}

/* What was there keeps its foot; of two that are as strong the first is the one that was. */
static void a_run_goes_by_its_strongest_kick_and_that_by_its_foot(void)
{
    OwnFigure own = feet_of(1, 4, "o... .... .... ....", ".... .... o... ....");
    CHECK_TEXT(varied(&own, VARIATION_PAIRS, S), "RL......LR......");
    OwnFigure off = feet_of(1, 3, ".o. ... .o. ...", "");
    CHECK_TEXT(varied(&off, VARIATION_PAIRS, Q / 3), ".RL....RL...");
}

/* Two of one foot are everybody's; the third is shared. */
static void one_foot_shares_a_run_of_three_that_was_a_pair(void)
{
    OwnFigure own = feet_of(1, 4, "oo.. .... oo.. ....", "");
    CHECK_TEXT(varied(&own, VARIATION_PICKUPS, S), "RL.....LRL.....L");
}

/* A run is three and more: a pair has no sticking of its own. */
static void a_pair_is_no_run(void)
{
    OwnFigure own = feet_of(1, 4, "o... .... o... ....", ".o.. .... .o.. ....");
    CHECK_TEXT(varied(&own, VARIATION_DOUBLES, S), "there is no run");
    CHECK_TEXT(varied(&own, VARIATION_ACCENT_THREES, S), "there is no run");
    OwnFigure three = feet_of(1, 4, "o.o. .... .... ....", ".o.. .... .... ....");
    CHECK_INT(variation_make(whole(&three), NULL, four, VARIATION_DOUBLES, &room).reason,
              VARY_NONE);
}

static void an_accent_stays_on_its_beat_and_goes_to_no_other(void)
{
    OwnFigure own = feet_of(1, 1, "o . . O", "");
    static const uint32_t ends[] = {VARIATION_BURST, VARIATION_SEXTUPLETS, VARIATION_GALLOPS,
                                    VARIATION_REVERSE};
    for (int i = 0; i < 4; ++i) {
        check_case("%s", variation_words(ends[i]));
        CHECK_INT(level_in(&own, ends[i], 3 * Q), LEVEL_ACCENT);
        CHECK_INT(level_in(&own, ends[i], 0), LEVEL_NORMAL);
        for (int64_t tick = 3 * Q + 1; tick < 4 * Q; ++tick) {
            tick += Q / 12 - 1 - (tick - 1) % (Q / 12);
            CHECK(tick >= 4 * Q || level_in(&own, ends[i], tick) < LEVEL_ACCENT);
        }
    }
}

/* A bar of kicks that both feet strike is no run of twice as many. */
static void two_feet_at_once_run_no_further_than_one(void)
{
    OwnFigure own = feet_of(1, 2, ".. .. .. oo", ".. .. .. oo");
    CHECK_TEXT(varied(&own, VARIATION_BURST, S), "R...........RLRL");
}

/* Sixteen bars, the longest phrase (limits.h), are laid out and seventeen are not. */
static void half_as_fast_is_sixteen_bars_at_most(void)
{
    OwnFigure own = feet_of(8, 1, "o...o...o...o...o...o...o...o.o.", "");
    OwnFigure longer = feet_of(9, 1, "o...o...o...o...o...o...o...o...o.o.", "");
    CHECK_INT(variation_make(whole(&own), NULL, four, VARIATION_HALF_TIME, &room).reason,
              VARY_NONE);
    CHECK_INT(variation_make(whole(&longer), NULL, four, VARIATION_HALF_TIME, &room).reason,
              VARY_TOO_LONG);
}

/* Where sextuplets and thirty-seconds meet a step is a sixteenth; in 6/16 and 12/16 three are a
   beat (common practice, no source). */
static void steps_and_beats_are_what_a_drummer_counts(void)
{
    OwnFigure own = feet_of(1, 8, "oo...... ........ ........ ........", "");
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 6, 1, "...... .o.... ...... ......");
    const Variation later = variation_make(whole(&own), NULL, four, VARIATION_LATER, &room);
    CHECK(later.figure && kick_at(later.figure, S) && kick_at(later.figure, Q + Q / 6 + S));
    OwnFigure compound = feet_of(1, 4, "o..o..o..o..", "");
    const Meter sixteenths = {12.0, 16};
    CHECK_TEXT(varied_in(&compound, sixteenths, VARIATION_BEAT_LATER, S), "the same as chosen");
    OwnFigure one = feet_of(1, 4, "o...........", "");
    CHECK_TEXT(varied_in(&one, sixteenths, VARIATION_BEAT_LATER, S), "...R........");
}

/* Two quarters are a beat and a beat, three eighths two and one. */
static void a_short_bar_has_halves(void)
{
    OwnFigure two = feet_of(1, 2, "oo oo", "");
    CHECK_TEXT(varied_in(&two, (Meter){2.0, 4}, VARIATION_HALVES, Q / 2), "RR..");
    OwnFigure three = feet_of(1, 2, "ooo", "");
    CHECK_TEXT(varied_in(&three, (Meter){3.0, 8}, VARIATION_HALVES, Q / 2), "RR.");
}

static void kicks_that_no_snare_meets_are_out_of_its_way(void)
{
    OwnFigure own = feet_of(1, 1, "o . o .", "");
    OwnFigure hands = {.figure = {.id = 1, .bars = 1}};
    add_line(&hands, LEFT_HAND, VOICE_SNARE, 1, 1, ". O . O");
    CHECK_INT(variation_make(whole(&own), whole(&hands), four, VARIATION_SNARE, &room).reason,
              VARY_NOT_MET);
}

/* The end and the start of a turn, a 64th apart: 19 ms at 200. */
static void what_comes_round_too_soon_is_marked(void)
{
    const PlayLimits limits = play_limits_default();
    OwnFigure own = feet_of(0, 16, "o..............o", "");
    CHECK(variation_faults(whole(&own), 200.0, 0.0, &limits, &playability) & PLAY_TOO_CLOSE);
    OwnFigure left = feet_of(0, 4, "", "oooo");
    OwnFigure right = feet_of(0, 4, "oooo", "");
    CHECK(variation_faults(whole(&left), 200.0, 1.0, &limits, &playability) & PLAY_TOO_FAST);
    CHECK(variation_faults(whole(&right), 200.0, 1.0, &limits, &playability) & PLAY_TOO_FAST);
    CHECK_INT(variation_faults(whole(&right), 100.0, 1.0, &limits, &playability), 0);
}

int main(void)
{
    RUN(a_pair_that_ends_on_the_beat_goes_left_right);
    RUN(each_bar_line_is_the_leading_foot_s);
    RUN(a_foot_that_leads_stays_the_one_that_leads);
    RUN(one_foot_keeps_what_is_no_harder_and_shares_a_run);
    RUN(two_feet_at_once_are_one_kick_where_feet_alternate);
    RUN(a_foot_on_the_hat_leaves_all_kicks_to_the_other);
    RUN(a_kick_goes_to_the_drum_of_its_foot);
    RUN(sixteenths_are_bent_by_a_shuffle_and_sextuplets_are_not);
    RUN(of_two_strokes_that_fall_together_the_louder_stays);
    RUN(a_half_beat_at_the_bar_s_end_gets_half_a_gallop);
    RUN(no_more_than_twelve_in_a_quarter_are_made);
    RUN(a_run_begins_behind_closer_strokes);
    RUN(a_run_goes_by_its_strongest_kick_and_that_by_its_foot);
    RUN(one_foot_shares_a_run_of_three_that_was_a_pair);
    RUN(a_pair_is_no_run);
    RUN(an_accent_stays_on_its_beat_and_goes_to_no_other);
    RUN(two_feet_at_once_run_no_further_than_one);
    RUN(half_as_fast_is_sixteen_bars_at_most);
    RUN(steps_and_beats_are_what_a_drummer_counts);
    RUN(a_short_bar_has_halves);
    RUN(kicks_that_no_snare_meets_are_out_of_its_way);
    RUN(what_comes_round_too_soon_is_marked);
    return tests_end();
}
