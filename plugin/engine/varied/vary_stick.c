// SPDX-License-Identifier: ISC
#include "vary_stick.h"

enum { RUN_LEAST = 3 };

VaryReason vary_stick_swap(VaryLine* const line)
{
    if (line->other == line->lead) {
        return VARY_ONE_FOOT; /* its hat has its place under the other */
    }
    line->set = true;
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        kick->limb = (uint8_t)(RIGHT_FOOT + LEFT_FOOT - kick->limb);
    }
    vary_order(line);
    return VARY_NONE;
}

VaryReason vary_stick_one(VaryLine* const line)
{
    if (line->one_foot) {
        return VARY_ONE_FOOT;
    }
    line->set = true;
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        line->kicks.strokes[i].limb = line->lead;
    }
    vary_order(line);
    return VARY_NONE;
}

/* `sticking` is given stroke by stroke, 0 the leading foot, until both come round together. */
static VaryReason stick(VaryLine* const line, const uint8_t* const sticking, const uint32_t length)
{
    if (line->other == line->lead) {
        return VARY_ONE_FOOT;
    }
    if (line->longest < RUN_LEAST) {
        return VARY_NO_RUN;
    }
    vary_anew(line);
    const uint32_t count = line->kicks.count;
    const VaryReason reason = vary_repeat(line, length / common_divisor(length, count));
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        line->kicks.strokes[i].limb = sticking[i % length] ? line->other : line->lead;
    }
    line->set = true;
    return reason;
}

VaryReason vary_stick_doubles(VaryLine* const line)
{
    static const uint8_t doubles[] = {0, 0, 1, 1};
    return stick(line, doubles, sizeof doubles);
}

VaryReason vary_stick_paradiddles(VaryLine* const line)
{
    static const uint8_t paradiddles[] = {0, 1, 0, 0, 1, 0, 1, 1};
    return stick(line, paradiddles, sizeof paradiddles);
}

static VaryReason accent(VaryLine* const line, const uint32_t every)
{
    const uint32_t count = line->kicks.count;
    if (line->longest < RUN_LEAST) {
        return VARY_NO_RUN;
    }
    const VaryReason reason = vary_repeat(line, every / common_divisor(every, count));
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        const uint8_t plain = kick->level > LEVEL_NORMAL ? LEVEL_NORMAL : kick->level;
        kick->level = i % every ? plain : LEVEL_ACCENT;
    }
    return reason;
}

VaryReason vary_stick_threes(VaryLine* const line)
{
    return accent(line, 3);
}

VaryReason vary_stick_fives(VaryLine* const line)
{
    return accent(line, 5);
}
