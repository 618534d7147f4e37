// SPDX-License-Identifier: ISC
/* The staff's narrow lanes: counting, where figures start again, the click. */
#include "count.h"
#include "shown.h"

#include <math.h>
#include <stdio.h>

double lanes_x(const Shown* const shown, const double tick)
{
    return shown->from + shown->space.beat * tick / shown->space.ticks;
}

/* ---- Counting */

static void draw_beat_number(const Brush* const brush, const Shown* const shown, const int beat,
                             const double y, const double size)
{
    char text[16];
    const double x = lanes_x(shown, beat * shown->space.ticks);
    const Palette* const colours = brush->colours;
    snprintf(text, sizeof text, "%d", beat + 1);
    Colour colour = shown->is_next ? colours->soft : colours->ink;
    if (brush->lit && !shown->is_next) {
        ink_fill_round(brush->cairo, geometry_number(x, y, size), 3.0, colours->accent);
        colour = colours->on_accent;
    }
    ink_text(brush->cairo, x, y, brush_type(size, true, ALIGN_CENTRE, colour), text);
}

/* Whether a syllable has room between its neighbours; in the reading view numbers of two
   digits come near it. */
static bool has_room(const Brush* const brush, const int beat, const int steps, const double apart,
                     const double size, const bool is_and)
{
    if (brush->g->reads) {
        const bool is_wide = beat >= 8 && steps == 2;
        return apart > (steps % 3 == 0 ? 2.1 : is_wide ? 1.2 : is_and ? 0.8 : 0.95) * size;
    }
    return is_and || apart > (steps % 3 == 0 ? 2.1 : 1.25) * size;
}

/* A number takes less than a syllable; smaller where steps are dense. */
static double number_size(const Brush* const brush, const int number, const double apart,
                          const double size)
{
    const double digits = number > 9 ? 1.3 : 0.75;
    const double fits = apart / digits;
    const double least = brush->g->reads ? 0.7 * size : 9.0;
    return fits >= size ? size : fits >= least ? fits : 0.0;
}

/* True if a number beside a beat's own would run into that. */
static bool is_under_beat(const Brush* const brush, const int number, const double apart,
                          const double size)
{
    const double small = number_size(brush, number, apart, size);
    const double wide = (number > 9 ? 1.28 : 0.64) * small;
    const double beat = 0.7 * brush->g->count_size[PAIR_HANDS]; /* the larger of the lanes' */
    return apart < (wide + beat) / 2.0;
}

/* What is said on a step: a syllable, where nobody has one or it has no room its number, else
   a dot. */
static void say(const Brush* const brush, const At at, const char* const said, const int number,
                const double apart, const double size)
{
    char text[16];
    const bool is_counted = !said || *said; /* 32nds have no syllable between the 16ths */
    const double small = is_counted ? number_size(brush, number, apart, size) : 0.0;
    Type type = brush_type(size, false, ALIGN_CENTRE, brush->colours->soft);
    snprintf(text, sizeof text, "\xC2\xB7");
    if (said && *said) {
        snprintf(text, sizeof text, "%s", said);
    } else if (small > 0.0) {
        snprintf(text, sizeof text, "%d", number);
        type.size = small;
    }
    ink_text(brush->cairo, at.x, at.y, type, text);
}

/* The steps of a beat that stand in [begin, end) of the bar, of a grid that divides it. */
static void draw_syllables(const Brush* const brush, const Shown* const shown, const int beat,
                           const ShownGrid* const part, const double y, const double size)
{
    const int steps = (int)(shown->space.ticks / part->step + 0.5);
    const double apart = shown->space.beat / steps;
    const bool is_wordy = steps % 3 == 0; /* numbers are shorter than trip and let */
    const CountGrid* const grid =
        is_wordy && !has_room(brush, beat, steps, apart, size, false) ? NULL : count_grid(steps);
    for (int i = 1; i < steps && apart > 6.0; ++i) {
        const double tick = (beat + (double)i / steps) * shown->space.ticks;
        const double x = lanes_x(shown, tick);
        const char* said = grid ? grid->syllables[i - 1] : NULL;
        const bool is_and = said && said[0] == '&';
        if (said && *said && !has_room(brush, beat, steps, apart, size, is_and)) {
            said = "";
        }
        if (!said && (i == 1 || i == steps - 1) && is_under_beat(brush, i + 1, apart, size)) {
            said = "";
        }
        if (x < shown->to && tick > part->begin - 0.5 && tick < part->end - 0.5) {
            say(brush, (At){x, y}, said, i + 1, apart, size);
        }
    }
}

