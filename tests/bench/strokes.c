// SPDX-License-Identifier: ISC
/* strokes.c - a long busy take, stroke by stroke, for counting what one costs: hats in eighths,
   backbeats and ghosts, both feet in sixteenths, and what stands a quarter note around each.
   Prints how many strokes that are. */
#include "../../plugin/engine/play/articulation.h"

#include <stdio.h>

enum { SIXTEENTHS = 4096, STEP = TICKS_PER_QUARTER / 4 };

static void add(StrokeList* const list, const int64_t at)
{
    const int64_t tick = at * STEP, place = floor_mod(at, 16);
    const uint8_t level = place % 8 == 4 ? LEVEL_ACCENT : LEVEL_GHOST;
    if (place % 2 == 0) {
        stroke_list_add(list, (Stroke){tick, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL, true});
    }
    if (place % 8 == 4 || place % 7 == 6) {
        stroke_list_add(list, (Stroke){tick, LEFT_HAND, VOICE_SNARE, level, true});
    }
    const uint8_t foot = place % 2 ? LEFT_FOOT : RIGHT_FOOT;
    stroke_list_add(list, (Stroke){tick, foot, VOICE_KICK, LEVEL_NORMAL, true});
}

static uint32_t play(const Score* const score, const int64_t at)
{
    StrokeList around = {.count = 0};
    Hit hits[ARTICULATION_MAX];
    uint32_t played = 0;
    for (int64_t near = at - 4; near <= at + 4; ++near) {
        add(&around, near);
    }
    for (uint32_t i = 0; i < around.count; ++i) {
        if (around.strokes[i].tick == at * STEP) {
            played += articulation_of(score, around.strokes[i], &around, hits) > 0;
        }
    }
    return played;
}

int main(void)
{
    static const Selection nothing;
    const Feel feel = {.take = 1,
                       .looseness_ms = 18.0,
                       .touch = 0.5,
                       .accent = 0.85,
                       .accent_feet = 0.3,
                       .ghost = 0.55,
                       .level = 76};
    const Score score = {.selection = &nothing, .feel = &feel, .meter = {4.0, 4}, .tempo = 110.0};
    uint32_t played = 0;
    for (int64_t at = 0; at < SIXTEENTHS; ++at) {
        played += play(&score, at);
    }
    printf("%u\n", (unsigned)played);
    return 0;
}
