// SPDX-License-Identifier: ISC
/* test_pairs.c - any feet figure goes under any hands figure: together they play
   exactly what each of them plays, as told in groove.h and ttl/terms.ttl. */
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

enum { BARS = 8, ALONE_MAX = BARS * 128 };

/* What a figure plays in so many bars, by the words of ttl/terms.ttl, and
   nothing of the engine's. */
typedef struct {
    Stroke strokes[ALONE_MAX];
    uint32_t count;
    uint32_t bar_starts[BARS + 1]; /* index of the first stroke of each bar */
} Alone;

/* "rolls on over the bar lines in its own length, from the first bar of the
   phrase" or "keeps to the bar line: a shorter bar cuts it, a longer bar starts
   it again". */
static int64_t place_in_figure(const Figure* const figure, const int64_t bar, const int64_t bars,
                               const int64_t in_bar)
{
    if (!figure->bars) {
        return (bars * bar + in_bar) % figure->cycle_ticks;
    }
    const int64_t one_bar = figure->cycle_ticks / figure->bars;
    return bar % figure->bars * one_bar + in_bar % one_bar;
}

/* Every place of the bar where one of the figure's strokes sounds: its tick and
   whole lengths after it come into question, the rule above decides. */
static void add_strokes_of(Alone* const alone, const Figure* const figure, const Stroke stroke,
                           const int64_t bar, const int64_t bar_ticks)
{
    const int64_t length = figure->bars ? figure->cycle_ticks / figure->bars : figure->cycle_ticks;
    const int64_t first = figure->bars
                              ? stroke.tick % length
                              : ((stroke.tick - bar * bar_ticks) % length + length) % length;
    for (int64_t in_bar = first; in_bar < bar_ticks; in_bar += length) {
        if (place_in_figure(figure, bar, bar_ticks, in_bar) == stroke.tick) {
            Stroke sounding = stroke;
            sounding.tick = bar * bar_ticks + in_bar;
            if (CHECK(alone->count < ALONE_MAX)) {
                alone->strokes[alone->count++] = sounding;
            }
        }
    }
}

static void play_alone(Alone* const alone, const Figure* const figure, const Meter meter)
{
    const int64_t bar_ticks = meter_bar_ticks(meter);
    alone->count = 0;
    for (int64_t bar = 0; bar < BARS; ++bar) {
        const uint32_t start = alone->count;
        alone->bar_starts[bar] = start;
        for (uint32_t i = 0; i < figure->stroke_count; ++i) {
            add_strokes_of(alone, figure, figure->strokes[i], bar, bar_ticks);
        }
        strokes_sort(&alone->strokes[start], alone->count - start);
    }
    alone->bar_starts[BARS] = alone->count;
}

static bool same_stroke(const Stroke a, const Stroke b)
{
    return a.tick == b.tick && a.limb == b.limb && a.voice == b.voice && a.level == b.level;
}

/* One bar of both: each stroke is the next of one of the two, and none is left. */
static bool is_sum(const StrokeList* const both, const Alone* const hands, const Alone* const feet,
                   const int bar)
{
    uint32_t hand = hands->bar_starts[bar];
    uint32_t foot = feet->bar_starts[bar];
    for (uint32_t i = 0; i < both->count; ++i) {
        const Stroke stroke = both->strokes[i];
        if (hand < hands->bar_starts[bar + 1] && same_stroke(stroke, hands->strokes[hand])) {
            ++hand;
        } else if (foot < feet->bar_starts[bar + 1] && same_stroke(stroke, feet->strokes[foot])) {
            ++foot;
        } else {
            return false;
        }
    }
    return !both->dropped && hand == hands->bar_starts[bar + 1] &&
           foot == feet->bar_starts[bar + 1];
}

/* At most two hands and two feet strike together, each once. */
static bool four_limbs_suffice(const StrokeList* const list)
{
    for (uint32_t i = 0; i < list->count;) {
        const int64_t tick = list->strokes[i].tick;
        unsigned struck = 0;
        for (; i < list->count && list->strokes[i].tick == tick; ++i) {
            const unsigned limb = 1U << list->strokes[i].limb;
            if (struck & limb) {
                return false;
            }
            struck |= limb;
        }
    }
    return true;
}

static bool in_order(const StrokeList* const list)
{
    for (uint32_t i = 1; i < list->count; ++i) {
        const Stroke a = list->strokes[i - 1];
        const Stroke b = list->strokes[i];
        if (a.tick > b.tick || (a.tick == b.tick && a.limb > b.limb)) {
            return false;
        }
    }
    return true;
}

static void check_pair(const Groove* const groove, const Alone* const hands,
                       const Alone* const feet)
{
    static StrokeList both; /* too large for a stack */
    const Selection selection = plain_choice(groove, 2 * BARS);
    const int64_t bar_ticks = meter_bar_ticks(groove->meter);
    for (int bar = 0; bar < BARS; ++bar) {
        groove_strokes(&selection, groove->meter, bar * bar_ticks, (bar + 1) * bar_ticks, &both);
        CHECK(is_sum(&both, hands, feet, bar));
        CHECK(four_limbs_suffice(&both));
        CHECK(in_order(&both));
    }
}

static void check_pairs(const Meter meter)
{
    static Alone hands, feet;
    for (uint32_t f = 0; f < bank_count(bank, ENTRY_FEET); ++f) {
        const Figure* const feet_figure = factory_figure(bank, ENTRY_FEET, f);
        play_alone(&feet, feet_figure, meter);
        for (uint32_t h = 0; h < bank_count(bank, ENTRY_HANDS); ++h) {
            const Figure* const hands_figure = factory_figure(bank, ENTRY_HANDS, h);
            Groove groove = plain_groove(hands_figure, feet_figure);
            groove.meter = meter;
            check_case("%s over %s in %g/%d", bank_entry(bank, ENTRY_HANDS, h)->label,
                       bank_entry(bank, ENTRY_FEET, f)->label, meter.beats_per_bar,
                       meter.beat_unit);
            play_alone(&hands, hands_figure, meter);
            check_pair(&groove, &hands, &feet);
        }
    }
}

static void any_feet_go_under_any_hands_in_four_four(void)
{
    check_pairs((Meter){4.0, 4});
}

static void any_feet_go_under_any_hands_in_seven_eight(void)
{
    check_pairs((Meter){7.0, 8});
}

static void the_pairs_are_many(void)
{
    CHECK(bank_count(bank, ENTRY_HANDS) * bank_count(bank, ENTRY_FEET) > 20000);
}

int main(void)
{
    bank = factory_open();
    RUN(any_feet_go_under_any_hands_in_four_four);
    RUN(any_feet_go_under_any_hands_in_seven_eight);
    RUN(the_pairs_are_many);
    bank_free(bank);
    return tests_end();
}