/* Groups over more than a beat, as five over two: each step has its number but where a beat
   stands; a dot where one is near. */
static void draw_groups(const Brush* const brush, const Shown* const shown,
                        const ShownGrid* const part, const double y, const LimbPair pair)
{
    const double size = brush->g->said_size[pair];
    const int64_t beat = (int64_t)shown->space.ticks;
    const int64_t group = common_multiple(beat, part->step);
    const int64_t steps = group / part->step;
    const double apart = shown->space.beat * part->step / shown->space.ticks;
    const double half = 0.7 * brush->g->count_size[pair]; /* of a beat's number, lit */
    for (int64_t tick = part->step; apart > 6.0 && tick < (int64_t)part->end; tick += part->step) {
        const double x = lanes_x(shown, (double)tick);
        const double off = (double)(tick % beat) / (double)beat;
        const double near = fmin(off, 1.0 - off) * shown->space.beat;
        const int number = (int)(tick / part->step % steps) + 1;
        if (tick % beat && near > half + 2.0 && x < shown->to && x > brush->g->beat_1 &&
            (double)tick > part->begin - 0.5) {
            const bool is_near = near < half + 0.45 * size;
            say(brush, (At){x, y}, steps > 16 || is_near ? "" : NULL, number, apart, size);
        }
    }
}

int lanes_grids(const Shown* const shown, const bool is_feet, ShownGrid grids[2])
{
    const SeenBar* const bar = shown->bar;
    const double end = shown->space.ticks * shown->space.beats;
    const int32_t step = is_feet ? bar->feet_step : bar->hands_step;
    const bool is_cut = bar->fill && (!is_feet || bar->fill_feet);
    grids[0] = (ShownGrid){step, 0.0, is_cut ? bar->fill_begin : end, 0.0};
    grids[1] = (ShownGrid){bar->fill_step, bar->fill_begin, end, (double)bar->fill_end};
    return is_cut ? 2 : 1;
}

void draw_count(const Brush* const brush, const Shown* const shown, const bool is_feet)
{
    ShownGrid grids[2];
    const Geometry* const g = brush->g;
    const LimbPair pair = is_feet ? PAIR_FEET : PAIR_HANDS;
    const double y = is_feet ? g->count_feet : g->count_hands;
    const double size = g->count_size[pair];
    const int count = lanes_grids(shown, is_feet, grids);
    const int first = (int)shown->space.first; /* of the page */
    const int last = (int)ceil(fmin(shown->space.first + shown->space.seen, shown->space.beats));
    const int beats = shown->is_next ? (is_feet ? 0 : 1) : last;
    for (int i = 0; !shown->is_next && i < count; ++i) {
        const bool divides = grids[i].step > 0 && !((int64_t)shown->space.ticks % grids[i].step);
        for (int beat = first; divides && beat < beats; ++beat) {
            draw_syllables(brush, shown, beat, &grids[i], y, g->said_size[pair]);
        }
        if (!divides && grids[i].step > 0 && (double)grids[i].step < shown->space.ticks) {
            draw_groups(brush, shown, &grids[i], y, pair);
        }
    }
    for (int beat = first; beat < beats; ++beat) {
        draw_beat_number(brush, shown, beat, y,
                         shown->space.beat < (brush->g->reads ? 1.2 : 1.6) * size ? 0.8 * size
                                                                                  : size);
    }
}

/* ---- Under the feet */

