// SPDX-License-Identifier: ISC
/* test_lighten.c - the least change to a limit, against every other change there is:
   small figures with all their subsets; even strokes against a known bound. */
#include "../../plugin/engine/writing/lighten.h"
#include "../../plugin/engine/writing/playability.h"
#include "../bank/factory.h"
#include "../help/check.h"
#include "../rhythm/fraction.h"

#include <math.h>

enum { STRENGTHS = 5, TURNS = 40 };

/* A figure of one limb, by step, as masks: bit i is step i of a cycle. */
typedef struct {
    uint32_t steps;
    uint32_t struck;
    uint8_t levels[32];
    double step_s; /* seconds */
    uint32_t beat; /* steps */
    double span_s;
    uint32_t most;
    double run_gap_s;
} Small;

/* Any span, in turn after turn, with more than the limit allows?  Stroke by stroke. */
static bool over_limit(const Small* const small, const uint32_t kept)
{
    const uint32_t all = small->steps * TURNS;
    for (uint32_t i = 0; i < small->steps; ++i) {
        uint32_t count = 0;
        for (uint32_t j = i; j < all && (j - i) * small->step_s < small->span_s - 1e-9; ++j) {
            count += kept >> j % small->steps & 1U;
        }
        if (kept >> i & 1U && count > small->most) {
            return true;
        }
    }
    return false;
}

static bool begins_run(const Small* const small, const uint32_t step)
{
    uint32_t back = 1;
    while (!(small->struck >> (step + TURNS * small->steps - back) % small->steps & 1U)) {
        ++back;
    }
    return back * small->step_s > small->run_gap_s + 1e-9;
}

/* The strokes of each strength, from the words of lighten.h. */
static void sort_strokes(const Small* const small, uint32_t sorts[STRENGTHS])
{
    memset(sorts, 0, STRENGTHS * sizeof *sorts);
    for (uint32_t i = 0; i < small->steps; ++i) {
        const uint32_t bit = small->struck & 1U << i;
        const uint8_t level = small->levels[i];
        const int sort = level == LEVEL_GHOST    ? 4
                         : level == LEVEL_NORMAL ? (i % small->beat ? 3 : 2)
                                                 : 1;
        sorts[bit && begins_run(small, i) ? 0 : sort] |= bit;
    }
    if (!sorts[0]) {
        const uint32_t first = small->struck & ~(small->struck - 1);
        for (int sort = 1; sort < STRENGTHS; ++sort) {
            sorts[sort] &= ~first;
        }
        sorts[0] = first;
    }
}

static uint32_t bits(uint32_t mask)
{
    uint32_t count = 0;
    for (; mask; mask &= mask - 1) {
        ++count;
    }
    return count;
}

/* True if `a` has a stroke where both differ first. */
static bool earlier(const uint32_t a, const uint32_t b)
{
    const uint32_t differ = a ^ b;
    return a & (differ & ~(differ - 1));
}

/* Sort after sort every subset is tried. */
static uint32_t best_by_trying_all(const Small* const small)
{
    uint32_t sorts[STRENGTHS], kept = 0;
    sort_strokes(small, sorts);
    for (int sort = 0; sort < STRENGTHS; ++sort) {
        uint32_t best = 0;
        for (uint32_t mask = sorts[sort]; mask; mask = (mask - 1) & sorts[sort]) {
            const bool more = bits(mask) > bits(best);
            if ((more || (bits(mask) == bits(best) && earlier(mask, best))) &&
                !over_limit(small, kept | mask)) {
                best = mask;
            }
        }
        kept |= best;
    }
    return kept;
}

static const double tempo = 210.0; /* a sixteenth is a fourteenth of a second */

static OwnFigure figure_of(const Small* const small)
{
    OwnFigure own = {.figure = {.id = 1, .step_ticks = TICKS_PER_QUARTER / 4}};
    own.figure.cycle_ticks = small->steps * own.figure.step_ticks;
    for (uint32_t i = 0; i < small->steps; ++i) {
        const int64_t tick = i * own.figure.step_ticks;
        own.strokes[own.figure.stroke_count++] =
            (Stroke){tick, LEFT_HAND, VOICE_SNARE, LEVEL_NORMAL, true};
        if (small->struck >> i & 1U) {
            own.strokes[own.figure.stroke_count++] =
                (Stroke){tick, RIGHT_FOOT, VOICE_KICK, small->levels[i], true};
        }
    }
    return own;
}

static LightenLimit limit_of(const Small* const small)
{
    return (LightenLimit){.limb = RIGHT_FOOT,
                          .most = small->most,
                          .seconds = small->span_s,
                          .tempo = tempo,
                          .beat = small->beat * TICKS_PER_QUARTER / 4,
                          .run_gap_ms = small->run_gap_s * 1000.0};
}

