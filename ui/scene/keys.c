// SPDX-License-Identifier: ISC
/* The list of keys, in the place of a list. */
#include "brush.h"

static void draw_line(const Brush* const brush, const KeyLine* const line, const double top)
{
    const Geometry* const g = brush->g;
    const Palette* const colours = brush->colours;
    const double right = g->key_line.x + g->key_line.width;
    const double base = top + g->key_base;
    if (!*line->keys) {
        ink_text_in(brush->cairo, g->key_line.x, base + g->key_drop, g->key_line.width,
                    brush_type(11.0, true, ALIGN_LEFT, colours->soft), line->words);
        return;
    }
    ink_text_in(brush->cairo, g->key_line.x, base, g->key_line.width,
                brush_type(11.0, true, ALIGN_LEFT, colours->ink), line->keys);
    ink_text_in(brush->cairo, g->key_words, base + g->key_drop, right - g->key_words,
                brush_type(11.0, false, ALIGN_LEFT, colours->ink), line->words);
}

void draw_keys(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    const KeyList* const keys = &brush->view->keys;
    const At title = geometry_list(g).title;
    const int rows = geometry_list_rows(g);
    ink_frame(brush->cairo, g->list_box, 5.0, 1.0, brush->colours->edge);
    ink_text(brush->cairo, title.x, title.y,
             brush_type(16.0, true, ALIGN_LEFT, brush->colours->ink), "Keys");
    for (int i = 0; i < rows && keys->first + i < keys->count; ++i) {
        draw_line(brush, &keys->lines[keys->first + i], g->key_line.y + g->row_height * i);
    }
}
