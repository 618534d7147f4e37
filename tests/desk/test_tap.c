// SPDX-License-Identifier: ISC
/* A tempo tapped on a key.  The trained stray by 2 % of the interval at best (Repp 2005,
   "Sensorimotor synchronization: a review of the tapping literature", Psychonomic Bulletin &
   Review 12(6), from memory); here it is twice that, by numbers of chance.h. */
#include "../../ui/desk/tap.h"
#include "../help/check.h"
#include "chance.h"
#include "fresh_desk.h"

/* About normal, mean 0, deviation 1: twelve even numbers less six (central limit). */
static double normal(Chance* const state)
{
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) {
        sum += (double)chance(state, 100000U) / 100000.0;
    }
    return sum;
}

/* Taps in time, each straying by itself; what the last says. */
static double tapped(Tap* const tap, const double from, const double tempo, const int taps,
                     const double stray, Chance* const state)
{
    double found = 0.0;
    for (int i = 0; i < taps; ++i) {
        const double interval = 60.0 / tempo;
        found = tap_at(tap, from + interval * (i + stray * normal(state)));
    }
    return found;
}

static void even_taps_are_their_tempo(void)
{
    static const double tempos[] = {20, 45, 60, 92.5, 120, 200, 333, 400};
    Chance state = {1};
    for (int i = 0; i < 8; ++i) {
        Tap tap = {.taps = 0};
        check_case("%g", tempos[i]);
        CHECK_NEAR(tapped(&tap, 7.0, tempos[i], 5, 0.0, &state), tempos[i], 1e-6);
    }
}

static void two_taps_are_too_few(void)
{
    Tap tap = {.taps = 0};
    CHECK_NEAR(tap_at(&tap, 1.0), 0.0, 0.0);
    CHECK_NEAR(tap_at(&tap, 1.5), 0.0, 0.0);
    CHECK_NEAR(tap_at(&tap, 2.0), 120.0, 1e-9);
}

/* The median of 8 intervals, each of two taps that stray by 4 %, strays by about 4 % times
   the root of 2 times 1.25 by the root of 8, 2.5 %; neighbours share a tap, which takes some
   of it back.  Four in five are then within 4 %. */
static void jittered_taps_are_near_their_tempo(void)
{
    static const double tempos[] = {40, 60, 90, 120, 180, 240};
    Chance state = {20261129};
    for (int i = 0; i < 6; ++i) {
        int near = 0;
        for (int time = 0; time < 200; ++time) {
            Tap tap = {.taps = 0};
            const double found = tapped(&tap, 3.0, tempos[i], 9, 0.04, &state);
            near += fabs(found / tempos[i] - 1.0) < 0.04;
        }
        check_case("%g: %d of 200", tempos[i], near);
        CHECK(near >= 160);
    }
}

/* Of the mean a tap left out would make a seventh less. */
static void a_tap_left_out_changes_nothing(void)
{
    Tap tap = {.taps = 0};
    double found = 0.0;
    for (int i = 0; i < 8; ++i) {
        found = i == 4 ? found : tap_at(&tap, 0.5 * i);
    }
    CHECK_NEAR(found, 120.0, 1e-9);
}

static void a_tap_too_early_changes_nothing(void)
{
    static const double taps[] = {0.0, 0.5, 0.85, 1.5, 2.0, 2.5};
    Tap tap = {.taps = 0};
    double found = 0.0;
    for (int i = 0; i < 6; ++i) {
        found = tap_at(&tap, taps[i]);
    }
    CHECK_NEAR(found, 120.0, 1e-9);
}

/* A second is no pause at 60 a minute, and one at 240. */
static void how_long_a_pause_is_follows_the_tempo(void)
{
    Tap tap = {.taps = 0};
    Chance state = {1};
    CHECK_NEAR(tapped(&tap, 1.0, 240.0, 5, 0.0, &state), 240.0, 1e-6); /* the last at 2 */
    CHECK_NEAR(tap_at(&tap, 3.0), 0.0, 0.0);
}

static void after_a_pause_another_tempo_begins(void)
{
    Tap tap = {.taps = 0};
    Chance state = {1};
    CHECK_NEAR(tapped(&tap, 1.0, 150.0, 6, 0.0, &state), 150.0, 1e-6);
    CHECK_NEAR(tap_at(&tap, 10.0), 0.0, 0.0);
    CHECK_NEAR(tapped(&tap, 11.0, 60.0, 2, 0.0, &state), 60.0, 1e-6);
}

static void slower_than_twenty_are_single_taps(void)
{
    Tap tap = {.taps = 0};
    for (int i = 0; i < 6; ++i) {
        CHECK_NEAR(tap_at(&tap, 3.5 * i), 0.0, 0.0);
    }
}

