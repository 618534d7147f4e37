// SPDX-License-Identifier: ISC
#include "grace.h"

/* Common practice, no source: a flam's grace stroke is heard as one with its
   main stroke, a drag's two are just apart. */
static const double flam_s = 0.025;
static const double drag_s = 0.060;

static uint8_t other_hand(const uint8_t limb)
{
    return limb == RIGHT_HAND ? LEFT_HAND : RIGHT_HAND;
}

/* Ticks since the last stroke of the grace hand or on the same voice; at most a
   quarter note.  0 if the grace hand plays together with the main stroke. */
static int64_t room_before(const Stroke stroke, const uint8_t hand, const StrokeList* const around)
{
    int64_t room = TICKS_PER_QUARTER;
    for (uint32_t i = 0; i < around->count; ++i) {
        const Stroke other = around->strokes[i];
        const int64_t before = stroke.tick - other.tick;
        const bool busy = other.limb == hand;
        if (busy && before == 0) {
            return 0;
        }
        if ((busy || other.voice == stroke.voice) && before > 0 && before < room) {
            room = before;
        }
    }
    return room;
}

Graces grace_strokes(const Stroke stroke, const StrokeList* const around, const double tempo)
{
    Graces graces = {.count = 0, .limb = other_hand(stroke.limb)};
    if (stroke.level < LEVEL_FLAM || limb_is_foot(stroke.limb)) {
        return graces;
    }
    const bool drag = stroke.level == LEVEL_DRAG;
    const double second = tempo / 60.0 * (double)TICKS_PER_QUARTER;
    const int64_t wanted = whole_number((drag ? drag_s : flam_s) * second);
    const int64_t room = room_before(stroke, graces.limb, around) / 4;
    const int64_t lead = wanted < room ? wanted : room;
    if (lead > 0) {
        graces.count = drag ? 2 : 1;
        graces.leads[0] = lead;
        graces.leads[1] = lead / 2;
    }
    return graces;
}

uint8_t grace_velocity(const uint8_t main)
{
    const int soft = main * 2 / 5; /* our choice, no source */
    return (uint8_t)(soft < 1 ? 1 : soft);
}
