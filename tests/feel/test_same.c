// SPDX-License-Identifier: ISC
/* The same performance on every machine: a long take has one checksum, whatever compiler,
   optimisation or processor flags made the program (tests/checks/same.sh builds this file
   with several).  The number is this program's own, noted once: it says that builds agree,
   not that they are right; the other tests of this folder say that. */
#include "../../plugin/engine/play/articulation.h"
#include "../help/check.h"

enum { BARS = 512, TAKES = 16 };
static const uint64_t noted = UINT64_C(0x2CCA10C75DA0A056);

/* FNV-1a (Fowler, Noll, Vo; IETF draft-eastlake-fnv), of eight bytes. */
static uint64_t stir(uint64_t sum, const uint64_t value)
{
    for (int byte = 0; byte < 8; ++byte) {
        sum = (sum ^ (value >> (8 * byte) & 255U)) * UINT64_C(0x100000001B3);
    }
    return sum;
}

/* Eighths, backbeats with ghosts, kicks, the hat's foot and a crash now and then. */
static StrokeList bar_of(const int64_t bar)
{
    const int64_t step = TICKS_PER_QUARTER / 4, begin = bar * 16 * step;
    StrokeList list = {.count = 0};
    for (int64_t i = 0; i < 16; ++i) {
        const int64_t tick = begin + i * step;
        if (i % 2 == 0) {
            const uint8_t voice = i == 0 && bar % 8 == 0 ? VOICE_CRASH : VOICE_HAT_CLOSED;
            stroke_list_add(&list, (Stroke){tick, RIGHT_HAND, voice, LEVEL_NORMAL, true});
        }
        if (i % 8 == 4 || i % 7 == 6) {
            const uint8_t level =
                i % 8 == 4 ? (bar % 4 == 3 ? LEVEL_DRAG : LEVEL_ACCENT) : (uint8_t)LEVEL_GHOST;
            stroke_list_add(&list, (Stroke){tick, LEFT_HAND, VOICE_SNARE, level, true});
        }
        if (i % 3 == bar % 3) {
            stroke_list_add(&list, (Stroke){tick, i % 2 ? LEFT_FOOT : RIGHT_FOOT,
                                            i % 2 && bar % 2 ? VOICE_HAT_PEDAL : VOICE_KICK,
                                            LEVEL_NORMAL, true});
        }
    }
    return list;
}

static uint64_t sum_of(const uint32_t take, const double tempo)
{
    static const Selection nothing;
    const Feel feel = {.take = take,
                       .looseness_ms = 1.0 + take * 1.7,
                       .push_snare_ms = 7.3,
                       .touch = 0.5,
                       .accent = 0.85,
                       .accent_feet = 0.3,
                       .ghost = 0.55,
                       .level = 76};
    const Score score = {.selection = &nothing, .feel = &feel, .meter = {4.0, 4}, .tempo = tempo};
    uint64_t sum = UINT64_C(0xCBF29CE484222325);
    for (int64_t bar = 0; bar < BARS; ++bar) {
        const StrokeList strokes = bar_of(bar);
        for (uint32_t i = 0; i < strokes.count; ++i) {
            Hit hits[ARTICULATION_MAX];
            const uint32_t count = articulation_of(&score, strokes.strokes[i], &strokes, hits);
            for (uint32_t h = 0; h < count; ++h) {
                sum = stir(stir(sum, (uint64_t)hits[h].tick), hits[h].velocity);
            }
        }
    }
    return sum;
}

static void a_long_take_is_the_one_that_was_noted(void)
{
    uint64_t sum = 0;
    for (uint32_t take = 1; take <= TAKES; ++take) {
        sum = stir(sum, sum_of(take, 61.0 + 9.7 * take));
    }
    check_case("0x%016llX", (unsigned long long)sum);
    CHECK(sum == noted);
}

int main(void)
{
    RUN(a_long_take_is_the_one_that_was_noted);
    return tests_end();
}
