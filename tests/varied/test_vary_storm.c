// SPDX-License-Identifier: ISC
/* test_vary_storm.c - figures that nobody would write, in meters that nobody counts: each
   variation is a figure that keeps every promise of figure.h, or says why there is none; by
   itself and as the second of two. */
#include "../engine/library.h"
#include "../rhythm/fraction.h"
#include "promise.h"

static VariationRoom rooms[2];

static const int64_t steps_of[] = {Q,     Q / 2, Q / 3,  S,         Q / 5, Q / 6,
                                   Q / 7, Q / 8, Q / 16, 3 * Q / 2, 1};

static OwnFigure made_up(uint32_t* const state, const bool hands)
{
    OwnFigure own = {.figure = {.id = 1, .kind = hands ? FIGURE_HANDS : FIGURE_FEET}};
    const int64_t step = steps_of[dice(state, sizeof steps_of / sizeof *steps_of)];
    const uint32_t steps = 1 + dice(state, dice(state, 4) ? 24 : 200);
    const uint32_t sparse = 1 + dice(state, 6);
    static const uint8_t voices[] = {VOICE_SNARE, VOICE_HAT_CLOSED, VOICE_RIDE, VOICE_CHOKE};
    for (uint32_t i = 0; i < steps * 2; ++i) {
        const uint8_t side = (uint8_t)(i % 2);
        const bool pedal = !hands && side && dice(state, 9) == 0;
        const Stroke stroke = {
            .tick = i / 2 * step,
            .limb = (uint8_t)((hands ? RIGHT_HAND : RIGHT_FOOT) + side),
            .voice = hands   ? voices[dice(state, 4)]
                     : pedal ? VOICE_HAT_PEDAL
                             : VOICE_KICK,
            .level = (uint8_t)(LEVEL_GHOST + dice(state, LEVEL_DRAG)),
            .bends = true,
        };
        if (dice(state, sparse) == 0 && own.figure.stroke_count < FIGURE_STROKES_MAX) {
            own.strokes[own.figure.stroke_count++] = stroke;
        }
    }
    own.figure.step_ticks = step;
    own.figure.cycle_ticks = step * steps;
    own.figure.bars = steps % 4 == 0 ? dice(state, 3) : 0; /* one or two, or it rolls */
    return own;
}

static Meter made_up_meter(uint32_t* const state)
{
    static const int32_t units[] = {1, 2, 4, 8, 16, 32};
    const double beats = 1.0 + dice(state, 20);
    return (Meter){dice(state, 8) ? beats : beats - 0.3, units[dice(state, 6)]};
}

static void check_figure(const Variation made)
{
    CHECK_INT(made.figure == NULL, made.reason != VARY_NONE);
    CHECK(!made.figure || figure_valid(made.figure));
    for (uint32_t i = 1; made.figure && i < made.figure->stroke_count; ++i) {
        const Stroke a = made.figure->strokes[i - 1], b = made.figure->strokes[i];
        CHECK(a.tick < b.tick || a.limb < b.limb || a.voice < b.voice);
        CHECK(b.limb == RIGHT_FOOT || b.limb == LEFT_FOOT);
    }
}

static void whatever_it_is_made_of_it_is_a_figure_or_says_why(void)
{
    uint32_t state = 1, made = 0;
    static uint32_t refused[VARY_REASONS];
    for (int i = 0; i < 1000; ++i) {
        OwnFigure feet = made_up(&state, false), hands = made_up(&state, true);
        feet.figure.strokes = feet.strokes;
        hands.figure.strokes = hands.strokes;
        if (!feet.figure.stroke_count || !hands.figure.stroke_count) {
            continue;
        }
        figure_note(&feet.figure);
        figure_note(&hands.figure);
        const Meter meter = made_up_meter(&state);
        const uint32_t second = dice(&state, VARIATION_COUNT);
        for (uint32_t number = 1; number < VARIATION_COUNT; ++number) {
            check_case("case %d, %s, %s", i, variation_words(number), variation_words(second));
            const Variation one =
                variation_make(&feet.figure, &hands.figure, meter, number, &rooms[0]);
            check_figure(one);
            check_figure(variation_then(&feet.figure, &hands.figure, meter, number, second, rooms));
            made += one.figure != NULL;
            ++refused[one.reason];
        }
    }
    for (int reason = 0; reason < VARY_REASONS; ++reason) {
        check_case("%s", variation_reason((VaryReason)reason));
        CHECK(refused[reason] || reason == VARY_UNKNOWN || reason == VARY_NO_HANDS ||
              reason == VARY_AS_EARLIER);
    }
    printf("# %u made\n", made);
    CHECK(made > 10000);
}

int main(void)
{
    RUN(whatever_it_is_made_of_it_is_a_figure_or_says_why);
    return tests_end();
}
