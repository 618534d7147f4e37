// SPDX-License-Identifier: ISC
/* The bar now playing, large, and the first beat of the next one in softer ink. */
#include "handed.h"
#include "reading.h"
#include "shown.h"
#include "words.h"

#include <math.h>
#include <stdio.h>

static bool points_up(const int limb)
{
    return limb % 2 == 0;
}

static Colour stroke_colour(const Brush* const brush, const Shown* const shown)
{
    return shown->is_next ? brush->colours->edge
           : brush->lit   ? brush->colours->accent
                          : brush->colours->ink;
}

static bool is_heard(const View* const view, const int limb)
{
    return view->values[CONTROL_ENABLED] > 0.0f && view->values[handed_switch(view, limb)] > 0.0f;
}

static void draw_head(const Brush* const brush, const SeenStroke* const stroke, const double x,
                      const Mark mark)
{
    const double y = brush->g->line[stroke->limb];
    const bool is_ringed = stroke->voice == VOICE_HAT_OPEN || stroke->voice == VOICE_HAT_HALF_OPEN;
    head_draw(brush->cairo, x, y, is_ringed ? VOICE_HAT_CLOSED : (Voice)stroke->voice, mark);
    if (is_ringed) {
        const double up = points_up(stroke->limb) ? -1.0 : 1.0;
        const double far = brush_stem_height(brush->g, stroke) + 4.5 * mark.scale;
        const Mark ring = {mark.colour, 0.85 * mark.scale, mark.hollow};
        head_ring(brush->cairo, x, y + up * far, stroke->voice == VOICE_HAT_HALF_OPEN, ring);
    }
    if (stroke->level == LEVEL_GHOST && !stroke->is_grace) {
        head_brackets(brush->cairo, x, y, mark);
    }
}

static void draw_stroke(const Brush* const brush, const Shown* const shown,
                        const SeenStroke* const stroke)
{
    const double x = lanes_x(shown, stroke->felt);
    if (x > shown->to + (shown->is_next ? -7.0 : 0.0)) {
        return; /* whole signs only */
    }
    const double s = brush->g->sign[stroke->limb / 2];
    const double y = brush->g->line[stroke->limb];
    const double up = points_up(stroke->limb) ? -1.0 : 1.0;
    const double size = (stroke->is_grace ? 0.9
                         : stroke->free   ? 1.25
                                          : 1.7) *
                        (brush->g->compact ? 0.85 : 1.0);
    const bool heard = is_heard(brush->view, stroke->limb);
    const Mark mark = {stroke_colour(brush, shown), size * s * (brush->lit ? 1.28 : 1.0), !heard};
    const double stem = brush_stem_height(brush->g, stroke);
    brush_stem(brush, x, y + up * stem, y,
               (brush->lit ? 3.4
                : heard    ? 2.0
                           : 1.0) *
                   s,
               stroke->free ? 2.5 * s : 0.0, mark.colour);
    if (stroke->is_grace) { /* cut, as a grace note's stem is */
        ink_line(brush->cairo, x - 3.0 * s, y + up * 0.25 * stem - up * 2.0, x + 3.0 * s,
                 y + up * (0.25 * stem + 5.0), 1.0 * s, mark.colour);
    }
    draw_head(brush, stroke, x, mark);
}

/* A stroke's sign reaches into the strip where the words stand. */
static bool is_in_strip(const Brush* const brush, const SeenStroke* const stroke)
{
    const Geometry* const g = brush->g;
    const bool is_ringed = stroke->voice == VOICE_HAT_OPEN || stroke->voice == VOICE_HAT_HALF_OPEN;
    const double far =
        brush_stem_height(g, stroke) + (is_ringed ? 15.0 : 0.0) * g->sign[stroke->limb / 2];
    return points_up(stroke->limb)
               ? g->line[stroke->limb] - far < g->row_top[stroke->limb] + 11.0
               : g->line[stroke->limb] + far > g->row_bottom[stroke->limb] - 13.0;
}

/* How far a word may run that begins at stroke `i`: to the limb's next sign there. */
static double end_of_word(const Brush* const brush, const Shown* const shown, uint32_t i)
{
    const SeenStroke* const first = &shown->bar->strokes[i];
    while (++i < shown->bar->count) {
        const SeenStroke* const stroke = &shown->bar->strokes[i];
        if (stroke->limb == first->limb && stroke->felt > first->felt &&
            is_in_strip(brush, stroke)) {
            return lanes_x(shown, stroke->felt) - 6.0;
        }
    }
    return shown->to;
}

/* What is said in the staff. */
static double aside_size(const Brush* const brush, const double size)
{
    return brush->g->reads ? reading_size(brush->g, READING_ASIDE) : size;
}

/* The word where there is room for it, else a shorter one. */
static double draw_word(const Brush* const brush, const double x, const double y, const double room,
                        const Voice voice)
{
    const Type type = brush_type(aside_size(brush, 10.0), false, ALIGN_LEFT, brush->colours->soft);
    const char* const word = words_voice(voice);
    const bool fits = ink_width(brush->cairo, type, word) <= room;
    return ink_text(brush->cairo, x, y, type, fits ? word : words_voice_brief(voice));
}