/* 660 ms, then 25 a second: what X servers do with a key that is held, at first. */
static void a_held_key_taps_nothing(void)
{
    Tap tap = {.taps = 0};
    CHECK_NEAR(tap_at(&tap, 1.0), 0.0, 0.0);
    for (int i = 0; i < 100; ++i) {
        CHECK_NEAR(tap_at(&tap, 1.66 + 0.04 * i), 0.0, 0.0);
    }
}

static void a_clock_that_goes_back_begins_anew(void)
{
    Tap tap = {.taps = 0};
    Chance state = {1};
    tapped(&tap, 4000000.0, 100.0, 6, 0.0, &state);
    CHECK_NEAR(tap_at(&tap, 0.5), 0.0, 0.0);
    CHECK_NEAR(tap_at(&tap, 1.0), 0.0, 0.0);
    CHECK_NEAR(tap_at(&tap, 1.5), 120.0, 1e-9);
}

/* ---- The key */

static void tap_key(const double at)
{
    const PaneEvent event = {.kind = PANE_KEY, .key = 't', .text = 't', .seconds = at};
    controller_input(&own->model, &event);
}

static void t_taps_the_own_clocks_tempo(void)
{
    fresh();
    own_say(own, CONTROL_CLOCK, 1.0f);
    for (int i = 0; i < 5; ++i) {
        tap_key(50.0 + 0.75 * i);
    }
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 80.0, 0.0);
    CHECK_INT(own->held, 0);
    CHECK_INT(own->unbalanced, 0);
}

/* Windows poll 30 times a second: the time at which a key is told is not when it was struck. */
static void the_time_is_that_of_the_key_not_of_the_window(void)
{
    fresh();
    for (int i = 0; i < 6; ++i) {
        controller_tick(&own->model, 200.0 + ceil(0.4 * i * 30.0) / 30.0 + (i % 2) * 0.2);
        tap_key(50.0 + 0.4 * i);
    }
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 150.0, 0.0);
}

static void where_no_time_is_told_the_windows_counts(void)
{
    fresh();
    for (int i = 0; i < 6; ++i) {
        controller_tick(&own->model, 200.0 + 0.5 * i);
        tap_key(0.0);
    }
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 120.0, 0.0);
}

/* As before: T is on the tempo, and figures are typed into it. */
static void after_t_a_tempo_can_be_typed(void)
{
    fresh();
    tap_key(50.0);
    CHECK(view_target_same(own->model.view.focus, (TargetId){TARGET_DIAL, CONTROL_TEMPO}));
    own_type(own, "98");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 98.0, 0.0);
}

/* A dotted quarter is the beat of 6/8, 9/8 and 12/8, and the tempo counts quarters. */
static void in_twelve_eight_a_tap_is_a_dotted_quarter(void)
{
    fresh();
    View* const view = &own->model.view;
    view->has_bar[0] = true;
    view->bars[0].meter = (Meter){12.0, 8};
    for (int i = 0; i < 5; ++i) {
        tap_key(50.0 + 0.75 * i);
    }
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 120.0, 0.0);
}

/* 2/2 counts halves: 60 of them a minute are 120 quarters. */
static void in_two_two_a_tap_is_a_half(void)
{
    fresh();
    View* const view = &own->model.view;
    view->has_bar[0] = true;
    view->bars[0].meter = (Meter){2.0, 2};
    for (int i = 0; i < 5; ++i) {
        tap_key(50.0 + 1.0 * i);
    }
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 120.0, 0.0);
}

int main(void)
{
    RUN(even_taps_are_their_tempo);
    RUN(two_taps_are_too_few);
    RUN(jittered_taps_are_near_their_tempo);
    RUN(a_tap_left_out_changes_nothing);
    RUN(a_tap_too_early_changes_nothing);
    RUN(how_long_a_pause_is_follows_the_tempo);
    RUN(after_a_pause_another_tempo_begins);
    RUN(slower_than_twenty_are_single_taps);
    RUN(a_held_key_taps_nothing);
    RUN(a_clock_that_goes_back_begins_anew);
    RUN(t_taps_the_own_clocks_tempo);
    RUN(the_time_is_that_of_the_key_not_of_the_window);
    RUN(where_no_time_is_told_the_windows_counts);
    RUN(after_t_a_tempo_can_be_typed);
    RUN(in_twelve_eight_a_tap_is_a_dotted_quarter);
    RUN(in_two_two_a_tap_is_a_half);
    own_desk_close(own);
    return tests_end();
}
