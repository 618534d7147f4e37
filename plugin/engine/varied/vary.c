// SPDX-License-Identifier: ISC
#include "vary.h"

#include <stddef.h>

/* ---- Laid out */

/* Strokes of a figure from one index to before another, put so many ticks later, but for those
   at `end` and beyond. */
static VaryReason lay_strokes(const Figure* const figure, const uint32_t from, const uint32_t to,
                              const int64_t later, const int64_t end, VaryStrokes* const notes)
{
    for (uint32_t i = from; i < to && figure->strokes[i].tick + later < end; ++i) {
        if (notes->count == FIGURE_STROKES_MAX) {
            return VARY_TOO_MANY;
        }
        notes->strokes[notes->count] = figure->strokes[i];
        notes->strokes[notes->count++].tick += later;
    }
    return VARY_NONE;
}

/* A bar of a figure, again and again, as long as the meter's bar lasts. */
static VaryReason lay_bar(const Figure* const figure, const uint32_t bar, const int64_t ticks,
                          VaryStrokes* const notes)
{
    const int64_t written = figure->cycle_ticks / figure->bars;
    const uint32_t from = figure_first_from(figure, bar * written);
    const uint32_t to = figure_first_from(figure, (bar + 1) * written);
    VaryReason reason = VARY_NONE;
    for (int64_t turn = 0; from < to && turn < ticks && !reason; turn += written) {
        const int64_t later = bar * (ticks - written) + turn;
        reason = lay_strokes(figure, from, to, later, (bar + 1) * ticks, notes);
    }
    return reason;
}

VaryReason vary_lay(const Figure* const figure, const Meter meter, VaryStrokes* const notes,
                    int64_t* const cycle)
{
    VaryReason reason = VARY_NONE;
    notes->count = 0;
    if (!figure->bars) {
        *cycle = figure->cycle_ticks;
        for (; notes->count < figure->stroke_count; ++notes->count) {
            notes->strokes[notes->count] = figure->strokes[notes->count];
        }
        return VARY_NONE;
    }
    *cycle = figure->bars * meter_bar_ticks(meter);
    for (uint32_t bar = 0; bar < figure->bars && !reason; ++bar) {
        reason = lay_bar(figure, bar, meter_bar_ticks(meter), notes);
    }
    return reason;
}

/* ---- A line of what was laid */

bool vary_is_kick(const Stroke stroke)
{
    return limb_is_foot(stroke.limb) &&
           (stroke.voice == VOICE_KICK || stroke.voice == VOICE_KICK_LEFT);
}

static void part(const VaryStrokes* const notes, VaryLine* const line)
{
    for (uint32_t i = 0; i < notes->count; ++i) {
        const Stroke stroke = notes->strokes[i];
        if (vary_is_kick(stroke)) {
            line->kicks.strokes[line->kicks.count++] = stroke;
        } else {
            ++line->stands;
        }
    }
}

/* Three eighths of a compound meter are a beat. */
static int64_t beat_of(const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    const bool in_threes = meter.beat_unit >= 8 && bar % (3 * meter_beat_ticks(meter)) == 0;
    const int64_t beat = in_threes ? 3 * meter_beat_ticks(meter) : TICKS_PER_QUARTER;
    return beat < bar ? beat : bar;
}

/* What all kicks stand on. */
static int64_t kicks_step(const VaryLine* const line)
{
    int64_t step = line->cycle;
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        step = common_divisor(step, line->kicks.strokes[i].tick);
    }
    return step;
}

/* The largest part of a quarter, from an eighth down, that goes into what is longer. */
static int64_t part_of(const int64_t step)
{
    for (int64_t parts = 2; parts <= 16; ++parts) {
        if (TICKS_PER_QUARTER % parts == 0 && step % (TICKS_PER_QUARTER / parts) == 0) {
            return TICKS_PER_QUARTER / parts;
        }
    }
    return step;
}

/* As it is written, between eighths and sixteenths.  Else what all kicks stand on; if that is
   too fine to be felt, since two grids meet in it: sixteenths, triplets or sextuplets. */
