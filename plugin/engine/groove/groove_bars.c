// SPDX-License-Identifier: ISC
/* What bars are made of and where figures meet: the second half of groove.h. */
#include "fill.h"
#include "groove.h"

#include <stddef.h>

static const uint32_t most_realign_bars = 9999;
static const uint32_t most_meet_bars = 99; /* looked at one by one */

/* The letter's figure, relaid. */
typedef struct {
    const Figure* figure; /* NULL: those limbs rest */
    Regrid regrid;
} Laid;

static Laid laid_in_bar(const Selection* const selection, const Bar* const bar, const LimbPair pair)
{
    const Part part = bar_part(selection, bar);
    return pair == PAIR_HANDS ? (Laid){part.hands, selection->hands_regrid}
                              : (Laid){part.feet, selection->feet_regrid};
}

/* Whether the fill plays them too. */
static bool takes(const Fill* const fill, const LimbPair pair)
{
    return fill->figure && (pair == PAIR_HANDS || figure_has_feet(fill->figure));
}

StepGrid groove_feet_grid(const Selection* const selection, const Meter meter, const int64_t tick)
{
    const Bar bar = bar_at(selection, meter, floor_div(tick, meter_bar_ticks(meter)));
    const int64_t next = bar.begin + bar.ticks;
    const StepGrid beats = {bar.begin, meter_beat_ticks(meter), next};
    if (!selection->groove) {
        return beats;
    }
    const Fill fill = fill_in_bar(selection, &bar);
    const bool is_taken = takes(&fill, PAIR_FEET);
    const bool is_fill = is_taken && fill.begin <= tick;
    const Laid laid = is_fill ? (Laid){fill.figure, {0}} : laid_in_bar(selection, &bar, PAIR_FEET);
    StepGrid grid = {bar.begin, beats.step, is_taken && !is_fill ? fill.begin : next};
    if (!laid.figure) {
        return grid;
    }
    const Layout layout = layout_make(laid.figure, laid.regrid);
    const Tiling tiling = bar_tiling(&bar, &layout, selection->realign);
    if (layout.regridded || layout.step >= TICKS_PER_QUARTER / 8) {
        grid.origin = is_fill ? fill.end : tiling.origin - tiling.from;
        grid.step = layout.step;
    }
    return grid;
}

/* The least common multiple, or 0 where it is over the most bars told. */
static int64_t common_bars(const int64_t a, const int64_t b)
{
    const int64_t bars = common_multiple(a, b);
    return bars <= most_realign_bars ? bars : 0;
}

/* Bars after which a figure is back at its start on a bar line, rolling from
   bar 0 on. */
static int64_t bars_of_figure(const Figure* const figure, const Regrid regrid,
                              const int64_t bar_ticks)
{
    if (!figure) {
        return 1;
    }
    const Layout layout = layout_make(figure, regrid);
    const int64_t cycle = layout_ticks(&layout);
    const int64_t bars = cycle / common_divisor(cycle, bar_ticks); /* lcm / bar */
    return layout.bars ? 1 : bars <= most_realign_bars ? bars : 0;
}

uint32_t groove_realign_bars(const Selection* const selection, const Meter meter)
{
    int64_t bars = selection->loop_bar ? 1 : selection->phrase_bars;
    if (selection->loop_bar || !selection->groove || selection->realign != REALIGN_NEVER) {
        return (uint32_t)bars;
    }
    for (uint32_t i = 0; i < selection->phrase_bars; ++i) {
        const Bar bar = bar_at(selection, meter, i);
        const Part part = bar_part(selection, &bar);
        bars = common_bars(bars, bars_of_figure(part.hands, selection->hands_regrid, bar.ticks));
        bars = common_bars(bars, bars_of_figure(part.feet, selection->feet_regrid, bar.ticks));
    }
    return (uint32_t)bars;
}

static int64_t step_in(const Laid laid)
{
    return laid.figure ? layout_make(laid.figure, laid.regrid).step : 0;
}

