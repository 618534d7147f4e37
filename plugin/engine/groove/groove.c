// SPDX-License-Identifier: ISC
#include "groove.h"

#include <stddef.h>

static const uint32_t most_realign_bars = 9999;
static const uint32_t most_meet_bars = 99; /* looked at one by one */

/* One bar of the song, and where it stands in the phrase. */
typedef struct {
    int64_t begin;        /* tick of its bar line */
    int64_t ticks;        /* its length */
    int64_t phrase_begin; /* tick of its phrase's first bar line */
    int64_t song_begin;   /* tick of bar 0, where the first phrase begins */
    int64_t in_phrase;    /* 0 is the phrase's first bar */
    bool is_last;
} Bar;

static Bar bar_in_phrase(const int64_t bar, const int64_t bar_ticks, const int64_t in_phrase,
                         const bool loops)
{
    const int64_t phrase_begin = (bar - in_phrase) * bar_ticks;
    return (Bar){.begin = bar * bar_ticks,
                 .ticks = bar_ticks,
                 .phrase_begin = phrase_begin,
                 .song_begin = loops ? phrase_begin : 0,
                 .in_phrase = in_phrase};
}

static Bar bar_at(const Selection* const selection, const int64_t bar, const int64_t bar_ticks)
{
    const int64_t counted = selection->loop_bar ? (int64_t)selection->loop_bar - 1 : bar;
    Bar found = bar_in_phrase(bar, bar_ticks, floor_mod(counted, selection->phrase_bars),
                              selection->loop_bar);
    found.is_last = found.in_phrase == (int64_t)selection->phrase_bars - 1;
    return found;
}

static int64_t rolling_origin(const Realign realign, const Bar bar)
{
    switch (realign) {
    case REALIGN_NEVER:
        return bar.song_begin;
    case REALIGN_PHRASE:
        return bar.phrase_begin;
    case REALIGN_BAR:
        return bar.begin;
    }
    return 0;
}

/* A layout laid end to end: copy m puts its tick `from` at origin + m * period,
   and ends a period later. */
typedef struct {
    int64_t origin;
    int64_t period;
    int64_t from;
} Tiling;

static Tiling tiling_of(const Layout* const layout, const Realign realign, const Bar bar)
{
    const int64_t cycle = layout_ticks(layout);
    if (!layout->bars) {
        return (Tiling){rolling_origin(realign, bar), cycle, 0};
    }
    const int64_t period = cycle / layout->bars;
    return (Tiling){bar.begin, period, bar.in_phrase % layout->bars * period};
}

/* What is played where in one bar. */
typedef struct {
    const Selection* selection;
    Bar bar;
    int64_t begin; /* the span asked for, inside the bar, before it is bent */
    int64_t end;
    bool heard[LIMB_COUNT]; /* by the limb as written: feet may be mirrored */
} BarQuery;

static void add_figure(const BarQuery* const query, const Figure* const figure, const Regrid regrid,
                       StrokeList* const list)
{
    if (!figure) {
        return;
    }
    const Layout layout = layout_make(figure, regrid);
    const Tiling tiling = tiling_of(&layout, query->selection->realign, query->bar);
    const int64_t first = floor_div(query->begin - tiling.origin, tiling.period);
    int64_t copy = tiling.origin + first * tiling.period;
    for (; copy < query->end; copy += tiling.period) {
        const int64_t late = query->begin - copy;
        const int64_t left = query->end - copy;
        layout_strokes(&layout, tiling.from + (late > 0 ? late : 0),
                       tiling.from + (left < tiling.period ? left : tiling.period),
                       copy - tiling.from, query->heard, list);
    }
}

/* The crash takes the place of what the right hand would have played there. */
static void add_crash(const BarQuery* const query, const uint32_t first, StrokeList* const list)
{
    const Bar bar = query->bar;
    if (!query->selection->groove->crash_start || !query->selection->limbs[RIGHT_HAND] ||
        bar.in_phrase != 0 || bar.begin < query->begin || bar.begin >= query->end) {
        return;
    }
    const Stroke crash = {bar.begin, RIGHT_HAND, VOICE_CRASH, LEVEL_ACCENT, false};
    for (uint32_t i = first; i < list->count; ++i) {
        if (list->strokes[i].tick == bar.begin && list->strokes[i].limb == RIGHT_HAND) {
            list->strokes[i] = crash;
            return;
        }
    }
    stroke_list_add(list, crash);
}

