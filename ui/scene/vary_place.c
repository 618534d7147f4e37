// SPDX-License-Identifier: ISC
#include "vary_place.h"

#include "kept_strip.h"

#include <math.h>

static const double numbers_wide = 116.0; /* right, left, disc and word */
static const double row_least = 20.0;     /* what can be hit, and read */
static const double row_first = 22.0;

static BarSpace space_of(const Geometry* const g, const View* const view)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    return geometry_bar(g, bar ? bar->meter : (Meter){4.0, 4});
}

/* Numbers and a word, behind the bar or, where there is no room, before it. */
static void place_wide(const Geometry* const g, const bool is_behind, RowPlaces* const places)
{
    const double edge = is_behind ? places->to + 6.0 : places->from - numbers_wide - 10.0;
    places->name = g->compact ? 28.0 : 40.0;
    places->name_room = (is_behind ? places->from - 16.0 : edge - 4.0) - places->name;
    places->right = edge + 24.0;
    places->left = edge + 52.0;
    places->disc = edge + 68.0;
    places->word = edge + 78.0;
    places->word_room = 36.0;
}

/* In a small window the disc has no word. */
static void place_narrow(RowPlaces* const places)
{
    places->name = 28.0;
    places->right = places->from - 46.0;
    places->left = places->from - 26.0;
    places->disc = places->from - 14.0;
    places->name_room = places->right - 17.0 - places->name;
    places->word = places->from;
}

RowPlaces vary_place_columns(const Geometry* const g, const View* const view)
{
    const BarSpace space = space_of(g, view);
    RowPlaces places = {.sign = g->compact ? 19.0 : 26.0,
                        .from = geometry_tick(g, space, 0.0),
                        .to = geometry_tick(g, space, space.ticks * space.beats),
                        .space = space};
    const bool is_behind = g->right - places.to >= numbers_wide;
    if (is_behind || !g->compact) {
        place_wide(g, is_behind, &places);
    } else {
        place_narrow(&places);
    }
    return places;
}

VaryPlaces vary_place_of(const Geometry* const g)
{
    const Box page = geometry_page_box(g);
    const double bottom = kept_strip_box(g).y - 1.0;
    const double head = page.y + (g->compact ? 13.0 : 16.0);
    const double rows = head + 6.0;
    const int count = (int)floor((bottom - rows) / (g->compact ? row_least : row_first));
    const int seen = count > 1 ? count : 1;
    const double x = g->compact ? 12.0 : 16.0;
    const double left = g->beat_1 - 4.0;
    const double wide = g->compact ? 150.0 : 172.0;
    return (VaryPlaces){
        .head = head,
        .dials = {{left, head - 13.0, wide, 18.0},
                  {left + wide + 8.0, head - 13.0, wide, 18.0},
                  {left + 2.0 * wide + 16.0, head - 13.0, 128.0, 18.0}},
        .rows_box = {x, rows, g->width - 2.0 * x, bottom - rows},
        .row_height = (bottom - rows) / seen,
        .rows = seen,
    };
}

Box vary_place_row(const VaryPlaces* const places, const int line)
{
    return (Box){places->rows_box.x, places->rows_box.y + places->row_height * line,
                 places->rows_box.width, places->row_height};
}
