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

bool beside_pedal(const Stroke stroke)
{
    return stroke.voice == VOICE_HAT_PEDAL;
}

bool beside_cymbal(const Stroke stroke)
{
    return stroke.voice >= VOICE_HAT_CLOSED && stroke.voice <= VOICE_SPLASH;
}

static bool is_one(const Stroke* const stroke, BesideKind* const kind, const uint8_t limb)
{
    return (limb >= LIMB_COUNT || stroke->limb == limb) && kind(*stroke);
}

/* From the place outwards, to what is near. */
Beside beside_look(const StrokeList* const list, const int64_t tick, BesideKind* const kind,
                   const uint8_t limb)
{
    const Stroke* const begin = list->strokes;
    const Stroke* const end = begin + list->count;
    const Stroke* const here = begin + stroke_list_first(list, tick);
    Beside beside = {NULL, NULL, NULL};
    for (const Stroke* at = here;
         !beside.before && at > begin && at[-1].tick >= tick - TICKS_PER_QUARTER; --at) {
        beside.before = is_one(&at[-1], kind, limb) ? &at[-1] : NULL;
    }
    for (const Stroke* at = here; !beside.after && at < end && at->tick <= tick + TICKS_PER_QUARTER;
         ++at) {
        if (is_one(at, kind, limb)) {
            *(at->tick == tick ? &beside.at : &beside.after) = at;
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
