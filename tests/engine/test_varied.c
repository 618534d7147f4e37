// SPDX-License-Identifier: ISC
/* test_varied.c - what the engine plays of a variation is what variation_make says of the feet
   of each letter, laid out by hand: every feet figure of the bank and every operation, in
   meters, blocks, tempi, grooves and places that change from case to case; two deep. */
#include "played.h"

static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}, {5.0, 4}};
static const uint32_t blocks[] = {64, 8192, 997, 1};
static const double tempi[] = {90.0, 140.0, 230.0};

static VariationRoom rooms[2];

static const Groove* groove_at(const uint32_t index)
{
    const Library* const library = bank_library(bank);
    return &library->grooves[index % library->groove_count];
}

/* What plays of two numbers, by variation_make alone: what can't be made plays its source. */
static const Figure* made_of(const Figure* const feet, const Figure* const hands, const Meter meter,
                             const uint32_t first, const uint32_t second)
{
    const Variation one = variation_make(feet, hands, meter, first, &rooms[0]);
    const Figure* const source = one.figure ? one.figure : feet;
    const Variation two = variation_make(source, hands, meter, second, &rooms[1]);
    return two.figure ? two.figure : source;
}

/* Plays a case and lays out what is expected; how many strokes. */
static int check_case_of(PlayedCase* const made, const Groove* const groove,
                         const Figure* const feet)
{
    made->values[CONTROL_GROOVE] = (float)groove->id;
    played_begin(made);
    played_run(made);
    expected.count = 0;
    for (int64_t bar = made->from; bar < made->to; ++bar) {
        const int64_t in_phrase = bar % groove->form_bars;
        const Part part = groove->parts[groove->form[in_phrase]];
        const Figure* const plays =
            made_of(feet, part.hands, made->meter, (uint32_t)made->values[CONTROL_VARIATION],
                    (uint32_t)made->values[CONTROL_VARIATION_THEN]);
        const Variation laid = variation_make(plays, NULL, made->meter, 0, &rooms[0]);
        if (laid.figure) {
            expect_bar(laid.figure, made->meter, in_phrase,
                       (bar - made->from) * meter_bar_ticks(made->meter));
        }
    }
    return check_strokes(made);
}

static void every_figure_plays_every_variation_as_it_is_made(void)
{
    uint32_t at = 0;
    int strokes = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); ++i) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        for (uint32_t number = 1; number < VARIATION_COUNT; ++number, ++at) {
            PlayedCase made = played_case(feet->id, meters[at / 3 % 4], tempi[at % 3]);
            const uint32_t block = blocks[at % 41 ? at % 3 : 3];
            made.block = block;
            made.from = at % 5;
            made.to = made.from + (block == 1 ? 1 : 2);
            made.values[CONTROL_VARIATION] = (float)number;
            check_case("feet %u, %s, %g/%d at %g, block %u, bar %d", feet->id,
                       variation_words(number), made.meter.beats_per_bar, made.meter.beat_unit,
                       made.tempo, block, (int)made.from);
            strokes += check_case_of(&made, groove_at(at), feet);
        }
    }
    printf("# %u cases, %d strokes\n", at, strokes);
    CHECK(strokes > 100000);
}

static void two_deep_plays_one_made_of_the_other(void)
{
    uint32_t at = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); i += 7) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        for (uint32_t first = 0; first < VARIATION_COUNT; first += 3, ++at) {
            const uint32_t second = 1 + (first * 7 + i) % (VARIATION_COUNT - 1);
            PlayedCase made = played_case(feet->id, meters[at % 4], tempi[at % 3]);
            made.values[CONTROL_VARIATION] = (float)first;
            made.values[CONTROL_VARIATION_THEN] = (float)second;
            made.from = at % 3;
            made.to = made.from + 2;
            check_case("feet %u, %s, then %s", feet->id, variation_words(first),
                       variation_words(second));
            check_case_of(&made, groove_at(at), feet);
        }
    }
}

static void a_number_that_nobody_has_plays_what_is_chosen(void)
{
    const Figure* const feet = factory_figure(bank, ENTRY_FEET, 10);
    PlayedCase made = played_case(feet->id, meters[0], 140.0);
    made.values[CONTROL_VARIATION] = 63.0f;
    CHECK(check_case_of(&made, groove_at(0), feet) > 0);
}

int main(void)
{
    bank = factory_open();
    RUN(every_figure_plays_every_variation_as_it_is_made);
    RUN(two_deep_plays_one_made_of_the_other);
    RUN(a_number_that_nobody_has_plays_what_is_chosen);
    bank_free(bank);
    return tests_end();
}