/* What stays of the foot, as steps; that the hand stays whole is checked on the way. */
static uint32_t lightened(const Small* const small)
{
    OwnFigure own = figure_of(small);
    own.figure.strokes = own.strokes;
    Stroke stay[64];
    const Lightened result = lighten_figure(&own.figure, limit_of(small), stay);
    uint32_t kept = 0, hand = 0;
    for (uint32_t i = 0; i < result.count; ++i) {
        hand += stay[i].limb == LEFT_HAND;
        kept |= stay[i].limb == RIGHT_FOOT ? 1U << stay[i].tick / own.figure.step_ticks : 0;
    }
    CHECK_INT(hand, small->steps);
    CHECK_INT(result.taken, bits(small->struck) - bits(kept));
    CHECK_INT(kept & ~small->struck, 0);
    return kept;
}

static Small small_by_chance(uint32_t* const state)
{
    Small small = {.steps = 1 + dice(state, 12), .step_s = 60.0 / tempo / 4.0};
    for (uint32_t i = 0; i < small.steps; ++i) {
        small.struck |= (uint32_t)(dice(state, 4) != 0) << i;
        small.levels[i] = (uint8_t)(LEVEL_GHOST + dice(state, 4));
    }
    small.beat = 1 + dice(state, 4);
    small.span_s = small.step_s * (1 + dice(state, 20)) - (dice(state, 2) ? 0.01 : 0.0);
    small.most = 1 + dice(state, 6);
    small.run_gap_s = small.step_s * (1 + dice(state, 4));
    return small;
}

static void what_stays_is_the_best_of_all_that_could_stay(void)
{
    uint32_t state = 1, taken = 0;
    for (int i = 0; i < 20000; ++i) {
        const Small small = small_by_chance(&state);
        if (!small.struck) {
            continue;
        }
        const uint32_t kept = lightened(&small);
        check_case("case %d: %u steps, struck %x, at most %u in %.3f s", i, small.steps,
                   small.struck, small.most, small.span_s);
        CHECK_INT(kept, best_by_trying_all(&small));
        CHECK(!over_limit(&small, kept));
        taken += bits(small.struck & ~kept);
    }
    CHECK(taken > 10000); /* else the limits asked for nothing */
}

/* README: "none that is gone could come back". */
static void no_stroke_that_was_left_out_could_stay(void)
{
    uint32_t state = 2, tried = 0;
    for (int i = 0; i < 20000; ++i) {
        const Small small = small_by_chance(&state);
        const uint32_t kept = small.struck ? lightened(&small) : 0;
        for (uint32_t gone = small.struck & ~kept; gone; gone &= gone - 1) {
            const uint32_t back = gone & ~(gone - 1);
            check_case("case %d: struck %x, kept %x, back %x", i, small.struck, kept, back);
            CHECK(over_limit(&small, kept | back));
            ++tried;
        }
    }
    CHECK(tried > 10000);
}

/* Every set of strokes there is, weighed by how many of each sort it loses. */
static bool loses_less(const uint32_t sorts[STRENGTHS], const uint32_t a, const uint32_t b)
{
    for (int sort = 0; sort < STRENGTHS; ++sort) {
        const uint32_t lost_a = bits(sorts[sort] & ~a), lost_b = bits(sorts[sort] & ~b);
        if (lost_a != lost_b) {
            return lost_a < lost_b;
        }
    }
    return false;
}

static int sorts_that_lose(const uint32_t sorts[STRENGTHS], const uint32_t kept)
{
    int losing = 0;
    for (int sort = 0; sort < STRENGTHS; ++sort) {
        losing += (sorts[sort] & ~kept) != 0;
    }
    return losing;
}

/* Where two sorts lose, which of the stronger stay (the earlier) may cost one more of the
   weaker; where one does, nothing smaller would do. */
static void where_one_sort_loses_no_smaller_set_would_do(void)
{
    uint32_t state = 2;
    int beaten = 0, cases = 0;
    for (int i = 0; i < 4000; ++i) {
        const Small small = small_by_chance(&state);
        uint32_t sorts[STRENGTHS];
        sort_strokes(&small, sorts);
        const uint32_t kept = small.struck ? lightened(&small) : 0;
        bool less = false;
        for (uint32_t mask = small.struck; mask; mask = (mask - 1) & small.struck) {
            less = less || (loses_less(sorts, mask, kept) && !over_limit(&small, mask));
        }
        check_case("case %d", i);
        CHECK(!less || sorts_that_lose(sorts, kept) > 1);
        beaten += less;
        cases += kept != small.struck;
    }
    printf("# of %d figures that lose strokes %d of two sorts could have kept more of the weaker\n",
           cases, beaten);
    CHECK(cases > 1000);
}