/* A word stands at the first stroke after the limb has changed to another voice
   than the label beside the row names. */
static void draw_changes(const Brush* const brush, const Shown* const shown, const int limb)
{
    Voice voice = brush_voice_of_limb(shown->bar, limb);
    const bool is_page = shown->space.seen < shown->space.beats;
    double free_from = is_page ? brush->g->beat_1 - 8.0 : 0.0;
    for (uint32_t i = 0; i < shown->bar->count; ++i) {
        const SeenStroke* const stroke = &shown->bar->strokes[i];
        if (stroke->limb != limb || stroke->is_grace) {
            continue;
        }
        const double x = lanes_x(shown, stroke->felt);
        if (stroke->voice != voice && x >= free_from && x <= shown->to) {
            const bool up = points_up(limb);
            const double unit = brush->g->reads ? brush->g->unit : 1.0;
            const double high = brush->g->reads ? 0.73 * aside_size(brush, 0.0) - 7.0 * unit : 9.0;
            const double y =
                up ? brush->g->row_top[limb] + high : brush->g->row_bottom[limb] - 3.0 * unit;
            const double from = x + (is_in_strip(brush, stroke) ? 9.0 : 5.0);
            const double room = end_of_word(brush, shown, i) - from;
            free_from = from + 5.0 + draw_word(brush, from, y, room, (Voice)stroke->voice);
        }
        voice = (Voice)stroke->voice;
    }
}

/* ---- Lines */

static void draw_steps(const Brush* const brush, const Shown* const shown, const int limb,
                       const ShownGrid* const grid)
{
    const double y = floor(brush->g->line[limb]) + 0.5;
    if (grid->step <= 0 || shown->space.beat * grid->step / shown->space.ticks < 5.0) {
        return;
    }
    const int first = (int)ceil((grid->begin - grid->origin) / grid->step);
    const int end = (int)ceil((grid->end - grid->origin) / grid->step);
    for (int i = first; i < end; ++i) {
        const double x = floor(lanes_x(shown, grid->origin + i * grid->step)) + 0.5;
        if (x < shown->to) {
            ink_line(brush->cairo, x, y - 2.5, x, y + 2.5, 1.0, brush->colours->edge);
        }
    }
}

/* Over the hands a line along the beats of a fill, with a foot where it takes over. */
static void draw_fill(const Brush* const brush, const Shown* const shown)
{
    const SeenBar* const bar = shown->bar;
    const double from = floor(lanes_x(shown, bar->fill_begin)) + 0.5;
    const double bar_end = lanes_x(shown, shown->space.ticks * shown->space.beats);
    const double clear = bar_end - geometry_clear(brush->g);
    const double to = clear < shown->to ? clear : shown->to;
    const double y = floor(brush->g->row_top[0]) + 0.5;
    const Colour colour = shown->is_next ? brush->colours->edge : brush->colours->soft;
    if (!bar->fill || from >= to) {
        return;
    }
    ink_line(brush->cairo, from, y, to, y, 2.0, colour);
    if (bar->fill_begin > 0) {
        ink_line(brush->cairo, from, y, from, y + 7.0, 2.0, colour);
    }
}

static void draw_lines(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    for (int pair = 0; pair < 2; ++pair) {
        ink_fill(brush->cairo, g->ground[pair], brush->colours->shade);
    }
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const double y = floor(g->line[limb]) + 0.5;
        ink_line(brush->cairo, g->staff, y, g->right, y, 1.0, brush->colours->edge);
    }
    const double y = floor(g->click) + 0.5;
    if (!g->reads && !g->low && !g->list) {
        ink_line(brush->cairo, g->staff, y, g->right, y, 1.0, brush->colours->rule);
    }
}

/* Where a step is heard, which is where its stroke is drawn. */
static double slot_x(const Shown* const shown, const Swing swing, const double tick)
{
    const int64_t ticks = meter_bar_ticks(shown->bar->meter);
    return lanes_x(shown,
                   swing.ratio > 1.0 ? (double)swing_bend(swing, (int64_t)tick, ticks) : tick);
}

/* The step that keys change, and the row that they are in. */
static void draw_cursor(const Brush* const brush, const double x, const int limb, const double step)
{
    const Geometry* const g = brush->g;
    const double wide = step < 16.0 ? 16.0 : step > 36.0 ? 36.0 : step;
    const double top = g->row_top[limb] + 1.0;
    const double tall = g->row_bottom[limb] - 2.0 - top;
    brush_focus(brush, targets_find(brush->targets, (TargetId){TARGET_ROW, limb}), 0.0);
    ink_frame(brush->cairo, (Box){x - wide / 2.0, top, wide, tall}, 3.0, 2.0,
              brush->colours->accent);
}

/* While a figure is edited: a dot for each step that a change would fall on, and a
   ring around the one pointed at. */
