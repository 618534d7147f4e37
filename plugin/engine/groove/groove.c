// SPDX-License-Identifier: ISC
#include "groove.h"

#include "fill.h"

#include <stddef.h>

/* What is played where in one bar. */
typedef struct {
    const Selection* selection;
    Bar bar;
    int64_t begin; /* the span asked for, inside the bar, before it is bent */
    int64_t end;
} BarQuery;

/* The strokes of the span [begin, end) of a layout that is laid end to end. */
static void add_tiles(const BarQuery* const query, const Layout* const layout, const Tiling tiling,
                      StrokeList* const list)
{
    const int64_t first = floor_div(query->begin - tiling.origin, tiling.period);
    int64_t copy = tiling.origin + first * tiling.period;
    for (; copy < query->end; copy += tiling.period) {
        const int64_t late = query->begin - copy;
        const int64_t left = query->end - copy;
        layout_strokes(layout, tiling.from + (late > 0 ? late : 0),
                       tiling.from + (left < tiling.period ? left : tiling.period),
                       copy - tiling.from, list);
    }
}

/* A figure in effect over [begin, end): as it rolls, or as a fill for its last ticks. */
typedef struct {
    const Figure* figure; /* NULL: those limbs rest */
    Regrid regrid;
    const Fill* fill; /* NULL: it is none */
    int64_t begin;
    int64_t end;
} Stand;

static void add_figure(const BarQuery* const query, const Stand* const stand,
                       StrokeList* const list)
{
    const Layout layout = layout_make(stand->figure, stand->regrid);
    const Tiling tiling =
        stand->fill ? (Tiling){stand->fill->end - layout_ticks(&layout), layout_ticks(&layout), 0}
                    : bar_tiling(&query->bar, &layout, query->selection->realign);
    add_tiles(query, &layout, tiling, list);
}

static void add_mirrored(BarQuery query, const Stand* const stand, StrokeList* const list)
{
    const Figure* const figure = stand->figure;
    const bool mirror = query.selection->left_foot_leads;
    const uint32_t first = list->count;
    query.begin = query.begin > stand->begin ? query.begin : stand->begin;
    query.end = query.end < stand->end ? query.end : stand->end;
    if (!figure || query.begin >= query.end) {
        return;
    }
    add_figure(&query, stand, list);
    for (uint32_t i = first; mirror && i < list->count; ++i) {
        list->strokes[i].limb = figure_mirrored(figure, list->strokes[i].limb);
    }
}

static bool is_crash_due(const Selection* const selection, const Bar* const bar)
{
    const bool is_at_line = bar->in_phrase == 0 || fill_ends_before(selection, bar);
    switch (selection->crash) {
    case CRASH_AS_WRITTEN:
        return selection->groove->crash_start && is_at_line;
    case CRASH_NEVER:
        return false;
    case CRASH_PHRASE:
        return is_at_line;
    case CRASH_SECTION:
        return bar->counted == 0;
    }
    return false;
}

/* The crash takes the place of what the right hand would have played there, but not in the
   midst of a fill. */
static void add_crash(const BarQuery* const query, const Fill* const fill, const uint32_t first,
                      StrokeList* const list)
{
    const int64_t line = query->bar.begin;
    const bool is_in_fill = fill->figure && fill->begin < line;
    if (line < query->begin || line >= query->end || is_in_fill ||
        !is_crash_due(query->selection, &query->bar)) {
        return;
    }
    const Stroke crash = {line, RIGHT_HAND, VOICE_CRASH, LEVEL_ACCENT, false};
    for (uint32_t i = first; i < list->count; ++i) {
        if (list->strokes[i].tick == line && list->strokes[i].limb == RIGHT_HAND) {
            list->strokes[i] = crash;
            return;
        }
    }
    stroke_list_add(list, crash);
}

/* Bends the strokes from `first` on and keeps those in [begin, end). */
static void bend(const Swing swing, const Bar* const bar, const int64_t begin, const int64_t end,
                 const uint32_t first, StrokeList* const list)
{
    uint32_t kept = first;
    for (uint32_t i = first; i < list->count; ++i) {
        Stroke stroke = list->strokes[i];
        if (stroke.bends) {
            stroke.tick = bar->begin + swing_bend(swing, stroke.tick - bar->begin, bar->ticks);
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

/* Hands and feet until the fill, the fill, and feet that go on under it. */
static void add_pairs(const BarQuery* const query, const Part part, const RideOnMove ride,
                      const Fill* const fill, StrokeList* const list)
{
    const uint32_t first = list->count;
    const Selection* const selection = query->selection;
    const int64_t from = fill->figure ? fill->begin : query->end;
    const bool takes_feet = fill->figure && figure_has_feet(fill->figure);
    const Stand hands = {part.hands, selection->hands_regrid, NULL, query->begin, from};
    const Stand feet = {part.feet, selection->feet_regrid, NULL, query->begin,
                        takes_feet ? from : query->end};
    add_mirrored(*query, &hands, list);
    ride_on_strokes(ride, list, first);
    add_mirrored(*query, &feet, list);
    if (fill->figure) {
        add_mirrored(*query, &(Stand){fill->figure, {0}, fill, fill->begin, fill->end}, list);
    }
}

/* The tick, as it is played, from which on a fill's hands play; else the bar's end. */
static int64_t hands_end(const Selection* const selection, const Bar* const bar,
                         const Fill* const fill)
{
    const int64_t end = fill->figure ? fill->begin - bar->begin : bar->ticks;
    const bool bends = selection->swing.ratio > 1.0 && end > 0 && end < bar->ticks;
    return bar->begin + (bends ? swing_bend(selection->swing, end, bar->ticks) : end);
}

/* Last: a limb that is silent may still say how another one sounds. */
static void drop_silent(const Selection* const selection, const uint32_t first,
                        StrokeList* const list)
{
    uint32_t kept = first;
    for (uint32_t i = first; i < list->count; ++i) {
        if (selection->limbs[list->strokes[i].limb]) {
            list->strokes[kept++] = list->strokes[i];
        }
    }
    list->count = kept;
}

static void add_bar(const Selection* const selection, const Bar bar, const int64_t begin,
                    const int64_t end, StrokeList* const list)
{
    const uint32_t first = list->count;
    const BarQuery query = unbent(selection, bar, begin, end);
    const Fill fill = fill_in_bar(selection, &bar);
    const Part part = bar_part(selection, &bar);
    const RideOnMove ride = ride_on_move(part.hands, part.ride_on);
    add_pairs(&query, part, ride, &fill, list);
    add_crash(&query, &fill, first, list);
    if (selection->swing.ratio > 1.0) {
        bend(selection->swing, &bar, begin, end, first, list);
    }
    ride_on_close(ride, list, first, hands_end(selection, &bar, &fill));
    drop_silent(selection, first, list);
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
        const Bar bar = bar_at(selection, meter, index);
        const int64_t from = bar.begin > begin ? bar.begin : begin;
        const int64_t to = bar.begin + bar_ticks < end ? bar.begin + bar_ticks : end;
        add_bar(selection, bar, from, to, list);
    }
}