BarParts groove_bar(const Selection* const selection, const Meter meter, const int64_t index)
{
    const Bar bar = bar_at(selection, meter, index);
    const Fill fill = fill_in_bar(selection, &bar);
    const Laid hands = laid_in_bar(selection, &bar, PAIR_HANDS);
    const Laid feet = laid_in_bar(selection, &bar, PAIR_FEET);
    BarParts parts = {
        .in_phrase = (uint32_t)bar.in_phrase,
        .part = selection->groove->form[bar.in_phrase % selection->groove->form_bars],
        .hands = hands.figure,
        .feet = feet.figure,
        .varied = bar_feet(selection, &bar),
        .hands_step = step_in(hands),
        .feet_step = step_in(feet),
        .fill = fill.figure,
    };
    if (fill.figure) {
        const int64_t from = fill.begin > bar.begin ? fill.begin : bar.begin;
        parts.fill_begin = from - bar.begin;
        parts.fill_end = fill.end - bar.begin;
    }
    return parts;
}

/* Starts of a figure in [begin, end) of the bar, behind those that are told already. */
typedef struct {
    int64_t bar_begin;
    uint32_t count;
    uint32_t room;
    int32_t* ticks;
} Turns;

static void add_turns(Turns* const turns, const Tiling tiling, const int64_t begin,
                      const int64_t end)
{
    const int64_t late = floor_mod(begin - tiling.origin, tiling.period);
    int64_t tick = late ? begin + tiling.period - late : begin;
    for (; !tiling.from && tick < end && turns->count < turns->room; tick += tiling.period) {
        turns->ticks[turns->count++] = (int32_t)(tick - turns->bar_begin);
    }
}

uint32_t groove_turns(const Selection* const selection, const Meter meter, const int64_t index,
                      const LimbPair pair, int32_t* const ticks, const uint32_t room)
{
    const Bar bar = bar_at(selection, meter, index);
    const Fill fill = fill_in_bar(selection, &bar);
    const Laid laid = laid_in_bar(selection, &bar, pair);
    const int64_t end = bar.begin + bar.ticks;
    const bool is_taken = takes(&fill, pair);
    const int64_t from = is_taken && fill.begin > bar.begin ? fill.begin : bar.begin;
    Turns turns = {bar.begin, 0, room, ticks};
    if (laid.figure) {
        const Layout layout = layout_make(laid.figure, laid.regrid);
        add_turns(&turns, bar_tiling(&bar, &layout, selection->realign), bar.begin,
                  is_taken ? from : end);
    }
    if (is_taken) {
        const int64_t cycle = fill.figure->cycle_ticks;
        add_turns(&turns, (Tiling){fill.end - cycle, cycle, 0}, from, end);
    }
    return turns.count;
}

uint32_t groove_feet_meet(const Selection* const selection, const Meter meter, const int64_t index)
{
    int32_t first = 0;
    for (uint32_t ahead = 1; ahead <= most_meet_bars; ++ahead) {
        if (groove_turns(selection, meter, index + ahead, PAIR_FEET, &first, 1) && !first) {
            return ahead;
        }
    }
    return 0;
}

uint32_t groove_all_meet(const Selection* const selection, const Meter meter, const int64_t index)
{
    const int64_t all = groove_realign_bars(selection, meter);
    return all ? (uint32_t)(all - index % all) : 0;
}

FigureCopy groove_copy(const Figure* const figure, const FigureBar at, const int64_t tick)
{
    const Layout layout = layout_make(figure, (Regrid){0});
    const Bar bar = bar_in_phrase(at.meter, at.bar, at.in_phrase, at.loops);
    const Tiling tiling = bar_tiling(&bar, &layout, at.realign);
    const int64_t late = floor_mod(bar.begin + tick - tiling.origin, tiling.period);
    return (FigureCopy){tick - late, tiling.from, tiling.period};
}
