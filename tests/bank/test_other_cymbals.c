// SPDX-License-Identifier: ISC
/* test_other_cymbals.c - no hands figure is another one on another cymbal: what `ride_on`
   makes of one that is there needs no entry of its own, and one that left for that reason
   names the cymbal. */
#include "../../plugin/engine/written/ride_on.h"
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

/* A figure as it is played on another cymbal, in order of limbs as it was. */
static Figure moved(const Figure* const figure, const RideOn to, StrokeList* const list)
{
    Figure other = *figure;
    list->count = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        stroke_list_add(list, figure->strokes[i]);
    }
    ride_on_strokes(ride_on_move(figure, to), list, 0);
    other.strokes = list->strokes;
    return other;
}

/* The same limbs strike the same voices at the same times, levels aside. */
static bool same(const Figure* const a, const Figure* const b)
{
    bool found = a->cycle_ticks == b->cycle_ticks && a->stroke_count == b->stroke_count;
    for (uint32_t i = 0; found && i < a->stroke_count; ++i) {
        const Stroke one = a->strokes[i];
        found = false;
        for (uint32_t k = 0; !found && k < b->stroke_count; ++k) {
            const Stroke other = b->strokes[k];
            found = one.tick == other.tick && one.limb == other.limb && one.voice == other.voice;
        }
    }
    return found;
}

/* On what `a` is `b`, or as written if on nothing. */
static RideOn on_what(const Figure* const a, const Figure* const b)
{
    static StrokeList list;
    for (int to = 1; to < RIDE_ON_COUNT; ++to) {
        const Figure other = moved(a, (RideOn)to, &list);
        if (ride_on_move(a, (RideOn)to).to && same(&other, b)) {
            return (RideOn)to;
        }
    }
    return RIDE_ON_AS_WRITTEN;
}

static void no_hands_figure_is_another_one_on_another_cymbal(void)
{
    const Library* const library = bank_library(bank);
    const Figure* const hands = library->figures[FIGURE_HANDS];
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_HANDS]; ++i) {
        for (uint32_t k = 0; k < i; ++k) {
            const RideOn to = on_what(&hands[k], &hands[i]);
            check_case("hands %u are %u on %d", hands[i].id, hands[k].id, (int)to);
            CHECK_INT(to, RIDE_ON_AS_WRITTEN);
        }
    }
}

static void hands_on_another_cymbal_are_found(void)
{
    static const Stroke closed[] = {{0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_ACCENT, true},
                                    {1, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL, true},
                                    {1, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
    static const Stroke bell[] = {{0, RIGHT_HAND, VOICE_RIDE_BELL, LEVEL_NORMAL, true},
                                  {1, RIGHT_HAND, VOICE_RIDE_BELL, LEVEL_NORMAL, true},
                                  {1, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
    static const Stroke barks[] = {{0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL, true},
                                   {1, RIGHT_HAND, VOICE_HAT_OPEN, LEVEL_NORMAL, true},
                                   {1, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT, true}};
    Figure a = {.kind = FIGURE_HANDS, .cycle_ticks = 2, .stroke_count = 3, .strokes = closed};
    Figure b = a, c = a;
    b.strokes = bell;
    c.strokes = barks;
    figure_note(&a);
    figure_note(&b);
    figure_note(&c);
    CHECK_INT(on_what(&a, &b), RIDE_ON_BELL);
    CHECK_INT(on_what(&b, &a), RIDE_ON_CLOSED);
    CHECK_INT(on_what(&a, &c), RIDE_ON_AS_WRITTEN);
}

int main(void)
{
    bank = factory_open();
    RUN(hands_on_another_cymbal_are_found);
    RUN(no_hands_figure_is_another_one_on_another_cymbal);
    bank_free(bank);
    return tests_end();
}
