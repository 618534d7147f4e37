// SPDX-License-Identifier: ISC
/* Musical time against plain rational arithmetic. */
#include "../../plugin/engine/time/clock.h"
#include "../../plugin/engine/written/figure.h"
#include "../../plugin/engine/time/ticks.h"
#include "../help/check.h"

#include <math.h>

/* n notes in a quarter, each whole: TICKS_PER_QUARTER must be a multiple of n. */
static void every_tuplet_to_sixteen_and_its_half_falls_on_a_whole_tick(void)
{
    for (int notes = 1; notes <= 16; ++notes) {
        check_case("%d notes in a quarter", notes);
        CHECK_INT(TICKS_PER_QUARTER % notes, 0);
        CHECK_INT(TICKS_PER_QUARTER % (2 * notes), 0);
    }
}

static void five_over_four_and_seven_over_two_are_exact(void)
{
    CHECK_INT(5 * figure_step_ticks(5, 4), 4 * TICKS_PER_QUARTER);
    CHECK_INT(7 * figure_step_ticks(7, 2), 2 * TICKS_PER_QUARTER);
    CHECK_INT(11 * figure_step_ticks(11, 3), 3 * TICKS_PER_QUARTER);
}

static void grids_outside_one_to_sixteen_are_refused(void)
{
    CHECK_INT(figure_step_ticks(0, 1), 0);
    CHECK_INT(figure_step_ticks(17, 1), 0);
    CHECK_INT(figure_step_ticks(4, 0), 0);
    CHECK_INT(figure_step_ticks(4, 17), 0);
}

/* LV2's time:beatUnit is the lower number of the signature. */
static void bars_are_as_long_as_their_signature_says(void)
{
    CHECK_INT(meter_bar_ticks((Meter){4.0, 4}), 4 * TICKS_PER_QUARTER);
    CHECK_INT(2 * meter_bar_ticks((Meter){7.0, 8}), 7 * TICKS_PER_QUARTER);
    CHECK_INT(meter_bar_ticks((Meter){12.0, 8}), 6 * TICKS_PER_QUARTER);
    CHECK_INT(meter_bar_ticks((Meter){2.0, 2}), 4 * TICKS_PER_QUARTER);
    CHECK_INT(4 * meter_bar_ticks((Meter){5.0, 16}), 5 * TICKS_PER_QUARTER);
}

static void division_rounds_toward_minus_infinity(void)
{
    CHECK_INT(floor_div(-1, 4), -1);
    CHECK_INT(floor_div(-4, 4), -1);
    CHECK_INT(floor_div(7, 4), 1);
    CHECK_INT(floor_mod(-1, 4), 3);
    CHECK_INT(floor_mod(-4, 4), 0);
}

/* 133.7 quarters a minute at 96 kHz for 24 hours, in long double from scratch. */
static void a_day_later_a_stroke_is_within_half_a_frame(void)
{
    const long double rate = 133.7L / 60.0L * (long double)TICKS_PER_QUARTER / 96000.0L;
    Clock clock = {.now = 0};
    clock_anchor(&clock, 0.0, (double)rate);
    for (int64_t hour = 1; hour <= 24; ++hour) {
        const int64_t sixteenth = hour * 3600 * 1337 * 4 / 600;
        const int64_t tick = sixteenth * TICKS_PER_QUARTER / 4;
        check_case("hour %d", (int)hour);
        CHECK_NEAR((long double)clock_frame(&clock, tick) - (long double)tick / rate, 0.0, 0.501);
    }
}

static void a_tick_is_played_in_the_block_that_its_frame_lies_in(void)
{
    Clock clock = {.now = 0};
    clock_anchor(&clock, 0.3, 59.7);
    for (int64_t tick = -500; tick < 20000; tick += 7) {
        const int64_t frame = clock_frame(&clock, tick);
        check_case("tick %d", (int)tick);
        CHECK(clock_first_tick(&clock, frame) <= tick);
        CHECK(clock_first_tick(&clock, frame + 1) > tick);
    }
}

/* Compound meters have two, three or four beats of three: 6, 9, 12 over 8 or 16.  (M. Gotham et
   al., Open Music Theory, chapter on compound meter; from memory.) */
static void compound_are_two_three_or_four_beats_of_three(void)
{
    static const struct {
        Meter meter;
        bool is_compound;
    } rows[] = {
        {{6.0, 8}, true},  {{9.0, 8}, true},   {{12.0, 8}, true},  {{15.0, 8}, false},
        {{6.0, 16}, true}, {{12.0, 16}, true}, {{3.0, 8}, false},  {{3.0, 16}, false},
        {{5.0, 8}, false}, {{7.0, 8}, false},  {{10.0, 8}, false}, {{6.0, 4}, false},
        {{4.0, 4}, false}, {{3.0, 4}, false},  {{6.5, 8}, false},  {{7.0, 16}, false},
    };
    for (int i = 0; i < (int)(sizeof rows / sizeof *rows); ++i) {
        check_case("%g/%d", rows[i].meter.beats_per_bar, (int)rows[i].meter.beat_unit);
        CHECK_INT(meter_is_compound(rows[i].meter), rows[i].is_compound);
    }
}

int main(void)
{
    RUN(every_tuplet_to_sixteen_and_its_half_falls_on_a_whole_tick);
    RUN(five_over_four_and_seven_over_two_are_exact);
    RUN(grids_outside_one_to_sixteen_are_refused);
    RUN(bars_are_as_long_as_their_signature_says);
    RUN(compound_are_two_three_or_four_beats_of_three);
    RUN(division_rounds_toward_minus_infinity);
    RUN(a_day_later_a_stroke_is_within_half_a_frame);
    RUN(a_tick_is_played_in_the_block_that_its_frame_lies_in);
    return tests_end();
}
