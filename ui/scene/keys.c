// SPDX-License-Identifier: ISC
#include "keys.h"

#include "brush.h"

#include <math.h>
#include <stdio.h>

static const double line_height = 16.0;
static const double column_least = 440.0; /* in which the longest words have room */
static const double keys_wide = 180.0;
static const double between = 20.0; /* columns */

void keys_place(Geometry* const g)
{
    const double top = g->low ? g->row_bottom[3] + 8.0 : g->top;
    const double foot = g->help > 0.0 ? g->height - g->help + 14.0 : 6.0;
    g->list_box = (Box){0.0, top, g->width, g->height - top - foot};
    g->list_rows = top + 40.0;
}

int keys_columns(const Geometry* const g)
{
    const int fit = (int)((g->list_box.width - 12.0) / column_least);
    return fit > 1 ? fit : 1;
}

static int rows(const Geometry* const g)
{
    const int fit = (int)floor((g->list_box.y + g->list_box.height - g->list_rows) / line_height);
    return fit > 1 ? fit : 1;
}

int keys_seen(const Geometry* const g)
{
    return rows(g) * keys_columns(g);
}

KeyPlaces keys_line(const Geometry* const g, const int line)
{
    const int columns = keys_columns(g);
    const double left = g->compact ? 12.0 : 16.0;
    const double wide = (g->width - 2.0 * left - between * (columns - 1)) / columns;
    const int column = line / rows(g);
    const double x = left + (wide + between) * column;
    const double y = g->list_rows + line_height * (line % rows(g));
    const double base = y + 12.0;
    return (KeyPlaces){
        .box = {x - 4.0, y, wide + 8.0, line_height},
        .keys = {x, base},
        .keys_room = keys_wide - 8.0,
        .words = {x + keys_wide, base},
        .words_room = wide - keys_wide,
    };
}

/* ---- Drawn */

static Type type_of(const bool bold, const Colour colour)
{
    return (Type){KEYS_TYPE, bold, ALIGN_LEFT, colour};
}

static void draw_line(const Brush* const brush, const int index, const KeyPlaces* const places)
{
    const KeyList* const keys = &brush->view->keys;
    const KeyLine* const line = &keys->lines[index];
    const Palette* const colours = brush->colours;
    if (!*line->keys) {
        ink_text_in(brush->cairo, places->keys.x, places->keys.y, places->box.width,
                    type_of(true, colours->soft), line->words);
        return;
    }
    if (index + 1 == keys->lit) {
        ink_fill_round(brush->cairo, places->box, 3.0, colours->raised);
        ink_frame(brush->cairo, places->box, 3.0, 1.5, colours->accent);
    }
    ink_text_in(brush->cairo, places->keys.x, places->keys.y, places->keys_room,
                type_of(true, colours->ink), line->keys);
    ink_text_in(brush->cairo, places->words.x, places->words.y, places->words_room,
                type_of(false, colours->ink), line->words);
}

static void draw_head(const Brush* const brush, const int seen)
{
    const Geometry* const g = brush->g;
    const KeyList* const keys = &brush->view->keys;
    const Palette* const colours = brush->colours;
    const double x = keys_line(g, 0).keys.x;
    const double y = g->list_box.y + 26.0;
    const int last = keys->first + seen < keys->count ? keys->first + seen : keys->count;
    char text[64];
    ink_line(brush->cairo, 0.0, floor(g->list_box.y) + 0.5, g->width, floor(g->list_box.y) + 0.5,
             1.0, colours->rule);
    const double wide =
        ink_text(brush->cairo, x, y, (Type){20.0, true, ALIGN_LEFT, colours->ink}, "Keys");
    snprintf(text, sizeof text, "%d to %d of %d%s", keys->first + 1, last, keys->count,
             seen < keys->count ? "; Page Down, Page Up" : "");
    const double right = ink_text(brush->cairo, g->right, y,
                                  (Type){KEYS_TYPE, false, ALIGN_RIGHT, colours->soft}, text);
    const double from = x + wide + 14.0;
    ink_text_in(brush->cairo, from, y, g->right - right - 20.0 - from,
                type_of(false, colours->soft), "a key pressed here works, and its line is framed");
}

void draw_keys(const Brush* const brush)
{
    const int seen = keys_seen(brush->g);
    const KeyList* const keys = &brush->view->keys;
    draw_head(brush, seen);
    for (int i = 0; i < seen && keys->first + i < keys->count; ++i) {
        const KeyPlaces places = keys_line(brush->g, i);
        draw_line(brush, keys->first + i, &places);
    }
}
