// SPDX-License-Identifier: ISC
#include "articulation.h"

#include "../groove/fill.h"

static int64_t distance(const int64_t a, const int64_t b)
{
    const int64_t apart = a < b ? b - a : a - b;
    return apart < TICKS_PER_QUARTER ? apart : TICKS_PER_QUARTER;
}

/* Whether a fill ends within a quarter note, or has ended. */
static FillPlace fill_place(const Score* const score, const int64_t tick)
{
    const Selection* const selection = score->selection;
    if (!selection->turnaround || !selection->groove || tick < 0) {
        return FILL_NOWHERE;
    }
    const int64_t index = floor_div(tick, meter_bar_ticks(score->meter));
    const Bar bar = bar_at(selection, score->meter, index);
    const Fill fill = fill_in_bar(selection, &bar);
    if (fill.figure && tick >= fill.begin && fill.end - tick <= TICKS_PER_QUARTER) {
        return FILL_LAST_BEAT;
    }
    if (index == 0 || tick - bar.begin >= TICKS_PER_QUARTER) {
        return FILL_NOWHERE;
    }
    const Bar last = bar_at(selection, score->meter, index - 1);
    const Fill before = fill_in_bar(selection, &last);
    return before.figure && before.end == bar.begin ? FILL_BEAT_AFTER : FILL_NOWHERE;
}

/* At a stroke of the same limb or on the same voice. */
static void look_beside(Surroundings* const seen, const Stroke stroke, const Stroke other,
                        const int64_t apart)
{
    const bool is_before = other.tick < stroke.tick;
    int64_t* const beside = is_before ? &seen->before : &seen->after;
    *beside = apart < *beside ? apart : *beside;
    if (other.limb != stroke.limb) {
        return;
    }
    int64_t* const side = is_before ? &seen->limb_before : &seen->limb_after;
    *side = apart < *side ? apart : *side;
    if (apart < seen->turn && !feel_pushes_alike(stroke, other)) {
        seen->turn = apart;
    }
}

/* Looks at the strokes a quarter note around this one. */
static Surroundings look_around(const Score* const score, const StrokeList* const around,
                                const Stroke stroke)
{
    Surroundings seen = {.before = TICKS_PER_QUARTER,
                         .after = TICKS_PER_QUARTER,
                         .turn = TICKS_PER_QUARTER,
                         .limb_before = TICKS_PER_QUARTER,
                         .limb_after = TICKS_PER_QUARTER,
                         .in_bar = floor_mod(stroke.tick, meter_bar_ticks(score->meter)),
                         .in_take = stroke.tick + score->in_song,
                         .fill = fill_place(score, stroke.tick)};
    for (uint32_t i = 0; i < around->count; ++i) {
        const Stroke* const other = &around->strokes[i];
        const int64_t apart = distance(other->tick, stroke.tick);
        if (other->limb != stroke.limb && other->voice != stroke.voice) {
            seen.with_time |= apart <= TICKS_PER_QUARTER / 2 && feel_keeps_time(*other);
        } else if (apart) {
            look_beside(&seen, stroke, *other, apart);
        }
    }
    seen.near = seen.before < seen.after ? seen.before : seen.after;
    return seen;
}

uint32_t articulation_of(const Score* const score, const Stroke stroke,
                         const StrokeList* const around, Hit hits[ARTICULATION_MAX])
{
    const Surroundings seen = look_around(score, around, stroke);
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