static int64_t step_of(const VaryLine* const line, const int64_t written)
{
    static const int64_t usual[] = {4, 3, 6, 8};
    if (written <= TICKS_PER_QUARTER / 2 && written >= TICKS_PER_QUARTER / 4) {
        return written;
    }
    const int64_t step = kicks_step(line);
    for (uint32_t i = 0; step < TICKS_PER_QUARTER / 8 && i < sizeof usual / sizeof *usual; ++i) {
        if (line->cycle % (TICKS_PER_QUARTER / usual[i]) == 0) {
            return TICKS_PER_QUARTER / usual[i];
        }
    }
    return step > TICKS_PER_QUARTER / 2 ? part_of(step) : step;
}

static void note_feet(const VaryStrokes* const notes, VaryLine* const line)
{
    const Stroke* const kicks = line->kicks.strokes;
    bool closes_hat = false;
    bool plays[LIMB_COUNT] = {false};
    line->lead = kicks[0].limb;
    for (uint32_t i = 0; i < notes->count; ++i) {
        const Stroke stroke = notes->strokes[i];
        const bool is_hat = limb_is_foot(stroke.limb) && !vary_is_kick(stroke);
        closes_hat |= is_hat;
        line->lead = is_hat ? (uint8_t)(RIGHT_FOOT + LEFT_FOOT - stroke.limb) : line->lead;
    }
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        plays[kicks[i].limb] = true;
        line->voices[kicks[i].limb] = kicks[i].voice;
    }
    line->other = closes_hat ? line->lead : (uint8_t)(RIGHT_FOOT + LEFT_FOOT - line->lead);
    line->one_foot = closes_hat || !(plays[RIGHT_FOOT] && plays[LEFT_FOOT]);
    for (uint32_t i = 0; closes_hat && i < line->kicks.count; ++i) {
        line->kicks.strokes[i].limb = line->lead;
    }
}

VaryReason vary_line(const Figure* const figure, const Meter meter, const VaryStrokes* const notes,
                     const int64_t cycle, VaryLine* const line)
{
    line->kicks.count = line->stands = 0;
    line->cycle = line->laid_cycle = cycle;
    line->bar = meter_bar_ticks(meter);
    line->beat = beat_of(meter);
    line->rolls = !figure->bars;
    line->set = false;
    line->voices[RIGHT_FOOT] = line->voices[LEFT_FOOT] = VOICE_KICK;
    part(notes, line);
    if (!line->kicks.count) {
        return VARY_NO_KICKS;
    }
    note_feet(notes, line);
    vary_order(line);
    line->step = step_of(line, figure->step_ticks);
    return VARY_NONE;
}

/* ---- What operations do to it */

VaryReason vary_repeat(VaryLine* const line, const int64_t times)
{
    VaryStrokes* const kicks = &line->kicks;
    const uint32_t count = kicks->count;
    if (times * line->cycle > VARY_BARS_MAX * line->bar && times > 1) {
        return VARY_TOO_LONG;
    }
    if (times * count > FIGURE_STROKES_MAX) {
        return VARY_TOO_MANY;
    }
    for (; kicks->count < times * count; ++kicks->count) {
        Stroke stroke = kicks->strokes[kicks->count - count];
        stroke.tick += line->cycle;
        kicks->strokes[kicks->count] = stroke;
    }
    line->cycle *= times;
    return VARY_NONE;
}

VaryReason vary_unroll(VaryLine* const line, const int64_t ticks)
{
    return vary_repeat(line, common_multiple(line->cycle, ticks) / line->cycle);
}

int64_t vary_in_bar(const VaryLine* const line, const int64_t tick)
{
    return line->cycle % line->bar ? tick : tick % line->bar;
}

int64_t vary_half(const VaryLine* const line)
{
    const int64_t units[] = {line->beat, TICKS_PER_QUARTER / 2, TICKS_PER_QUARTER / 4};
    for (uint32_t i = 0; i < sizeof units / sizeof *units; ++i) {
        if (line->bar % units[i] == 0 && line->bar >= 2 * units[i]) {
            return line->bar / 2 / units[i] * units[i];
        }
    }
    return line->bar / 2;
}

