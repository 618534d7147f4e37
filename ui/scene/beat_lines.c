// SPDX-License-Identifier: ISC
/* The staff's upright lines: of bars, of beats, and where a change comes in. */
#include "shown.h"

#include <math.h>

/* Through the rows, but not through the feet's count. */
static void draw_down(const Brush* const brush, const double x, const double width,
                      const Colour colour)
{
    const Geometry* const g = brush->g;
    ink_line(brush->cairo, x, g->row_top[0], x, g->row_bottom[1], width, colour);
    ink_line(brush->cairo, x, g->row_top[2], x, g->click + 4.0, width, colour);
}

static void draw_dashed(const Brush* const brush, const double x)
{
    static const double dashes[] = {4.0, 3.0};
    cairo_set_dash(brush->cairo, dashes, 2, 0.0);
    draw_down(brush, x, 2.0, brush->colours->accent);
    cairo_set_dash(brush->cairo, NULL, 0, 0.0);
}

/* Left of the bar's one, whose strokes stand free of it; dashed where a change comes in. */
static void draw_bar_line(const Brush* const brush, const double one, const bool dashed)
{
    const double x = floor(one - geometry_clear(brush->g)) + 0.5;
    if (dashed) {
        draw_dashed(brush, x);
    } else {
        draw_down(brush, x, 2.0, brush->colours->edge);
    }
}

/* True if what waits comes in at the line of the bar after the one shown, or, `within`, in
   that one's midst. */
static bool is_coming_in(const View* const view, const int within)
{
    const SeenPlace* const place = &view->place;
    const int64_t shown = view_shown(view);
    return place->waiting && (within ? place->change_bar == shown && place->change_tick > 0
                                     : place->change_bar == shown + 1 && !place->change_tick);
}

void draw_grid(const Brush* const brush, const Shown* const shown)
{
    const int group = meter_is_compound(shown->bar->meter) ? 3 : 0;
    const double beats = shown->is_next ? shown->space.ahead : shown->space.beats;
    for (int beat = 0; beat < (int)ceil(beats); ++beat) {
        const double x = floor(lanes_x(shown, beat * shown->space.ticks)) + 0.5;
        const double width = group && beat % group == 0 ? 2.5 : 1.0;
        if (beat == 0) {
            draw_bar_line(brush, shown->from, shown->is_next && is_coming_in(brush->view, 0));
        } else {
            draw_down(brush, x, width, brush->colours->rule);
        }
    }
    if (!shown->is_next && is_coming_in(brush->view, 1)) {
        draw_dashed(brush, floor(lanes_x(shown, brush->view->place.change_tick)) + 0.5);
    }
}

void draw_end_line(const Brush* const brush, const double x)
{
    draw_down(brush, x, 2.0, brush->colours->edge);
}