/* n even strokes a turn, m in each span, at most a in each: the spans of a turn hold m
   times the strokes that stay, so n a / m stay at most, and evenly spread ones can. */
static void of_even_strokes_the_known_number_stays(void)
{
    for (uint32_t n = 1; n <= 24; ++n) {
        for (uint32_t m = 1; m <= 24; ++m) {
            for (uint32_t most = 1; most <= m; ++most) {
                Small small = {.steps = n, .step_s = 60.0 / tempo / 4.0, .beat = n, .most = most};
                small.struck = (1U << n) - 1;
                memset(small.levels, LEVEL_NORMAL, sizeof small.levels);
                small.levels[0] = LEVEL_ACCENT;
                small.span_s = m * small.step_s;
                small.run_gap_s = 1.0;
                check_case("%u of %u in a turn of %u", most, m, n);
                CHECK_INT(bits(lightened(&small)), n * most / m);
            }
        }
    }
}

static void a_limb_that_rests_loses_nothing(void)
{
    Small small = {.steps = 8, .step_s = 60.0 / tempo / 4.0, .beat = 4, .span_s = 1.0, .most = 1};
    CHECK_INT(lightened(&small), 0);
}

static void the_accent_stays_where_a_ghost_can_go(void)
{
    Small small = {.steps = 4, .struck = 0xF, .step_s = 60.0 / tempo / 4.0, .beat = 4};
    memcpy(small.levels, (uint8_t[]){LEVEL_NORMAL, LEVEL_GHOST, LEVEL_ACCENT, LEVEL_NORMAL}, 4);
    small.span_s = 4 * small.step_s;
    small.run_gap_s = 1.0;
    small.most = 3;
    CHECK_INT(lightened(&small), 0xD); /* the ghost goes */
    small.most = 2;
    CHECK_INT(lightened(&small), 0x5); /* and the normal stroke off the beat */
    small.most = 1;
    CHECK_INT(lightened(&small), 0x1); /* the first stays last */
    small.most = 0;
    CHECK_INT(lightened(&small), 0x0);
}

/* ---- The bank's feet, thinned, then looked through */

static uint32_t rate_of(const Figure* const figure, const uint8_t limb, const double at)
{
    static Playability playability;
    const PlayLimits limits = play_limits_default();
    const Groove groove = {
        .id = 1, .meter = {4.0, 4}, .form_bars = 16, .parts = {{.feet = figure}}};
    Selection selection = selection_of_groove(&groove);
    selection.realign = REALIGN_NEVER;
    playability_run(&playability, &selection, groove.meter, at, 32, &limits);
    return (uint32_t)playability.found[limb].rate;
}

static void check_thinned(const Figure* figure, const uint8_t limb, const double at)
{
    static Stroke stay[FIGURE_STROKES_MAX];
    Figure rolls = *figure;
    rolls.bars = 0; /* end to end, as it is thinned */
    const uint32_t before = rate_of(&rolls, limb, at);
    for (uint32_t most = 1; most <= before; ++most) {
        const LightenLimit limit = {limb, most, 1.0, at, TICKS_PER_QUARTER, 250.0};
        const Lightened result = lighten_figure(&rolls, limit, stay);
        Figure thinned = rolls;
        thinned.strokes = stay;
        thinned.stroke_count = result.count;
        CHECK_INT(result.count + result.taken, figure->stroke_count);
        CHECK(rate_of(&thinned, limb, at) <= most);
        CHECK(result.taken || most == before); /* what meets its limit is left as it is */
        CHECK(!result.taken || most < before);
    }
}

static void every_thinned_figure_of_the_bank_meets_its_limit(void)
{
    Bank* const bank = factory_open();
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); i += 3) {
        const EntryInfo* const entry = bank_entry(bank, ENTRY_FEET, i);
        for (uint8_t limb = RIGHT_FOOT; limb <= LEFT_FOOT; ++limb) {
            check_case("%s, limb %d, at %d", entry->label, limb, entry->tempo_high);
            check_thinned(factory_figure(bank, ENTRY_FEET, i), limb, entry->tempo_high);
        }
    }
    bank_free(bank);
}

int main(void)
{
    RUN(what_stays_is_the_best_of_all_that_could_stay);
    RUN(no_stroke_that_was_left_out_could_stay);
    RUN(where_one_sort_loses_no_smaller_set_would_do);
    RUN(of_even_strokes_the_known_number_stays);
    RUN(a_limb_that_rests_loses_nothing);
    RUN(the_accent_stays_where_a_ghost_can_go);
    RUN(every_thinned_figure_of_the_bank_meets_its_limit);
    return tests_end();
}