/* Index of the first kick at or after the tick. */
static uint32_t first_from(const VaryLine* const line, const int64_t tick)
{
    uint32_t low = 0;
    uint32_t high = line->kicks.count;
    while (low < high) {
        const uint32_t middle = low + (high - low) / 2;
        const bool before = line->kicks.strokes[middle].tick < tick;
        low = before ? middle + 1 : low;
        high = before ? high : middle;
    }
    return low;
}

uint32_t vary_find(const VaryLine* const line, const int64_t tick)
{
    const uint32_t index = first_from(line, tick);
    const bool there = index < line->kicks.count && line->kicks.strokes[index].tick == tick;
    return there ? index : line->kicks.count;
}

int64_t vary_gap(const VaryLine* const line, const uint32_t index)
{
    const int64_t tick = line->kicks.strokes[index].tick;
    const uint32_t next = first_from(line, tick + 1);
    return next < line->kicks.count ? line->kicks.strokes[next].tick - tick
                                    : line->kicks.strokes[0].tick + line->cycle - tick;
}

VaryReason vary_add(VaryLine* const line, const int64_t tick, const uint8_t level, const bool bends)
{
    VaryStrokes* const kicks = &line->kicks;
    const int64_t at = floor_mod(tick, line->cycle);
    const uint32_t there = first_from(line, at);
    if (there < kicks->count && kicks->strokes[there].tick == at) {
        Stroke* const stroke = &kicks->strokes[there];
        stroke->level = level > stroke->level ? level : stroke->level;
        return VARY_NONE;
    }
    if (kicks->count == FIGURE_STROKES_MAX) {
        return VARY_TOO_MANY;
    }
    for (uint32_t i = kicks->count++; i > there; --i) {
        kicks->strokes[i] = kicks->strokes[i - 1];
    }
    kicks->strokes[there] = (Stroke){at, VARY_NO_FOOT, VOICE_KICK, level, bends};
    return VARY_NONE;
}

void vary_anew(VaryLine* const line)
{
    for (uint32_t i = 0; i < line->kicks.count; ++i) {
        line->kicks.strokes[i].limb = VARY_NO_FOOT;
    }
    vary_order(line);
}

VaryReason vary_keep(VaryLine* const line, VaryKeeps* const keeps)
{
    VaryStrokes* const kicks = &line->kicks;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        if (keeps(line, kicks->strokes[i])) {
            kicks->strokes[kept++] = kicks->strokes[i];
        }
    }
    kicks->count = kept;
    return kept ? VARY_NONE : VARY_NOTHING_LEFT;
}

void vary_clear(VaryLine* const line, const int64_t begin, const int64_t end)
{
    VaryStrokes* const kicks = &line->kicks;
    const uint32_t from = first_from(line, begin);
    const uint32_t to = first_from(line, end);
    for (uint32_t i = to; from < to && i < kicks->count; ++i) {
        kicks->strokes[from + i - to] = kicks->strokes[i];
    }
    kicks->count -= to - from;
}

void vary_order(VaryLine* const line)
{
    VaryStrokes* const kicks = &line->kicks;
    uint32_t kept = 0;
    strokes_sort(kicks->strokes, kicks->count);
    for (uint32_t i = 0; i < kicks->count; ++i) {
        const Stroke stroke = kicks->strokes[i];
        Stroke* const last = kept ? &kicks->strokes[kept - 1] : NULL;
        if (last && last->tick == stroke.tick && last->limb == stroke.limb) {
            last->level = stroke.level > last->level ? stroke.level : last->level;
        } else {
            kicks->strokes[kept++] = stroke;
        }
    }
    kicks->count = kept;
}

bool vary_bends(const int64_t step)
{
    int64_t halves = TICKS_PER_QUARTER;
    while (halves > step && halves % 2 == 0) {
        halves /= 2;
    }
    return step % TICKS_PER_QUARTER == 0 || halves == step;
}
