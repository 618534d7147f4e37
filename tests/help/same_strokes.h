// SPDX-License-Identifier: ISC
/* same_strokes.h - strokes compared by what they are: bytes between their fields
   may be anything. */
#pragma once

#include "../../plugin/engine/written/stroke.h"

static inline bool same_strokes(const Stroke* const a, const Stroke* const b, const uint32_t count)
{
    bool same = true;
    for (uint32_t i = 0; same && i < count; ++i) {
        same = a[i].tick == b[i].tick && a[i].limb == b[i].limb && a[i].voice == b[i].voice &&
               a[i].level == b[i].level && a[i].bends == b[i].bends;
    }
    return same;
}
