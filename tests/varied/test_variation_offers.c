// SPDX-License-Identifier: ISC
/* test_variation_offers.c - which variations are offered, in which order they grow, two deep,
   and in other meters as they are played. */
#include "../bank/factory.h"
#include "../rhythm/fraction.h"
#include "promise.h"

static VariationRoom rooms[2], third, fourth;
static VariationRow rows[VARIATION_COUNT];
static Bank* bank;

static const Meter four = {4.0, 4};

enum { GALLOP = 190, SIXTEENTHS = 50, HERTA = 230, PEDAL_LEAST = 15 };

static const Figure* feet_of(const uint32_t id)
{
    return library_figure(bank_library(bank), FIGURE_FEET, id);
}

static const Figure* hands_of(const uint32_t id)
{
    return library_figure(bank_library(bank), FIGURE_HANDS, id);
}

static void eighteen_and_more_are_offered_for_a_gallop_a_herta_and_sixteenths(void)
{
    static const uint32_t figures[] = {GALLOP, HERTA, SIXTEENTHS};
    for (int i = 0; i < 3; ++i) {
        const uint32_t offered =
            variation_offers(feet_of(figures[i]), hands_of(1), four, rows, rooms);
        uint32_t of_twenty_four = 0;
        for (uint32_t number = 1; number <= 24; ++number) {
            of_twenty_four += !rows[number].reason;
        }
        printf("# feet %u: %u of %u offered, of the first 24 rows %u\n", figures[i], offered,
               VARIATION_COUNT - 1, of_twenty_four);
        CHECK(offered >= 18 && of_twenty_four >= 18);
    }
}

/* Stroke by stroke until both end together. */
static bool plain_equal(const Figure* const a, const Figure* const b)
{
    const int64_t both = common_multiple(a->cycle_ticks, b->cycle_ticks);
    const int64_t turns_a = both / a->cycle_ticks, turns_b = both / b->cycle_ticks;
    if (turns_a * a->stroke_count != turns_b * b->stroke_count) {
        return false;
    }
    for (int64_t i = 0; i < turns_a * a->stroke_count; ++i) {
        const Stroke x = a->strokes[i % a->stroke_count], y = b->strokes[i % b->stroke_count];
        const int64_t at_x = x.tick + i / a->stroke_count * a->cycle_ticks;
        const int64_t at_y = y.tick + i / b->stroke_count * b->cycle_ticks;
        if (at_x != at_y || x.limb != y.limb || x.level != y.level) {
            return false;
        }
    }
    return true;
}

/* Against all rows above, and the source. */
static void check_row(const Figure* const feet, const Figure* const hands, const uint32_t number)
{
    const Variation made = variation_make(feet, hands, four, number, &third);
    const bool left_out = rows[number].reason == VARY_AS_EARLIER;
    bool same = false;
    for (uint32_t i = 0; made.figure && i < number; ++i) {
        const Variation above = variation_make(feet, hands, four, i, &fourth);
        same |= above.figure && plain_equal(above.figure, made.figure);
    }
    check_case("feet %u, %s", feet->id, variation_words(number));
    CHECK_INT(same, left_out);
    CHECK_INT(made.figure != NULL, !rows[number].reason || left_out);
    if (rows[number].reason == VARY_AS_CHOSEN) {
        CHECK(plain_equal(&third.figure, &third.source));
    }
    if (left_out) {
        const Variation named = variation_make(feet, hands, four, rows[number].same_as, &fourth);
        CHECK(rows[number].same_as < number && plain_equal(named.figure, made.figure));
    }
}

static void a_row_is_offered_unless_it_is_its_source_or_a_row_above(void)
{
    uint32_t left_out = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); i += 3) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        variation_offers(feet, hands_of(1), four, rows, rooms);
        for (uint32_t number = 1; number < VARIATION_COUNT; ++number) {
            check_row(feet, hands_of(1), number);
            left_out += rows[number].reason == VARY_AS_EARLIER;
        }
    }
    CHECK(left_out > 100);
}

/* ---- Two deep */

static void two_deep_is_one_made_of_the_other(void)
{
    uint32_t made = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); i += 12) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        for (uint32_t first = 0; first < VARIATION_COUNT; ++first) {
            const Variation one = variation_make(feet, hands_of(1), four, first, &third);
            for (uint32_t second = 0; second < VARIATION_COUNT; ++second) {
                const Variation both =
                    variation_then(feet, hands_of(1), four, first, second, rooms);
                const Variation then =
                    one.figure ? variation_make(one.figure, hands_of(1), four, second, &fourth)
                               : one;
                check_case("feet %u, %s, then %s", feet->id, variation_words(first),
                           variation_words(second));
                CHECK_INT(both.reason, then.reason);
                CHECK(!both.figure ||
                      (figure_valid(both.figure) && plain_equal(both.figure, then.figure)));
                made += both.figure != NULL;
            }
        }
    }
    printf("# %u pairs made\n", made);
    CHECK(made > 10000);
}

