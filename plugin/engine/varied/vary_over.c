// SPDX-License-Identifier: ISC
#include "vary_over.h"

/* ---- Groups over the bar line */

/* The strokes of so many steps from the first on, put at tick 0; round the cycle if need be. */
static VaryReason take_group(VaryLine* const line, const int64_t ticks)
{
    VaryStrokes* const kicks = &line->kicks;
    const int64_t first = kicks->strokes[0].tick;
    const VaryReason reason = vary_repeat(line, (first + ticks + line->cycle - 1) / line->cycle);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < kicks->count && kicks->strokes[i].tick < first + ticks; ++i) {
        kicks->strokes[kept] = kicks->strokes[i];
        kicks->strokes[kept++].tick -= first;
    }
    kicks->count = kept;
    line->cycle = ticks;
    return reason;
}

static VaryReason group(VaryLine* const line, const int64_t steps)
{
    vary_anew(line);
    const VaryReason reason = take_group(line, steps * line->step);
    VaryStrokes* const kicks = &line->kicks;
    kicks->count -= kicks->count >= steps;
    kicks->strokes[0].level = LEVEL_ACCENT;
    line->rolls = true;
    return reason;
}

VaryReason vary_over_threes(VaryLine* const line)
{
    return group(line, 3);
}

VaryReason vary_over_fives(VaryLine* const line)
{
    return group(line, 5);
}

VaryReason vary_over_sevens(VaryLine* const line)
{
    return group(line, 7);
}

/* ---- Other strokes in each beat */

/* So that each bar, or else the line, has whole beats from its start on. */
static VaryReason lay_over_beats(VaryLine* const line, const int64_t beat)
{
    return line->rolls ? vary_unroll(line, beat) : VARY_NONE;
}

/* Ticks from the bar's start in a line of bars; in one that rolls from its own. */
static int64_t in_part(const VaryLine* const line, const int64_t tick)
{
    return line->rolls ? tick : tick % line->bar;
}

static int64_t part_ticks(const VaryLine* const line)
{
    return line->rolls ? line->cycle : line->bar;
}

VaryReason vary_over_triplets(VaryLine* const line)
{
    const int64_t third = line->beat / 3;
    const VaryReason reason = line->beat % 3 ? VARY_NO_ROOM : lay_over_beats(line, line->beat);
    for (uint32_t i = 0; i < line->kicks.count && !reason; ++i) {
        Stroke* const kick = &line->kicks.strokes[i];
        const int64_t at = in_part(line, kick->tick);
        const int64_t in_beat = at % line->beat;
        int64_t thirds = (in_beat * 3 + line->beat / 2) / line->beat;
        thirds = thirds > 2 ? 2 : thirds;
        thirds -= thirds && at - in_beat + thirds * third >= part_ticks(line);
        kick->tick += thirds * third - in_beat;
        kick->bends = kick->bends && vary_bends(third);
    }
    vary_anew(line);
    return reason;
}

/* Adds what stands at so many sixteenths of a beat while it lies in the bar. */
static VaryReason put(VaryLine* const line, const int64_t beat, const int64_t end,
                      const uint8_t* const sixteenths, const uint8_t level)
{
    const uint8_t plain = level > LEVEL_NORMAL ? LEVEL_NORMAL : level;
    VaryReason reason = VARY_NONE;
    for (int i = 0; i < 3 && !reason; ++i) {
        const int64_t tick = beat + sixteenths[i] * (TICKS_PER_QUARTER / 4);
        if (tick < end) {
            reason = vary_add(line, tick, i ? plain : level, true);
        }
    }
    return reason;
}

/* The strongest level of kicks in a span, LEVEL_REST if there are none. */
static uint8_t level_in(const VaryStrokes* const kicks, const int64_t begin, const int64_t end)
{
    uint8_t level = LEVEL_REST;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        const Stroke kick = kicks->strokes[i];
        level = kick.tick >= begin && kick.tick < end && kick.level > level ? kick.level : level;
    }
    return level;
}

