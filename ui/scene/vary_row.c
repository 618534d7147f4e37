// SPDX-License-Identifier: ISC
#include "vary_row.h"

#include "handed.h"

#include <math.h>
#include <stdio.h>

static double tall_of(const RowStroke* const stroke)
{
    return stroke->level == LEVEL_GHOST ? 0.4 : stroke->level == LEVEL_NORMAL ? 0.68 : 1.0;
}

/* Under strokes that nobody could play. */
static void draw_zigzag(const Brush* const brush, const double from, const double to,
                        const double y)
{
    const double step = 4.0;
    const int steps = (int)((to + 0.5 - from) / step);
    for (int i = 0; i < steps; ++i) {
        const double x = from + step * i;
        ink_line(brush->cairo, x, i % 2 ? y - 3.0 : y, x + step, i % 2 ? y : y - 3.0, 1.2,
                 brush->colours->ink);
    }
}

void vary_row_strokes(const Brush* const brush, const RowPlaces* const places, const Box box,
                      const FeetRow* const row)
{
    const Palette* const colours = brush->colours;
    const double y = floor(box.y + box.height / 2.0) + 0.5;
    const double tall = fmin(box.height / 2.0 - 1.5, 16.0);
    ink_line(brush->cairo, places->from, y, places->to, y, 1.0, colours->edge);
    for (int beat = 0; beat <= (int)places->space.beats; ++beat) {
        const double x = floor(geometry_tick(brush->g, places->space, beat * places->space.ticks));
        ink_line(brush->cairo, x + 0.5, y - 2.5, x + 0.5, y + 2.5, 1.0, colours->edge);
    }
    for (uint32_t i = 0; i < row->count; ++i) {
        const RowStroke* const stroke = &row->strokes[i];
        const double x = geometry_tick(brush->g, places->space, stroke->tick);
        const double up = handed_limb(brush->view, stroke->limb) % 2 ? 1.0 : -1.0;
        ink_line(brush->cairo, x, y, x, y + up * tall * tall_of(stroke), 2.0, colours->ink);
    }
    for (uint32_t i = 0; i < row->spans; ++i) {
        draw_zigzag(brush, geometry_tick(brush->g, places->space, row->beyond[i].from),
                    geometry_tick(brush->g, places->space, row->beyond[i].to),
                    box.y + box.height - 1.0);
    }
}

void vary_row_disc(const Brush* const brush, const double x, const double y,
                   const Playable playable)
{
    const double r = 4.5;
    cairo_t* const cairo = brush->cairo;
    const Colour colour = brush->colours->ink;
    const Box box = {x - r, y - r, 2.0 * r, 2.0 * r};
    switch (playable) {
    case PLAYABLE_UNKNOWN:
        break;
    case PLAYABLE_YES:
        ink_fill_round(cairo, box, r, colour);
        break;
    case PLAYABLE_HARD:
        ink_frame(cairo, box, r, 1.4, colour);
        cairo_save(cairo);
        cairo_rectangle(cairo, box.x, box.y, r, box.height);
        cairo_clip(cairo);
        ink_fill_round(cairo, box, r, colour);
        cairo_restore(cairo);
        break;
    case PLAYABLE_NO:
        ink_frame(cairo, box, r, 1.4, colour);
        ink_line(cairo, x - 3.0, y - 3.0, x + 3.0, y + 3.0, 1.4, colour);
        ink_line(cairo, x - 3.0, y + 3.0, x + 3.0, y - 3.0, 1.4, colour);
        break;
    }
}

static const char* word_of(const Playable playable)
{
    static const char* const words[] = {"", "yes", "hard", "no"};
    return words[playable];
}

void vary_row_numbers(const Brush* const brush, const RowPlaces* const places, const double base,
                      const FeetRow* const row)
{
    const double ends[2] = {places->right, places->left};
    const Type type = brush_type(13.0, false, ALIGN_RIGHT, brush->colours->ink);
    if (row->verdict.playable == PLAYABLE_UNKNOWN) {
        return;
    }
    for (int foot = 0; foot < 2; ++foot) {
        char text[16];
        const double rate = row->verdict.rates[handed_limb(brush->view, foot)];
        snprintf(text, sizeof text, "%.0f", rate);
        ink_text(brush->cairo, ends[foot], base, type, rate > 0.0 ? text : "\xE2\x80\x93");
    }
    vary_row_disc(brush, places->disc, base - 4.5, row->verdict.playable);
    if (places->word_room > 0.0) {
        ink_text_in(brush->cairo, places->word, base, places->word_room,
                    brush_type(12.0, false, ALIGN_LEFT, brush->colours->ink),
                    word_of(row->verdict.playable));
    }
}

void vary_row_heads(const Brush* const brush, const RowPlaces* const places, const double base)
{
    const Type right = brush_type(12.0, false, ALIGN_RIGHT, brush->colours->soft);
    const Type left = brush_type(12.0, false, ALIGN_LEFT, brush->colours->soft);
    const bool is_brief = places->word_room <= 0.0 || places->word < places->from;
    ink_text(brush->cairo, places->right, base, right, is_brief ? "R" : "right");
    ink_text(brush->cairo, places->left, base, right, is_brief ? "L" : "left");
    if (!is_brief) {
        ink_text(brush->cairo, places->disc - 6.0, base, left, "playable");
    }
}
