// SPDX-License-Identifier: ISC
/* The open list: of geometry.h. */
#include "geometry.h"

#include <math.h>

Box geometry_find(const Geometry* const g)
{
    return (Box){g->list_box.x + 92.0, g->list_box.y + 3.0, 270.0, 26.0};
}

Box geometry_list_row(const Geometry* const g, const int row)
{
    return (Box){g->list_box.x, g->list_rows + g->row_height * row, g->list_box.width,
                 g->row_height};
}

ListPlaces geometry_list(const Geometry* const g)
{
    const Box find = geometry_find(g);
    const double right = g->list_box.x + g->list_box.width;
    const double comment = find.x + find.width + 16.0;
    return (ListPlaces){
        .title = {g->list_box.x, find.y + 19.0},
        .title_room = 84.0,
        .letters = {find.x + 8.0, find.y + 18.0},
        .letters_room = find.width - 12.0,
        .nothing = {g->list_box.x + 24.0, g->list_rows + 18.0},
        .comment = {comment, find.y + 10.0},
        .told = {comment, find.y + 25.0},
        .comment_room = g->compact ? 0.0 : right - 130.0 - comment,
        .count = {right, find.y + 18.0},
        .heads = g->list_rows - 5.0,
        .rule = floor(g->list_rows - 1.0) + 0.5,
    };
}

ListColumns geometry_columns(const Geometry* const g, const EntryKind kind)
{
    const double x = g->list_box.x;
    const double right = x + g->list_box.width;
    const double small = g->compact ? 96.0 : 0.0; /* narrower */
    const double spare = g->width - (g->compact ? LEAST_WIDTH : FIRST_WIDTH);
    const double more =
        0.4 * (spare > 0.0 ? spare : 0.0) + (g->compact ? 0.0 : fmin(spare, 0.0)) - small;
    const bool has_rates = kind == ENTRY_FEET;
    const bool has_meter = kind == ENTRY_GROOVE;
    const double picture = x + (has_rates ? 688.0 : 602.0) + more;
    return (ListColumns){
        .sign = x + 9.0,
        .name = x + 24.0,
        .name_room = (has_meter ? 296.0 : 330.0) + more,
        .meter = x + 362.0 + more,
        .tempo = x + 430.0 + more - (g->compact ? 4.0 : 0.0),
        .length = x + 528.0 + more - (g->compact ? 4.0 : 0.0),
        .length_room = 92.0,
        .dots = x + 541.0 + more,
        .rate = {x + 626.0 + more, x + 668.0 + more},
        .picture = picture,
        .picture_room = right - 8.0 - picture,
    };
}

Box geometry_head(const Geometry* const g, const EntryKind kind, const ListColumn column)
{
    const ListColumns at = geometry_columns(g, kind);
    const double y = g->list_rows - 21.0;
    const double tall = 18.0;
    const Box none = {0.0, 0.0, 0.0, 0.0};
    switch (column) {
    case LIST_BY_NAME:
        return (Box){at.name - 4.0, y, 70.0, tall};
    case LIST_BY_METER:
        return kind == ENTRY_GROOVE ? (Box){at.meter - 54.0, y, 58.0, tall} : none;
    case LIST_BY_TEMPO:
        return kind == ENTRY_KIT ? none : (Box){at.tempo - 58.0, y, 62.0, tall};
    case LIST_BY_LENGTH:
        return kind == ENTRY_KIT ? none : (Box){at.length - 70.0, y, 72.0, tall};
    case LIST_BY_DIFFICULTY:
        return kind == ENTRY_KIT ? none : (Box){at.dots - 8.0, y, 55.0, tall};
    case LIST_BY_RIGHT:
        return kind == ENTRY_FEET ? (Box){at.rate[0] - 36.0, y, 38.0, tall} : none;
    case LIST_BY_LEFT:
        return kind == ENTRY_FEET ? (Box){at.rate[1] - 37.0, y, 39.0, tall} : none;
    case LIST_BY_NONE:
    case LIST_COLUMNS:
        break;
    }
    return none;
}