/* A bracket for each turn of the figure; open where it crosses the bar line; a
   triangle where a turn starts on one. */
static void draw_feet_turns(const Brush* const brush, const Shown* const shown,
                            const SeenTurns* const turns, const double top, const double y)
{
    const Colour colour = shown->is_next ? brush->colours->edge : brush->colours->soft;
    const double end = shown->to < lanes_x(shown, shown->space.ticks * shown->space.beats)
                           ? shown->to
                           : lanes_x(shown, shown->space.ticks * shown->space.beats);
    double from = brush->g->staff > shown->from || shown->is_next ? shown->from : brush->g->staff;
    const bool from_before = turns->count == 0 || turns->ticks[0] > 0;
    if (!from_before) {
        from = lanes_x(shown, turns->ticks[0]);
    }
    for (uint32_t i = from_before ? 0 : 1; i <= turns->count; ++i) {
        const bool is_last = i == turns->count;
        const double next = is_last ? end : lanes_x(shown, turns->ticks[i]);
        if (from < shown->to) {
            const double to = next - 3.0 < shown->to ? next - 3.0 : shown->to;
            ink_line(brush->cairo, from, y, to, y, 1.0, colour);
        }
        from = next;
    }
    for (uint32_t i = 0; i < turns->count; ++i) {
        const double x = lanes_x(shown, turns->ticks[i]);
        if (x > shown->to) {
            break;
        }
        if (turns->ticks[i] == 0) {
            ink_triangle(brush->cairo, x, top + 4.0, 4.5, POINT_UP, true, brush->colours->ink);
        }
        ink_line(brush->cairo, x + 0.5, top + (turns->ticks[i] ? 0.0 : 8.0), x + 0.5, y, 1.0,
                 colour);
    }
}

/* Hands get marks of their own where their figure doesn't just start with the bar:
   along the foot of their ground, so that the rows never jump. */
static void draw_hands_turns(const Brush* const brush, const Shown* const shown)
{
    const SeenTurns* const turns = &shown->bar->hands_turns;
    const double y = brush->g->row_bottom[1] - 0.5;
    if (turns->count == 0 || (turns->count == 1 && turns->ticks[0] == 0)) {
        return;
    }
    for (uint32_t i = 0; i < turns->count; ++i) {
        const double x = lanes_x(shown, turns->ticks[i]) + 0.5;
        if (x > shown->to) {
            break;
        }
        ink_line(brush->cairo, x, y - 7.0, x, y, 1.0, brush->colours->soft);
        ink_line(brush->cairo, x, y, x + 9.0, y, 1.0, brush->colours->soft);
    }
}

/* Hollow where nothing is heard: off, or in the gap. */
void draw_clicks(const Brush* const brush, const Shown* const shown)
{
    const SeenClicks* const clicks = &shown->bar->clicks;
    const bool off = brush->view->values[CONTROL_CLICK] < 1.5f || shown->bar->gap;
    const Colour colour = shown->is_next || off ? brush->colours->edge : brush->colours->ink;
    const double dense =
        clicks->count > 0 ? shown->space.beat * shown->space.beats / clicks->count : 99.0;
    const Mark mark = {colour, dense < 14.0 ? 0.6 : 0.95, off};
    for (uint32_t i = 0; i < clicks->count; ++i) {
        const double x = lanes_x(shown, clicks->ticks[i]);
        if (x <= shown->to - (shown->is_next ? 6.0 : 0.0)) {
            const double tall = clicks->ticks[i] ? 5.0 : 9.0;
            ink_line(brush->cairo, x, brush->g->click, x, brush->g->click - tall, 1.5, mark.colour);
            head_draw(brush->cairo, x, brush->g->click, VOICE_SNARE, mark);
        }
    }
}

void draw_turns(const Brush* const brush, const Shown* const shown)
{
    draw_feet_turns(brush, shown, &shown->bar->feet_turns, brush->g->turns_top, brush->g->turns);
    draw_hands_turns(brush, shown);
}
