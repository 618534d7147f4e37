// SPDX-License-Identifier: ISC
/* test_varied.c - what is kept of variations is what would be made anew, in whatever order it
   is asked for, however much falls out; made bit by bit it is the same. */
#include "../../plugin/engine/varied/varied.h"
#include "../bank/factory.h"
#include "../help/check.h"

static Bank* bank;
static Varied varied, stepped;
static VariationRoom rooms[VARIED_DEPTH];
static VariationRow rows[VARIATION_COUNT];
static uint64_t chance = 88172645463325252U;

/* Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003. */
static uint32_t draw(const uint32_t below)
{
    chance ^= chance << 13;
    chance ^= chance >> 7;
    chance ^= chance << 17;
    return (uint32_t)(chance >> 32) % below;
}

static const Figure* any(const EntryKind kind)
{
    return factory_figure(bank, kind, draw(bank_count(bank, kind)));
}

static VariedAsk ask_any(void)
{
    static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}, {13.0, 8}};
    return (VariedAsk){any(ENTRY_FEET),
                       draw(4) ? any(ENTRY_HANDS) : NULL,
                       meters[draw(4)],
                       draw(3) ? draw(VARIATION_COUNT + 2) : 0,
                       draw(3) ? 0 : draw(VARIATION_COUNT),
                       draw(8) ? VARIED_STAYS : (int64_t)draw(100)};
}

/* In words of varied.h, all of it made. */
static const Figure* made_anew(const VariedAsk* const ask, VaryReason reasons[VARIED_DEPTH])
{
    const Figure* figure = ask->feet;
    uint32_t numbers[VARIED_DEPTH] = {ask->first, ask->second, 0};
    for (int i = 0; i < VARIED_DEPTH; ++i) {
        if (i == 2 && ask->turn != VARIED_STAYS) {
            uint8_t order[VARIATION_COUNT];
            variation_offers(figure, ask->hands, ask->meter, rows, &rooms[2]);
            const uint32_t count = variation_order(rows, order);
            numbers[2] = count ? order[variation_grow(count, ask->turn, 1)] : 0;
        }
        const Variation made =
            numbers[i] ? variation_make(figure, ask->hands, ask->meter, numbers[i], &rooms[i])
                       : (Variation){NULL, VARY_NONE};
        reasons[i] = made.reason;
        figure = made.figure ? made.figure : figure;
    }
    return figure;
}

static void check_found(const VariedAsk* const ask, const VariedFeet* const found)
{
    VaryReason reasons[VARIED_DEPTH];
    const Figure* const want = made_anew(ask, reasons);
    check_case("feet %u, %u then %u, turn %d", ask->feet->id, ask->first, ask->second,
               (int)ask->turn);
    CHECK_INT(found->figure->id, ask->feet->id);
    CHECK_INT(found->figure->cycle_ticks, want->cycle_ticks);
    CHECK_INT(found->figure->bars, want->bars);
    CHECK_INT(found->figure->stroke_count, want->stroke_count);
    CHECK(figure_valid(found->figure));
    for (uint32_t i = 0; i < want->stroke_count && i < found->figure->stroke_count; ++i) {
        CHECK(!stroke_before(found->figure->strokes[i], want->strokes[i]) &&
              !stroke_before(want->strokes[i], found->figure->strokes[i]));
        CHECK_INT(found->figure->strokes[i].level, want->strokes[i].level);
    }
    for (int i = 0; i < VARIED_DEPTH; ++i) {
        CHECK_INT(found->reasons[i], reasons[i]);
    }
}

static void what_is_kept_is_what_would_be_made_anew(void)
{
    VariedAsk asks[24];
    for (int i = 0; i < 24; ++i) {
        asks[i] = ask_any();
    }
    for (int i = 0; i < 20000; ++i) {
        const uint32_t at = draw(24);
        asks[at] = draw(6) ? asks[at] : ask_any();
        const VariedFeet found = varied_find(&varied, &asks[at]);
        check_found(&asks[at], &found);
    }
}

/* A step makes one at most, and they come to an end that varied_steps knows. */
static void made_bit_by_bit_it_is_the_same(void)
{
    for (int i = 0; i < 600; ++i) {
        const VariedAsk ask = ask_any();
        const uint32_t most = varied_steps(&ask);
        uint32_t steps = 0, makes = 1;
        varied_forget(&stepped);
        while (!varied_step(&stepped, &ask, &makes) && steps < 100) {
            CHECK_INT(makes, 0);
            makes = 1;
            ++steps;
        }
        check_case("feet %u, %u then %u, turn %d", ask.feet->id, ask.first, ask.second,
                   (int)ask.turn);
        CHECK(steps <= most);
        makes = 0;
        CHECK(varied_step(&stepped, &ask, &makes)); /* nothing is missing */
        const VariedFeet found = varied_find(&stepped, &ask);
        check_found(&ask, &found);
    }
}

int main(void)
{
    bank = factory_open();
    varied_forget(&varied);
    RUN(what_is_kept_is_what_would_be_made_anew);
    RUN(made_bit_by_bit_it_is_the_same);
    bank_free(bank);
    return tests_end();
}