/* ---- Grow */

static void growing_goes_from_the_plainest_to_the_fullest(void)
{
    uint8_t order[VARIATION_COUNT];
    const uint32_t offered = variation_offers(feet_of(HERTA), hands_of(1), four, rows, rooms);
    const uint32_t count = variation_order(rows, order);
    bool has_source = false;
    CHECK_INT(count, offered + 1);
    for (uint32_t i = 0; i < count; ++i) {
        has_source |= order[i] == VARIATION_NONE;
        const VariationRow* const row = &rows[order[i]];
        const VariationRow* const before = i ? &rows[order[i - 1]] : row;
        const int64_t here = row->strokes * before->cycle, there = before->strokes * row->cycle;
        check_case("%s", variation_words(order[i]));
        CHECK(!row->reason && (here > there || (here == there && (!i || order[i] > order[i - 1]))));
    }
    CHECK(has_source);
}

/* SECOND design: every so many phrases one row on, to the fullest, and back. */
static void growing_climbs_and_comes_back_a_row_at_a_time(void)
{
    static const uint32_t wanted[] = {0, 0, 1, 1, 2, 2, 3, 3, 2, 2, 1, 1, 0, 0, 1, 1};
    for (uint32_t phrase = 0; phrase < 16; ++phrase) {
        check_case("phrase %u", phrase);
        CHECK_INT(variation_grow(4, phrase, 2), wanted[phrase]);
        CHECK_INT(variation_grow(4, phrase + 12 * 1000000, 2), wanted[phrase]);
        CHECK_INT(variation_grow(1, phrase, 2), 0);
        CHECK_INT(variation_grow(0, phrase, 2), 0);
        CHECK_INT(variation_grow(4, phrase, 0), 0);
    }
}

/* ---- As it is played */

static Played played, varied;

static void play_feet(const Figure* const feet, const Meter meter, const uint32_t bars,
                      Played* const list)
{
    Groove groove = plain_groove(NULL, feet);
    groove.meter = meter;
    groove.form_bars = 4;
    const Selection selection = plain_choice(&groove, 4);
    play(&selection, meter, bars * meter_bar_ticks(meter), list);
}

static void a_figure_in_bars_is_laid_as_it_is_played_in_any_meter(void)
{
    static const Meter meters[] = {{4.0, 4}, {3.0, 4}, {7.0, 8}, {5.0, 4}, {9.0, 8}};
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); ++i) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        for (int m = 0; m < 5; ++m) {
            const Variation laid = variation_make(feet, NULL, meters[m], 0, &third);
            check_case("feet %u in %.0f/%d", feet->id, meters[m].beats_per_bar,
                       meters[m].beat_unit);
            play_feet(feet, meters[m], 8, &played);
            CHECK_INT(laid.figure != NULL, played.count != 0);
            if (laid.figure) {
                play_feet(laid.figure, meters[m], 8, &varied);
                CHECK_INT(varied.count, played.count);
                CHECK_INT(
                    memcmp(varied.strokes, played.strokes, played.count * sizeof *played.strokes),
                    0);
            }
        }
    }
}

/* The line off the one is the one that rolls, without what was on the bar line: over phrases
   too, where it starts again. */
static void a_rolling_line_keeps_its_phase(void)
{
    const Variation made = variation_make(feet_of(HERTA), NULL, four, VARIATION_OFF_ONE, &third);
    uint32_t next = 0, gone = 0;
    play_feet(feet_of(HERTA), four, 16, &played);
    play_feet(made.figure, four, 16, &varied);
    for (uint32_t i = 0; i < played.count; ++i) {
        if (played.strokes[i].tick % meter_bar_ticks(four) == 0) {
            ++gone;
            continue;
        }
        CHECK_INT(varied.strokes[next].tick, played.strokes[i].tick);
        CHECK_INT(varied.strokes[next].limb, played.strokes[i].limb);
        ++next;
    }
    CHECK_INT(varied.count, next);
    CHECK(gone >= 8);
}

int main(void)
{
    bank = factory_open();
    RUN(eighteen_and_more_are_offered_for_a_gallop_a_herta_and_sixteenths);
    RUN(a_row_is_offered_unless_it_is_its_source_or_a_row_above);
    RUN(two_deep_is_one_made_of_the_other);
    RUN(growing_goes_from_the_plainest_to_the_fullest);
    RUN(growing_climbs_and_comes_back_a_row_at_a_time);
    RUN(a_figure_in_bars_is_laid_as_it_is_played_in_any_meter);
    RUN(a_rolling_line_keeps_its_phase);
    bank_free(bank);
    return tests_end();
}
