// SPDX-License-Identifier: ISC
#include "vary_move.h"

#include "../written/even.h"

static VaryReason move(VaryLine* const line, const int64_t ticks)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        kick->tick = floor_mod(kick->tick + ticks, line->cycle);
    }
    vary_order(line);
    return VARY_NONE;
}

VaryReason vary_move_earlier(VaryLine* const line)
{
    return move(line, -line->step);
}

VaryReason vary_move_later(VaryLine* const line)
{
    return move(line, line->step);
}

VaryReason vary_move_half(VaryLine* const line)
{
    return move(line, line->beat / 2);
}

VaryReason vary_move_beat(VaryLine* const line)
{
    return move(line, line->beat);
}

VaryReason vary_move_round(VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        kick->tick = floor_mod(-kick->tick, line->cycle);
    }
    vary_order(line);
    return VARY_NONE;
}

/* Whether the answer to each bar's first half is what stands in its second half as it is. */
static bool answers_itself(const VaryLine* const line)
{
    const int64_t half = vary_half(line);
    uint32_t answered = 0;
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        const Stroke kick = line->kicks.strokes[i];
        const int64_t in_bar = kick.tick % line->bar;
        const int64_t to = kick.tick + line->bar - half - in_bar + floor_mod(-in_bar, half);
        const uint32_t there = in_bar < half ? vary_find(line, to) : i;
        if (there == line->kicks.count || line->kicks.strokes[there].level != kick.level ||
            line->kicks.strokes[there].limb != kick.limb) {
            return false;
        }
        answered += in_bar < half ? 1 : 0;
        answered -= in_bar >= line->bar - half ? 1 : 0;
    }
    return !answered; /* none there that answers nothing */
}

/* Each bar's second half by the other foot. */
static void swap_answers(VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        if (kick->tick % line->bar >= line->bar - vary_half(line)) {
            kick->limb = (uint8_t)(RIGHT_FOOT + LEFT_FOOT - kick->limb);
        }
    }
    line->set = true;
}

static bool in_question(const VaryLine* const line, const Stroke stroke)
{
    return stroke.tick % line->bar < line->bar - vary_half(line);
}

VaryReason vary_move_answer(VaryLine* const line)
{
    VaryStrokes* const kicks = &line->kicks;
    const int64_t half = vary_half(line);
    VaryReason reason = vary_unroll(line, line->bar);
    if (!reason && !line->one_foot && answers_itself(line)) {
        swap_answers(line);
        return VARY_NONE;
    }
    reason = reason ? reason : vary_keep(line, in_question);
    const uint32_t count = kicks->count;
    for (uint32_t i = 0; i < count && !reason; ++i) {
        Stroke stroke = kicks->strokes[i];
        const int64_t in_bar = stroke.tick % line->bar;
        if (in_bar >= half) {
            continue; /* the longer half's end has no answer */
        }
        if (kicks->count == FIGURE_STROKES_MAX) {
            reason = VARY_TOO_MANY;
            break;
        }
        stroke.tick += line->bar - half - in_bar + floor_mod(-in_bar, half);
        kicks->strokes[kicks->count++] = stroke;
    }
    vary_order(line);
    return reason;
}

VaryReason vary_move_slow(VaryLine* const line)
{
    if (2 * line->cycle > VARY_BARS_MAX * line->bar) {
        return VARY_TOO_LONG;
    }
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        line->kicks.strokes[i].tick *= 2;
    }
    line->cycle *= 2;
    return VARY_NONE;
}

VaryReason vary_move_fast(VaryLine* const line)
{
    const VaryReason reason =
        line->rolls && line->cycle % 2 == 0 ? VARY_NONE : vary_repeat(line, 2);
    for (uint32_t i = 0; i < line->kicks.count && !reason; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        if (kick->tick % 2 || vary_gap(line, i) / 2 < VARY_CLOSEST) {
            return VARY_TOO_FINE;
        }
    }
    for (uint32_t i = 0; i < line->kicks.count && !reason; ++i) {
        line->kicks.strokes[i].tick /= 2;
    }
    line->cycle /= 2;
    return reason;
}

VaryReason vary_move_even(VaryLine* const line)
{
    bool struck[EVEN_SPREAD_MAX];
    vary_anew(line);
    VaryStrokes* const kicks = &line->kicks;
    const int64_t steps = line->cycle / line->step;
    if (steps > EVEN_SPREAD_MAX || kicks->count > steps) {
        return steps > EVEN_SPREAD_MAX ? VARY_TOO_LONG : VARY_NO_ROOM;
    }
    even_spread(kicks->count, (uint32_t)steps, struck);
    uint32_t next = 0;
    for (int64_t i = 0; i < steps; ++i) {
        if (struck[i]) {
            kicks->strokes[next].tick = i * line->step;
            kicks->strokes[next++].bends = vary_bends(line->step);
        }
    }
    return VARY_NONE;
}
