// SPDX-License-Identifier: ISC
#include "vary_foot.h"

static const int64_t eighth = TICKS_PER_QUARTER / 2;

static uint32_t next_of(const VaryLine* const line, const uint32_t index)
{
    return (index + 1) % line->kicks.count;
}

/* Ticks to the kick after it in the list, which may be at once. */
static int64_t gap_after(const VaryLine* const line, const uint32_t index)
{
    const uint32_t next = next_of(line, index);
    const int64_t turn = next > index ? 0 : line->cycle;
    return line->kicks.strokes[next].tick + turn - line->kicks.strokes[index].tick;
}

/* Ticks between the closest two kicks of one foot. */
static int64_t closest_of_a_foot(const VaryLine* const line)
{
    const VaryStrokes* const kicks = &line->kicks;
    int64_t closest = line->cycle;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        int64_t gap = gap_after(line, i);
        uint32_t next = next_of(line, i);
        while (kicks->strokes[next].limb != kicks->strokes[i].limb) {
            gap += gap_after(line, next);
            next = next_of(line, next);
        }
        closest = gap < closest ? gap : closest;
    }
    return closest;
}

/* The first kick of a run, or `count` if the run never ends. */
static uint32_t run_begin(const VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        if (gap_after(line, i) >= eighth) {
            return next_of(line, i);
        }
    }
    return line->kicks.count;
}

/* Kicks of the run from here on. */
static uint32_t run_length(const VaryLine* const line, const uint32_t begin)
{
    uint32_t length = 1;
    for (uint32_t i = begin; gap_after(line, i) < eighth && length < line->kicks.count;
         i = next_of(line, i)) {
        ++length;
    }
    return length;
}

/* Kicks of the longest run; those of the cycle if it never ends. */
static uint32_t longest_run(const VaryLine* const line)
{
    const uint32_t count = line->kicks.count;
    const uint32_t begin = run_begin(line);
    uint32_t longest = begin == count ? count : 0;
    for (uint32_t done = 0; begin < count && done < count;) {
        const uint32_t length = run_length(line, (begin + done) % count);
        longest = length > longest ? length : longest;
        done += length;
    }
    return longest;
}

void vary_foot_note(VaryLine* const line)
{
    line->closest = closest_of_a_foot(line);
    line->longest = longest_run(line);
}

/* ---- One run */

static bool same_foot_closer(const VaryLine* const line, const uint32_t begin,
                             const uint32_t length)
{
    const Stroke* const kicks = line->kicks.strokes;
    const uint32_t count = line->kicks.count;
    for (uint32_t i = 0; i < length; ++i) {
        const uint32_t a = (begin + i) % count;
        const uint32_t b = next_of(line, a);
        const int64_t gap = gap_after(line, a);
        if (kicks[a].limb == VARY_NO_FOOT ||
            (kicks[a].limb == kicks[b].limb && gap < eighth && gap < line->closest)) {
            return true;
        }
    }
    return false;
}

static int strength(const VaryLine* const line, const uint32_t index)
{
    const int64_t tick = vary_in_bar(line, line->kicks.strokes[index].tick);
    return tick == 0 ? 3 : tick % line->beat == 0 ? 2 : tick % eighth == 0;
}

/* The first of the strongest, counted from the run's begin. */
static uint32_t strongest(const VaryLine* const line, const uint32_t begin, const uint32_t length)
{
    uint32_t best = 0;
    for (uint32_t i = 1; i < length; ++i) {
        const uint32_t count = line->kicks.count;
        const int here = strength(line, (begin + i) % count);
        best = here > strength(line, (begin + best) % count) ? i : best;
    }
    return best;
}

static void alternate(VaryLine* const line, const uint32_t begin, const uint32_t length)
{
    Stroke* const kicks = line->kicks.strokes;
    const uint32_t count = line->kicks.count;
    const uint32_t anchor = strongest(line, begin, length);
    const uint8_t had = kicks[(begin + anchor) % count].limb;
    const uint8_t one = had == VARY_NO_FOOT ? line->lead : had;
    const uint8_t other = (uint8_t)(RIGHT_FOOT + LEFT_FOOT - one);
    for (uint32_t i = 0; i < length; ++i) {
        kicks[(begin + i) % count].limb = (i + anchor) % 2 ? other : one;
    }
}

/* ---- All of them */

/* Two feet at once are one kick where feet alternate. */
static void join_at_once(VaryLine* const line)
{
    VaryStrokes* const kicks = &line->kicks;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        if (!kept || kicks->strokes[kept - 1].tick != kicks->strokes[i].tick) {
            kicks->strokes[kept++] = kicks->strokes[i];
        } else if (kicks->strokes[i].level > kicks->strokes[kept - 1].level) {
            kicks->strokes[kept - 1].level = kicks->strokes[i].level;
        }
    }
    kicks->count = kept;
}

static bool any_to_give(const VaryLine* const line)
{
    const uint32_t count = line->kicks.count;
    return !line->set && same_foot_closer(line, 0, count);
}

static bool stays_with_one(const VaryLine* const line)
{
    int64_t closest = line->cycle;
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        closest = gap_after(line, i) < closest ? gap_after(line, i) : closest;
    }
    const uint32_t longest = longest_run(line);
    return line->other == line->lead ||
           (line->one_foot && (closest >= line->closest || closest >= eighth) &&
            (longest <= 2 || longest <= line->longest));
}

static void give_runs(VaryLine* const line)
{
    const uint32_t count = line->kicks.count;
    const uint32_t begin = run_begin(line) % count;
    for (uint32_t done = 0; done < count;) {
        const uint32_t at = (begin + done) % count;
        const uint32_t length = run_length(line, at);
        if (same_foot_closer(line, at, length)) {
            alternate(line, at, length);
        }
        done += length;
    }
}

static void give_to_one(VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        line->kicks.strokes[i].limb = line->lead;
    }
}

VaryReason vary_foot_give(VaryLine* const line)
{
    VaryReason reason = VARY_NONE;
    if (any_to_give(line)) {
        join_at_once(line);
        if (stays_with_one(line)) {
            give_to_one(line);
        } else {
            const bool endless = run_begin(line) == line->kicks.count;
            reason = endless && line->kicks.count % 2 ? vary_repeat(line, 2) : VARY_NONE;
            give_runs(line);
        }
    }
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        kick->voice = line->voices[kick->limb];
    }
    return reason;
}