static void draw_slots(const Brush* const brush, const Shown* const shown)
{
    const View* const view = brush->view;
    const Edit* const edit = &view->edit;
    if (!brush->g->edits || shown->is_next || edit->grid < 1) {
        return;
    }
    const double step = (double)TICKS_PER_QUARTER / edit->grid;
    const int steps = (int)ceil(shown->space.ticks * shown->space.beats / step - 0.001);
    for (int limb = 2 * (int)edit->pair; limb < 2 * (int)edit->pair + 2; ++limb) {
        const double y = brush->g->line[limb];
        for (int i = 0; i < steps; ++i) {
            const double x = slot_x(shown, edit->swing, i * step);
            const double r = 3.0 * brush->g->scale;
            ink_fill_round(brush->cairo, (Box){x - r, y - r, 2.0 * r, 2.0 * r}, r,
                           brush->colours->ground);
            ink_frame(brush->cairo, (Box){x - r, y - r, 2.0 * r, 2.0 * r}, r, 1.0,
                      brush->colours->soft);
        }
        const TargetId row = {TARGET_ROW, limb};
        if (view->has_keys && view_target_same(view->focus, row)) {
            draw_cursor(brush, slot_x(shown, edit->swing, edit->cursor), limb,
                        shown->space.beat * step / shown->space.ticks);
        }
        if (edit->hover_limb == limb) {
            const double x = slot_x(shown, edit->swing, edit->hover_tick);
            ink_frame(brush->cairo, (Box){x - 9.0, y - 9.0, 18.0, 18.0}, 9.0, 1.5,
                      brush->colours->accent);
        }
    }
}

/* What isn't as it is kept is underlined, on the side where no stem is. */
static void draw_marks(const Brush* const brush, const Shown* const shown)
{
    const Edit* const edit = &brush->view->edit;
    for (int i = 0; i < edit->mark_count && brush->g->edits && !shown->is_next; ++i) {
        const EditMark mark = edit->marks[i];
        const double x = slot_x(shown, edit->swing, mark.tick);
        const double apart = (points_up(mark.row) ? 12.0 : -12.0) * brush->g->sign[mark.row / 2];
        const double y = floor(brush->g->line[mark.row] + apart) + 0.5;
        ink_line(brush->cairo, x - 8.0, y, x + 8.0, y, 2.0, brush->colours->ink);
    }
}

static void draw_bar(const Brush* const brush, const Shown* const shown)
{
    draw_grid(brush, shown);
    draw_slots(brush, shown);
    draw_marks(brush, shown);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        ShownGrid grids[2];
        const int count = lanes_grids(shown, limb >= 2, grids);
        for (int i = 0; i < count; ++i) {
            draw_steps(brush, shown, limb, &grids[i]);
        }
    }
    draw_fill(brush, shown);
    draw_count(brush, shown, false);
    draw_count(brush, shown, true);
    for (uint32_t i = 0; i < shown->bar->count; ++i) {
        draw_stroke(brush, shown, &shown->bar->strokes[i]);
    }
    for (int limb = 0; limb < LIMB_COUNT && !shown->is_next; ++limb) {
        if (!geometry_folds(brush->g, limb)) {
            draw_changes(brush, shown, limb);
        }
    }
    if (!brush->g->low) {
        draw_turns(brush, shown);
    }
    if (!brush->g->reads && !brush->g->low && !brush->g->list) {
        draw_clicks(brush, shown);
    }
}

/* Nothing has been told yet, or the bank is empty. */
static void draw_nothing(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    const Type type = brush_type(16.0, false, ALIGN_CENTRE, brush->colours->soft);
    ink_text(brush->cairo, (g->staff + g->right) / 2.0, (g->line[1] + g->count_feet) / 2.0, type,
             "waiting for the plugin");
}

/* Of a bar that is edited in pages the one that is seen. */
static void draw_page(const Brush* const brush, const Shown* const shown)
{
    const Geometry* const g = brush->g;
    const bool is_page = shown->space.seen < shown->space.beats;
    const double left = g->beat_1 - geometry_clear(g) - 4.0;
    cairo_save(brush->cairo);
    if (is_page) {
        cairo_rectangle(brush->cairo, left, 0.0, g->right - left, g->height);
        cairo_clip(brush->cairo);
    }
    draw_bar(brush, shown);
    cairo_restore(brush->cairo);
}

void draw_staff(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    const int64_t index = view_shown(brush->view);
    const SeenBar* const bar = view_bar(brush->view, index);
    draw_lines(brush);
    if (!bar) {
        draw_nothing(brush);
        return;
    }
    const BarSpace space = geometry_bar(g, bar->meter);
    const double from = geometry_tick(g, space, 0.0);
    const double line = from + space.beat * space.beats;
    const Shown now = {bar, from, fmin(line, g->right + 1.0) - 1.0, space, false};
    const SeenBar* const next = view_next(brush->view);
    draw_page(brush, &now);
    if (next && space.ahead > 0.0) {
        BarSpace ahead = space;
        ahead.ticks = (double)meter_beat_ticks(next->meter);
        const Shown coming = {next, line, g->right - 4.0, ahead, true};
        draw_bar(brush, &coming);
        draw_next_bar(brush, &coming, !meter_equal(bar->meter, next->meter));
    } else if (line < g->right + 1.0) {
        draw_end_line(brush, line);
    }
}
