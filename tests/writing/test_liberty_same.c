// SPDX-License-Identifier: ISC
/* The same liberty on every machine: what a long take plays has one checksum, whatever
   compiler, optimisation or processor flags made the program (tests/checks/same.sh builds this
   file with several).  The number is this program's own, noted once: it says that builds
   agree, not that they are right; the other tests of this folder say that. */
#include "../../plugin/engine/writing/liberty.h"
#include "../help/check.h"

enum { BARS = 256, TAKES = 16, STROKES = 32 };
static const uint64_t noted = UINT64_C(0xD8F67404DBBEB237);

/* FNV-1a (Fowler, Noll, Vo; IETF draft-eastlake-fnv), of eight bytes. */
static uint64_t stir(uint64_t sum, const uint64_t value)
{
    for (int byte = 0; byte < 8; ++byte) {
        sum = (sum ^ (value >> (8 * byte) & 255U)) * UINT64_C(0x100000001B3);
    }
    return sum;
}

static Stroke strokes[STROKES];

static uint32_t add_line(const char* const steps, const uint8_t limb, const uint8_t voice,
                         uint32_t at)
{
    for (int i = 0; i < 16; ++i) {
        const uint8_t level = steps[i] == 'g' ? LEVEL_GHOST : LEVEL_NORMAL;
        if (steps[i] != '.') {
            strokes[at++] = (Stroke){i * (TICKS_PER_QUARTER / 4), limb, voice, level, true};
        }
    }
    return at;
}

static uint64_t sum_of(const Selection* const selection, const double tempo)
{
    static StrokeList written, list;
    const LibertyPlace place = {selection, {4.0, 4}, tempo, 0};
    const int64_t ticks = 4 * TICKS_PER_QUARTER;
    uint64_t sum = UINT64_C(0xCBF29CE484222325);
    for (int64_t bar = 0; bar < BARS; ++bar) {
        liberty_strokes(&place, bar * ticks, (bar + 1) * ticks, &written, &list);
        for (uint32_t i = 0; i < list.count; ++i) {
            const Stroke stroke = list.strokes[i];
            sum = stir(stir(sum, (uint64_t)stroke.tick),
                       (uint64_t)stroke.limb << 16 | (uint64_t)stroke.voice << 8 | stroke.level);
        }
    }
    return sum;
}

static void a_long_take_is_the_one_that_was_noted(void)
{
    const uint32_t hand_count =
        add_line("....o..g.g..o..g", LEFT_HAND, VOICE_SNARE,
                 add_line("o.o.o.o.o.o.o.o.", RIGHT_HAND, VOICE_HAT_CLOSED, 0));
    const uint32_t count = add_line("o..o......o..o..", RIGHT_FOOT, VOICE_KICK, hand_count);
    strokes_sort(strokes, hand_count);
    Figure hands = {.cycle_ticks = 4 * TICKS_PER_QUARTER,
                    .step_ticks = TICKS_PER_QUARTER / 4,
                    .bars = 1,
                    .stroke_count = hand_count,
                    .strokes = strokes};
    Figure feet = hands;
    feet.strokes += hand_count;
    feet.stroke_count = count - hand_count;
    figure_note(&hands);
    figure_note(&feet);
    const Groove groove = {.meter = {4.0, 4},
                           .tempo = 120.0,
                           .form_bars = 4,
                           .parts = {{.hands = &hands, .feet = &feet}},
                           .crash_start = true};
    uint64_t sum = 0;
    for (uint32_t take = 1; take <= TAKES; ++take) {
        Selection selection = selection_of_groove(&groove);
        selection.feel.take = take;
        selection.feel.liberty = take / 16.0;
        selection.swing.ratio = take % 3 ? 1.0 : 1.0 + take / 11.0;
        sum = stir(sum, sum_of(&selection, 61.0 + 9.7 * take));
    }
    check_case("0x%016llX", (unsigned long long)sum);
    CHECK(sum == noted);
}

int main(void)
{
    RUN(a_long_take_is_the_one_that_was_noted);
    return tests_end();
}
