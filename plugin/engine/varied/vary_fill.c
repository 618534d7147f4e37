// SPDX-License-Identifier: ISC
#include "vary_fill.h"

/* From one kick of the source on, `apart` ticks from each other, while `room` is left before
   the next. */
static VaryReason fill(VaryLine* const line, const Stroke kick, const int64_t gap,
                       const int64_t apart, const int64_t room)
{
    VaryReason reason = VARY_NONE;
    for (int64_t at = apart; gap - at >= room && !reason; at += apart) {
        reason = vary_add(line, kick.tick + at, LEVEL_NORMAL, vary_bends(line->step));
    }
    return reason;
}

VaryReason vary_fill_gaps(VaryLine* const line)
{
    const uint32_t before = line->kicks.count;
    VaryReason reason = VARY_NONE;
    for (uint32_t i = 0; i < line->kicks.count && !reason; ++i) {
        const Stroke kick = line->kicks.strokes[i];
        reason = fill(line, kick, vary_gap(line, i), line->step, line->step);
    }
    return !reason && line->kicks.count == before ? VARY_NO_GAPS : reason;
}

/* Ticks after which a second stroke comes; 0: there is no room for one. */
typedef int64_t Second(const VaryLine* line, int64_t gap);

static VaryReason add_seconds(VaryLine* const line, Second* const second, const uint8_t level)
{
    const uint32_t before = line->kicks.count;
    VaryReason reason = VARY_NONE;
    for (uint32_t i = 0; i < line->kicks.count && !reason; ++i) {
        const Stroke kick = line->kicks.strokes[i];
        const int64_t gap = vary_gap(line, i);
        const int64_t after = second(line, gap);
        if (after) {
            const uint32_t count = line->kicks.count;
            const int64_t apart = after < gap - after ? after : gap - after;
            reason = vary_add(line, kick.tick + after, level, vary_bends(apart));
            i += line->kicks.count - count; /* not of the new one; before it if it went round */
        }
    }
    return !reason && line->kicks.count == before ? VARY_NO_ROOM : reason;
}

static int64_t half_a_step(const VaryLine* const line, const int64_t gap)
{
    const int64_t step = gap < line->step ? gap : line->step;
    return step / 2;
}

VaryReason vary_fill_doubled(VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        const int64_t half = half_a_step(line, vary_gap(line, i));
        if (half < VARY_CLOSEST) {
            return VARY_TOO_FINE;
        }
    }
    return add_seconds(line, half_a_step, LEVEL_NORMAL);
}

static int64_t a_step_if_three(const VaryLine* const line, const int64_t gap)
{
    return gap >= 3 * line->step ? line->step : 0;
}

VaryReason vary_fill_pairs(VaryLine* const line)
{
    return add_seconds(line, a_step_if_three, LEVEL_NORMAL);
}

static int64_t before_the_next(const VaryLine* const line, const int64_t gap)
{
    const int64_t sixteenth = TICKS_PER_QUARTER / 4;
    const int64_t push = line->step < sixteenth ? line->step : sixteenth;
    return gap >= 3 * push ? gap - push : 0;
}

VaryReason vary_fill_pickups(VaryLine* const line)
{
    return add_seconds(line, before_the_next, LEVEL_NORMAL);
}

/* ---- Hertas */

/* The first kick of even spacing, or 0 if all are. */
static uint32_t even_begin(const VaryLine* const line)
{
    for (uint32_t i = 1; i < line->kicks.count; ++i) {
        if (vary_gap(line, i) != vary_gap(line, i - 1)) {
            return i;
        }
    }
    return 0;
}

static bool all_even(const VaryLine* const line)
{
    return !even_begin(line) && vary_gap(line, 0) == vary_gap(line, line->kicks.count - 1);
}

/* Where doubles go, found before any is added. */
typedef struct {
    uint32_t count;
    bool too_fine;
    int64_t ticks[FIGURE_STROKES_MAX / 3 + 1];
    bool bends[FIGURE_STROKES_MAX / 3 + 1];
} Doubles;

/* Whether a kick is the first of three that are as far apart, at most eighths, and that no
   other comes closer to than they are to each other. */
static bool begins_three(const VaryLine* const line, const uint32_t first)
{
    const uint32_t count = line->kicks.count;
    const int64_t gap = vary_gap(line, first);
    return gap <= TICKS_PER_QUARTER / 2 && vary_gap(line, (first + 1) % count) == gap &&
           vary_gap(line, (first + 2) % count) >= gap &&
           vary_gap(line, (first + count - 1) % count) >= gap;
}

static void find_threes(const VaryLine* const line, Doubles* const doubles)
{
    const uint32_t count = line->kicks.count;
    const uint32_t begin = even_begin(line);
    for (uint32_t i = 0; count > 1 && i + 2 <= count;) {
        const uint32_t first = (begin + i) % count;
        const int64_t half = vary_gap(line, first) / 2;
        const bool three = begins_three(line, first);
        const bool taken = three && half >= VARY_CLOSEST;
        if (taken) {
            doubles->ticks[doubles->count] = line->kicks.strokes[first].tick + half;
            doubles->bends[doubles->count++] = vary_bends(half);
        }
        doubles->too_fine |= three && !taken;
        i += taken ? 3 : 1;
    }
}

/* Eighths are no run in which feet alternate by themselves: in a line of nothing else each of its
   hertas is R L R L all the same. */
static void stick_eighths(VaryLine* const line, const int64_t first)
{
    static const int64_t sixteenths[] = {0, 1, 2, 4};
    for (int i = 0; i < 4; ++i) {
        const int64_t tick = first + sixteenths[i] * (TICKS_PER_QUARTER / 4);
        const uint32_t kick = vary_find(line, floor_mod(tick, line->cycle));
        line->kicks.strokes[kick].limb = i % 2 ? line->other : line->lead;
    }
}

VaryReason vary_fill_hertas(VaryLine* const line)
{
    Doubles doubles = {.count = 0};
    const bool eighths = all_even(line) && vary_gap(line, 0) == TICKS_PER_QUARTER / 2;
    const bool uneven = all_even(line) && line->kicks.count % 3;
    VaryReason reason = uneven ? vary_repeat(line, 3) : VARY_NONE;
    if (!reason) {
        find_threes(line, &doubles);
    }
    for (uint32_t i = 0; i < doubles.count && !reason; ++i) {
        reason = vary_add(line, doubles.ticks[i], LEVEL_NORMAL, doubles.bends[i]);
    }
    for (uint32_t i = 0; i < doubles.count && !reason && eighths; ++i) {
        stick_eighths(line, doubles.ticks[i] - TICKS_PER_QUARTER / 4);
    }
    return reason || doubles.count ? reason : doubles.too_fine ? VARY_TOO_FINE : VARY_NO_RUN;
}
