// SPDX-License-Identifier: ISC
#include "articulation.h"

static int64_t distance(const int64_t a, const int64_t b)
{
    const int64_t apart = a < b ? b - a : a - b;
    return apart < TICKS_PER_QUARTER ? apart : TICKS_PER_QUARTER;
}

/* Looks at the strokes a quarter note around this one. */
static Surroundings look_around(const StrokeList* const around, const Stroke stroke,
                                const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    Surroundings seen = {.near = TICKS_PER_QUARTER,
                         .turn = TICKS_PER_QUARTER,
                         .limb_before = TICKS_PER_QUARTER,
                         .limb_after = TICKS_PER_QUARTER,
                         .in_bar = floor_mod(stroke.tick, bar),
                         .bars_apart = floor_mod(stroke.tick, 2 * bar),
                         .two_bars = 2 * bar};
    for (uint32_t i = 0; i < around->count; ++i) {
        const Stroke other = around->strokes[i];
        const int64_t apart = distance(other.tick, stroke.tick);
        const bool same_limb = other.limb == stroke.limb;
        if (!apart || !(same_limb || other.voice == stroke.voice)) {
            continue;
        }
        seen.near = apart < seen.near ? apart : seen.near;
        int64_t* const side = other.tick < stroke.tick ? &seen.limb_before : &seen.limb_after;
        if (same_limb && apart < *side) {
            *side = apart;
        }
        if (same_limb && !feel_pushes_alike(stroke, other) && apart < seen.turn) {
            seen.turn = apart;
        }
    }
    return seen;
}

uint32_t articulation_of(const Score* const score, const Stroke stroke,
                         const StrokeList* const around, Hit hits[ARTICULATION_MAX])
{
    const Surroundings seen = look_around(around, stroke, score->meter);
    hits[0] = (Hit){
        .tick = stroke.tick + feel_offset(score->feel, stroke, &seen, score->tempo),
        .written = stroke.tick,
        .limb = stroke.limb,
        .voice = stroke.voice,
        .level = stroke.level,
        .velocity = feel_velocity(score->feel, stroke, &seen, score->tempo),
    };
    const Graces graces = grace_strokes(stroke, around, score->tempo);
    for (uint32_t i = 0; i < graces.count; ++i) {
        Hit* const grace = &hits[1 + i];
        *grace = hits[0];
        grace->tick -= graces.leads[i];
        grace->limb = graces.limb;
        grace->level = LEVEL_GHOST;
        grace->velocity = grace_velocity(hits[0].velocity);
        grace->is_grace = true;
    }
    return 1 + graces.count;
}