static void add_mirrored(BarQuery* const query, const Figure* const figure, const Regrid regrid,
                         StrokeList* const list)
{
    const bool mirror = query->selection->left_foot_leads && figure;
    const uint32_t first = list->count;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        query->heard[mirror ? figure_mirrored(figure, (uint8_t)limb) : limb] =
            query->selection->limbs[limb];
    }
    add_figure(query, figure, regrid, list);
    for (uint32_t i = first; mirror && i < list->count; ++i) {
        list->strokes[i].limb = figure_mirrored(figure, list->strokes[i].limb);
    }
}

static Part part_of_bar(const Selection* const selection, const Bar bar)
{
    const Groove* const groove = selection->groove;
    Part part = groove->parts[groove->form[bar.in_phrase % groove->form_bars]];
    part.hands = selection->hands ? selection->hands : part.hands;
    part.feet = selection->feet ? selection->feet : part.feet;
    return part;
}

/* Bends the strokes from `first` on and keeps those in [begin, end). */
static void bend(const Swing swing, const Bar bar, const int64_t begin, const int64_t end,
                 const uint32_t first, StrokeList* const list)
{
    uint32_t kept = first;
    for (uint32_t i = first; i < list->count; ++i) {
        Stroke stroke = list->strokes[i];
        if (stroke.bends) {
            stroke.tick = bar.begin + swing_bend(swing, stroke.tick - bar.begin, bar.ticks);
        }
        if (stroke.tick >= begin && stroke.tick < end) {
            list->strokes[kept++] = stroke;
        }
    }
    list->count = kept;
}

/* The pairs that a span touches: whatever is bent into it was written there. */
static BarQuery unbent(const Selection* const selection, const Bar bar, const int64_t begin,
                       const int64_t end)
{
    const Swing swing = selection->swing;
    BarQuery query = {.selection = selection, .bar = bar, .begin = begin, .end = end};
    if (swing.ratio > 1.0) {
        query.begin = bar.begin + swing_pair_begin(swing, begin - bar.begin);
        query.end = bar.begin + swing_pair_end(swing, end - bar.begin, bar.ticks);
    }
    return query;
}

static void add_bar(const Selection* const selection, const Bar bar, const int64_t begin,
                    const int64_t end, StrokeList* const list)
{
    static const Regrid as_written = {0};
    const uint32_t first = list->count;
    const bool turns = bar.is_last && selection->turnaround;
    const Part part = part_of_bar(selection, bar);
    BarQuery query = unbent(selection, bar, begin, end);
    add_mirrored(&query, turns ? selection->turnaround : part.hands,
                 turns ? as_written : selection->hands_regrid, list);
    if (!turns || !figure_has_feet(selection->turnaround)) {
        add_mirrored(&query, part.feet, selection->feet_regrid, list);
    }
    add_crash(&query, first, list);
    if (selection->swing.ratio > 1.0) {
        bend(selection->swing, bar, begin, end, first, list);
    }
    strokes_sort(&list->strokes[first], list->count - first);
}

void groove_strokes(const Selection* const selection, const Meter meter, const int64_t begin,
                    const int64_t end, StrokeList* const list)
{
    list->count = 0;
    list->dropped = 0;
    if (!selection->groove) {
        return;
    }
    const int64_t bar_ticks = meter_bar_ticks(meter);
    int64_t index = begin < 0 ? 0 : begin / bar_ticks;
    for (; index * bar_ticks < end; ++index) {
        const Bar bar = bar_at(selection, index, bar_ticks);
        const int64_t from = bar.begin > begin ? bar.begin : begin;
        const int64_t to = bar.begin + bar_ticks < end ? bar.begin + bar_ticks : end;
        add_bar(selection, bar, from, to, list);
    }
}

static const Figure* feet_of_bar(const Selection* const selection, const Bar bar)
{
    const bool turns =
        bar.is_last && selection->turnaround && figure_has_feet(selection->turnaround);
    return turns ? selection->turnaround : part_of_bar(selection, bar).feet;
}

