// SPDX-License-Identifier: ISC
#include "vary_thin.h"

static bool on_second_step(const VaryLine* const line, const Stroke stroke)
{
    const int64_t tick = line->rolls ? stroke.tick : stroke.tick % line->bar;
    return tick % (2 * line->step) == 0;
}

VaryReason vary_thin_steps(VaryLine* const line)
{
    const VaryReason reason = line->rolls ? vary_unroll(line, 2 * line->step) : VARY_NONE;
    return reason ? reason : vary_keep(line, on_second_step);
}

VaryReason vary_thin_seconds(VaryLine* const line)
{
    VaryStrokes* const kicks = &line->kicks;
    const VaryReason reason = kicks->count % 2 ? vary_repeat(line, 2) : VARY_NONE;
    kicks->count /= 2;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        kicks->strokes[i] = kicks->strokes[i + i];
    }
    return reason;
}

static bool is_accent(const VaryLine* const line, const Stroke stroke)
{
    (void)line;
    return stroke.level >= LEVEL_ACCENT;
}

static bool is_on_beat(const VaryLine* const line, const Stroke stroke)
{
    return stroke.tick % line->bar % line->beat == 0;
}

static bool any_accent(const VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        if (is_accent(line, line->kicks.strokes[i])) {
            return true;
        }
    }
    return false;
}

VaryReason vary_thin_accents(VaryLine* const line)
{
    if (any_accent(line)) {
        return vary_keep(line, is_accent);
    }
    const VaryReason reason = vary_unroll(line, line->bar);
    return reason ? reason : vary_keep(line, is_on_beat) ? VARY_NO_ACCENTS : VARY_NONE;
}

static bool is_off_one(const VaryLine* const line, const Stroke stroke)
{
    return stroke.tick % line->bar != 0;
}

VaryReason vary_thin_one(VaryLine* const line)
{
    const VaryReason reason = vary_unroll(line, line->bar);
    const uint32_t count = line->kicks.count;
    const VaryReason left = reason ? reason : vary_keep(line, is_off_one);
    return !left && line->kicks.count == count ? VARY_NO_ONE : left;
}

static bool is_right(const VaryLine* const line, const Stroke stroke)
{
    (void)line;
    return stroke.limb == RIGHT_FOOT;
}

static bool is_left(const VaryLine* const line, const Stroke stroke)
{
    return !is_right(line, stroke);
}

VaryReason vary_thin_right(VaryLine* const line)
{
    return line->one_foot ? VARY_ONE_FOOT : vary_keep(line, is_right);
}

VaryReason vary_thin_left(VaryLine* const line)
{
    return line->one_foot ? VARY_ONE_FOOT : vary_keep(line, is_left);
}

static bool in_first_bar(const VaryLine* const line, const Stroke stroke)
{
    return stroke.tick / line->bar % 2 == 0;
}

VaryReason vary_thin_bars(VaryLine* const line)
{
    const VaryReason reason = vary_unroll(line, 2 * line->bar);
    return reason ? reason : vary_keep(line, in_first_bar);
}

static bool in_first_half(const VaryLine* const line, const Stroke stroke)
{
    const int64_t half = line->bar - vary_half(line);
    return stroke.tick % line->bar < half;
}

VaryReason vary_thin_halves(VaryLine* const line)
{
    const VaryReason reason = vary_unroll(line, line->bar);
    return reason ? reason : vary_keep(line, in_first_half);
}
