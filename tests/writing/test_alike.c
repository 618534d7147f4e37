// SPDX-License-Identifier: ISC
/* test_alike.c - the same strokes under two names, and what can't be struck at once, of
   strokes written out here. */
#include "../../plugin/engine/writing/alike.h"
#include "../../plugin/engine/writing/at_once.h"
#include "../../plugin/engine/groove/fill.h"
#include "../../plugin/engine/writing/heard.h"
#include "../help/check.h"

#include <stddef.h>

enum { Q = TICKS_PER_QUARTER };

static Figure figure_of(const Stroke* const strokes, const uint32_t count, const int64_t ticks)
{
    return (Figure){.cycle_ticks = ticks, .stroke_count = count, .strokes = strokes};
}

static const Stroke once[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                              {Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
static const Stroke twice[] = {{0, LEFT_HAND, VOICE_HAT_OPEN, LEVEL_GHOST, true},
                               {Q, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true},
                               {2 * Q, RIGHT_HAND, VOICE_CHINA, LEVEL_ACCENT, true},
                               {3 * Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
static const Stroke other[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                               {Q, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true},
                               {2 * Q, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                               {3 * Q, LEFT_HAND, VOICE_TOM_LOW, LEVEL_ACCENT, true}};

static const Stroke running[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true},
                                 {Q, LEFT_FOOT, VOICE_KICK_LEFT, LEVEL_NORMAL, true},
                                 {2 * Q, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true},
                                 {3 * Q, LEFT_FOOT, VOICE_KICK_LEFT, LEVEL_NORMAL, true}};

static void the_same_strokes_are_alike_and_others_are_not(void)
{
    const Figure a = figure_of(once, 2, 2 * Q);
    const Figure b = figure_of(twice, 4, 4 * Q);
    const Figure c = figure_of(other, 4, 4 * Q);
    const Figure less = figure_of(twice, 3, 4 * Q);
    const Figure odd = figure_of(once, 2, 3 * Q);
    const Figure three = figure_of(running, 3, 3 * Q), four = figure_of(running, 4, 4 * Q);
    CHECK(alike_figures(&three, &four) && !alike_figures(&three, &b));
    CHECK(alike_figures(&a, &b) && alike_figures(&b, &a) && alike_figures(&a, &a));
    CHECK(!alike_figures(&a, &c) && !alike_figures(&b, &c));
    CHECK(!alike_figures(&a, &less) && !alike_figures(&less, &b));
    CHECK(!alike_figures(&a, &odd));
}

static void lengths_that_do_not_divide_are_repeated_until_they_meet(void)
{
    const Figure two = figure_of(running, 2, 2 * Q), three = figure_of(running, 3, 3 * Q);
    CHECK(alike_figures(&two, &three) && alike_figures(&three, &two));
}

static void a_fill_is_alike_only_as_long(void)
{
    Figure a = figure_of(once, 2, 2 * Q);
    Figure b = figure_of(twice, 4, 4 * Q);
    a.kind = b.kind = FIGURE_TURNAROUND;
    CHECK(!alike_figures(&a, &b) && alike_figures(&b, &b) && alike_figures(&a, &a));
}

static void a_hat_that_is_open_and_closed_is_found(void)
{
    Stroke strokes[] = {{0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_ACCENT, true},
                        {Q, RIGHT_HAND, VOICE_HAT_HALF_OPEN, LEVEL_ACCENT, true},
                        {Q, LEFT_FOOT, VOICE_HAT_PEDAL, LEVEL_NORMAL, true}};
    CHECK_INT(at_once_open_and_closed(strokes, 3), Q);
    CHECK_INT(at_once_open_and_closed(strokes, 2), -1);
    strokes[2].voice = VOICE_KICK;
    CHECK_INT(at_once_open_and_closed(strokes, 3), -1);
    strokes[2] = (Stroke){Q, LEFT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL, true};
    CHECK_INT(at_once_open_and_closed(strokes, 3), Q);
}

static void what_is_out_of_reach_is_found(void)
{
    Stroke strokes[] = {{0, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                        {0, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true},
                        {0, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true},
                        {0, LEFT_FOOT, VOICE_HAT_PEDAL, LEVEL_ACCENT, true},
                        {Q, RIGHT_HAND, VOICE_RIDE, LEVEL_ACCENT, true},
                        {Q, RIGHT_HAND, VOICE_CRASH, LEVEL_ACCENT, true}};
    CHECK_INT(at_once_out_of_reach(strokes, 4), -1);
    CHECK_INT(at_once_out_of_reach(strokes, 6), Q); /* one hand on two cymbals */
    strokes[5].voice = VOICE_RIDE;                  /* twice the same is one stroke */
    CHECK_INT(at_once_out_of_reach(strokes, 6), -1);
    strokes[3].limb = RIGHT_FOOT; /* one foot on two pedals */
    CHECK_INT(at_once_out_of_reach(strokes, 6), 0);
}

/* Six-eight has two beats of three; seven-eight is counted in eighths; sixteenths of 7/16. */
static void fills_fit_meters(void)
{
    static const struct {
        Meter meter;
        int64_t eighths;
        uint32_t bars;
        bool fits;
    } rows[] = {
        {{4.0, 4}, 2, 0, true},  {{4.0, 4}, 8, 1, true},  {{4.0, 4}, 7, 1, false},
        {{7.0, 8}, 7, 1, true},  {{7.0, 8}, 14, 2, true}, {{7.0, 8}, 8, 1, false},
        {{7.0, 8}, 3, 0, true},  {{6.0, 8}, 3, 0, true},  {{6.0, 8}, 2, 0, true},
        {{6.0, 8}, 4, 0, false}, {{6.0, 8}, 6, 0, true},  {{7.0, 16}, 2, 0, true},
        {{15.0, 8}, 4, 0, true}, {{4.0, 4}, 32, 0, true}, {{4.0, 4}, 33, 0, false},
        {{2.0, 2}, 2, 0, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        const Figure fill = {.kind = FIGURE_TURNAROUND,
                             .cycle_ticks = rows[i].eighths * Q / 2,
                             .bars = rows[i].bars};
        check_case("%d eighths, %u bars, in %g/%d", (int)rows[i].eighths, rows[i].bars,
                   rows[i].meter.beats_per_bar, rows[i].meter.beat_unit);
        CHECK_INT(fill_fits(&fill, rows[i].meter), rows[i].fits);
    }
    const Figure third = {.kind = FIGURE_TURNAROUND, .cycle_ticks = Q / 3};
    CHECK(!fill_fits(&third, (Meter){4.0, 4}));
}

int main(void)
{
    RUN(the_same_strokes_are_alike_and_others_are_not);
    RUN(lengths_that_do_not_divide_are_repeated_until_they_meet);
    RUN(a_fill_is_alike_only_as_long);
    RUN(a_hat_that_is_open_and_closed_is_found);
    RUN(what_is_out_of_reach_is_found);
    RUN(fills_fit_meters);
    return tests_end();
}
