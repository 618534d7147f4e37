// SPDX-License-Identifier: ISC
#include "beside.h"

#include <stddef.h>

bool beside_any(const Stroke stroke)
{
    return stroke.level != LEVEL_REST;
}

bool beside_kick(const Stroke stroke)
{
    return stroke.voice == VOICE_KICK || stroke.voice == VOICE_KICK_LEFT;
}

bool beside_snare(const Stroke stroke)
{
    return stroke.voice == VOICE_SNARE;
}

bool beside_backbeat(const Stroke stroke)
{
    return stroke.voice == VOICE_SNARE && stroke.level != LEVEL_GHOST;
}

bool beside_hat(const Stroke stroke)
{
    return stroke.voice >= VOICE_HAT_CLOSED && stroke.voice <= VOICE_HAT_PEDAL;
}

Beside beside_look(const StrokeList* const list, const int64_t tick, BesideKind* const kind,
                   const uint8_t limb)
{
    Beside beside = {NULL, NULL, NULL};
    for (uint32_t i = 0; i < list->count; ++i) {
        const Stroke* const stroke = &list->strokes[i];
        const bool is_far = stroke->tick < tick - TICKS_PER_QUARTER;
        if (is_far || (limb < LIMB_COUNT && stroke->limb != limb) || !kind(*stroke)) {
            continue;
        }
        if (stroke->tick > tick + TICKS_PER_QUARTER) {
            break;
        }
        if (stroke->tick < tick) {
            beside.before = stroke;
        } else if (stroke->tick == tick) {
            beside.at = stroke;
        } else {
            beside.after = stroke;
            break;
        }
    }
    return beside;
}

bool beside_is_clear(const Beside* const beside, const int64_t tick, const int64_t apart)
{
    return (!beside->before || tick - beside->before->tick >= apart) &&
           (!beside->after || beside->after->tick - tick >= apart);
}

bool beside_kick_runs(const StrokeList* const list, const Stroke kick)
{
    const Beside near = beside_look(list, kick.tick, beside_kick, LIMB_COUNT);
    const Stroke* const before = near.before;
    const Stroke* const after = near.after;
    if (before && after && after->tick - before->tick <= TICKS_PER_QUARTER) {
        return true;
    }
    const Stroke* const first =
        before ? beside_look(list, before->tick, beside_kick, LIMB_COUNT).before : NULL;
    const Stroke* const last =
        after ? beside_look(list, after->tick, beside_kick, LIMB_COUNT).after : NULL;
    return (first && kick.tick - first->tick <= TICKS_PER_QUARTER) ||
           (last && last->tick - kick.tick <= TICKS_PER_QUARTER);
}