/* Beats with strokes, as their levels, before these are taken away. */
typedef struct {
    uint32_t count;
    int64_t begins[FIGURE_STROKES_MAX];
    int64_t ends[FIGURE_STROKES_MAX]; /* of the bar */
    uint8_t levels[FIGURE_STROKES_MAX];
} Beats;

static void find_beats(const VaryLine* const line, Beats* const beats)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        const int64_t tick = line->kicks.strokes[i].tick;
        const int64_t in_beat = in_part(line, tick) % TICKS_PER_QUARTER;
        const int64_t begin = tick - in_beat;
        const int64_t bar_end = begin - in_part(line, begin) + part_ticks(line);
        if (beats->count && beats->begins[beats->count - 1] == begin) {
            continue;
        }
        const int64_t end = begin + TICKS_PER_QUARTER;
        beats->begins[beats->count] = begin;
        beats->ends[beats->count] = bar_end;
        beats->levels[beats->count++] =
            level_in(&line->kicks, begin, end < bar_end ? end : bar_end);
    }
}

static VaryReason in_each_beat(VaryLine* const line, const uint8_t* const sixteenths)
{
    Beats beats = {.count = 0};
    VaryReason reason = lay_over_beats(line, TICKS_PER_QUARTER);
    find_beats(line, &beats);
    line->kicks.count = reason ? line->kicks.count : 0;
    for (uint32_t i = 0; i < beats.count && !reason; ++i) {
        reason = put(line, beats.begins[i], beats.ends[i], sixteenths, beats.levels[i]);
    }
    return reason;
}

VaryReason vary_over_gallops(VaryLine* const line)
{
    static const uint8_t gallop[] = {0, 2, 3};
    return in_each_beat(line, gallop);
}

VaryReason vary_over_reverse(VaryLine* const line)
{
    static const uint8_t reverse[] = {0, 1, 2};
    return in_each_beat(line, reverse);
}

/* ---- The end of the bar */

/* Instead of what stands in each bar's last `ticks` so many strokes; the first keeps its
   level. */
static VaryReason end_with(VaryLine* const line, const int64_t ticks, const int64_t strokes)
{
    VaryReason reason = ticks > line->bar ? VARY_NO_ROOM : vary_unroll(line, line->bar);
    const VaryStrokes* const kicks = &line->kicks;
    for (int64_t end = line->bar; end <= line->cycle && !reason; end += line->bar) {
        const int64_t begin = end - ticks;
        const uint32_t first = vary_find(line, begin);
        const uint8_t level = first < kicks->count ? kicks->strokes[first].level : LEVEL_NORMAL;
        vary_clear(line, begin, end);
        for (int64_t i = 0; i < strokes && !reason; ++i) {
            const int64_t tick = begin + i * ticks / strokes;
            reason = vary_add(line, tick, i ? LEVEL_NORMAL : level, vary_bends(ticks / strokes));
        }
    }
    return reason;
}

/* Whether each bar's last quarter has four kicks or more as it is. */
static bool runs_out(const VaryLine* const line)
{
    for (int64_t end = line->bar; end <= line->cycle; end += line->bar) {
        uint32_t kicks = 0;
        for (uint32_t i = 0; i < line->kicks.count; ++i) {
            const int64_t tick = line->kicks.strokes[i].tick;
            const bool again = i && line->kicks.strokes[i - 1].tick == tick;
            kicks += !again && tick < end && tick >= end - TICKS_PER_QUARTER;
        }
        if (kicks < 4) {
            return false;
        }
    }
    return true;
}

VaryReason vary_over_burst(VaryLine* const line)
{
    VaryReason reason = vary_unroll(line, line->bar);
    const bool runs = !reason && runs_out(line);
    reason = reason ? reason : end_with(line, TICKS_PER_QUARTER / (runs ? 2 : 1), 4);
    for (int64_t one = 0; one < line->cycle && !reason; one += line->bar) {
        reason = vary_add(line, one, LEVEL_NORMAL, true);
    }
    return reason;
}

VaryReason vary_over_sextuplets(VaryLine* const line)
{
    return end_with(line, line->beat, 6);
}
