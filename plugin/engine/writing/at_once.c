// SPDX-License-Identifier: ISC
#include "at_once.h"

static bool opens(const Stroke stroke)
{
    return stroke.voice == VOICE_HAT_OPEN || stroke.voice == VOICE_HAT_HALF_OPEN;
}

static bool closes(const Stroke stroke)
{
    return stroke.voice == VOICE_HAT_CLOSED || stroke.voice == VOICE_HAT_PEDAL;
}

int64_t at_once_open_and_closed(const Stroke* const strokes, const uint32_t count)
{
    for (uint32_t i = 0; i < count; ++i) {
        for (uint32_t j = i + 1; j < count && strokes[j].tick == strokes[i].tick; ++j) {
            if ((opens(strokes[i]) && closes(strokes[j])) ||
                (closes(strokes[i]) && opens(strokes[j]))) {
                return strokes[i].tick;
            }
        }
    }
    return -1;
}

/* Of the strokes at one tick, [first, end). */
static bool out_of_reach(const Stroke* const strokes, const uint32_t first, const uint32_t end)
{
    for (uint32_t i = first; i < end; ++i) {
        for (uint32_t j = i + 1; j < end; ++j) {
            if (strokes[i].limb == strokes[j].limb && strokes[i].voice != strokes[j].voice) {
                return true;
            }
        }
    }
    return false;
}

int64_t at_once_out_of_reach(const Stroke* const strokes, const uint32_t count)
{
    for (uint32_t first = 0, end = 0; first < count; first = end) {
        while (end < count && strokes[end].tick == strokes[first].tick) {
            ++end;
        }
        if (out_of_reach(strokes, first, end)) {
            return strokes[first].tick;
        }
    }
    return -1;
}