StepGrid groove_feet_grid(const Selection* const selection, const Meter meter, const int64_t index)
{
    const Bar bar = bar_at(selection, index, meter_bar_ticks(meter));
    const StepGrid beats = {bar.begin, meter_beat_ticks(meter)};
    const Figure* const feet = selection->groove ? feet_of_bar(selection, bar) : NULL;
    if (!feet) {
        return beats;
    }
    static const Regrid as_written = {0};
    const Layout layout =
        layout_make(feet, feet == selection->turnaround ? as_written : selection->feet_regrid);
    const Tiling tiling = tiling_of(&layout, selection->realign, bar);
    const bool too_fine = !layout.regridded && layout.step < TICKS_PER_QUARTER / 8;
    return too_fine ? beats : (StepGrid){tiling.origin - tiling.from, layout.step};
}

/* The least common multiple, or 0 where it is over the most bars told. */
static int64_t common_bars(const int64_t a, const int64_t b)
{
    const int64_t bars = a && b ? a / common_divisor(a, b) * b : 0;
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
    const int64_t bar_ticks = meter_bar_ticks(meter);
    for (uint32_t i = 0; i < selection->phrase_bars; ++i) {
        const Part part = part_of_bar(selection, bar_at(selection, i, bar_ticks));
        bars = common_bars(bars, bars_of_figure(part.hands, selection->hands_regrid, bar_ticks));
        bars = common_bars(bars, bars_of_figure(part.feet, selection->feet_regrid, bar_ticks));
    }
    return (uint32_t)bars;
}

/* A figure as the bar plays it: relaid, but for the turnaround. */
typedef struct {
    const Figure* figure;
    Regrid regrid;
} Laid;

static Laid laid_in_bar(const Selection* const selection, const Bar bar, const LimbPair pair)
{
    const Part part = part_of_bar(selection, bar);
    const bool turns = bar.is_last && selection->turnaround;
    if (turns && (pair == PAIR_HANDS || figure_has_feet(selection->turnaround))) {
        return (Laid){selection->turnaround, {0}};
    }
    return pair == PAIR_HANDS ? (Laid){part.hands, selection->hands_regrid}
                              : (Laid){part.feet, selection->feet_regrid};
}

static int64_t step_in(const Laid laid)
{
    return laid.figure ? layout_make(laid.figure, laid.regrid).step : 0;
}

BarParts groove_bar(const Selection* const selection, const Meter meter, const int64_t index)
{
    const Bar bar = bar_at(selection, index, meter_bar_ticks(meter));
    const Laid hands = laid_in_bar(selection, bar, PAIR_HANDS);
    const Laid feet = laid_in_bar(selection, bar, PAIR_FEET);
    return (BarParts){
        .in_phrase = (uint32_t)bar.in_phrase,
        .part = selection->groove->form[bar.in_phrase % selection->groove->form_bars],
        .turns = bar.is_last && selection->turnaround,
        .hands = hands.figure,
        .feet = feet.figure,
        .hands_step = step_in(hands),
        .feet_step = step_in(feet),
    };
}

uint32_t groove_turns(const Selection* const selection, const Meter meter, const int64_t index,
                      const LimbPair pair, int32_t* const ticks, const uint32_t room)
{
    const Bar bar = bar_at(selection, index, meter_bar_ticks(meter));
    const Laid laid = laid_in_bar(selection, bar, pair);
    uint32_t count = 0;
    if (!laid.figure) {
        return 0;
    }
    const Layout layout = layout_make(laid.figure, laid.regrid);
    const Tiling tiling = tiling_of(&layout, selection->realign, bar);
    const int64_t late = floor_mod(bar.begin - tiling.origin, tiling.period);
    int64_t tick = late ? tiling.period - late : 0;
    for (; !tiling.from && tick < bar.ticks && count < room; tick += tiling.period) {
        ticks[count++] = (int32_t)tick;
    }
    return count;
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
    const Bar bar = bar_in_phrase(at.bar, meter_bar_ticks(at.meter), at.in_phrase, at.loops);
    const Tiling tiling = tiling_of(&layout, at.realign, bar);
    const int64_t late = floor_mod(bar.begin + tick - tiling.origin, tiling.period);
    return (FigureCopy){tick - late, tiling.from, tiling.period};
}
