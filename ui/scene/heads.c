// SPDX-License-Identifier: ISC
/* The marks of ink.h that stand for strokes. */
#include "ink.h"

#include <math.h>

static const double pi = 3.141592653589793;
static const Colour black = GREY(0.0);

static void draw_cross(cairo_t* const cairo, const double x, const double y, const Mark mark)
{
    const double r = 3.0 * mark.scale;
    const double width = (mark.hollow ? 0.9 : 1.5) * mark.scale;
    ink_line(cairo, x - r, y - r, x + r, y + r, width, mark.colour);
    ink_line(cairo, x - r, y + r, x + r, y - r, width, mark.colour);
}

/* A ring over the head: the hat is open; with a bar through it, half open. */
void head_ring(cairo_t* const cairo, const double x, const double y, const bool barred,
               const Mark mark)
{
    const double s = mark.scale;
    ink_source(cairo, mark.colour);
    cairo_set_line_width(cairo, 0.8 * s);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x, y, 2.2 * s, 0.0, 2.0 * pi);
    cairo_stroke(cairo);
    if (barred) {
        ink_line(cairo, x - 2.6 * s, y + 2.6 * s, x + 2.6 * s, y - 2.6 * s, 0.8 * s, mark.colour);
    }
}

/* Fills the path, or draws along it where the limb is silent. */
static void finish(cairo_t* const cairo, const Mark mark)
{
    ink_source(cairo, mark.colour);
    cairo_set_line_width(cairo, 0.9 * mark.scale);
    if (mark.hollow) {
        cairo_stroke(cairo);
    } else {
        cairo_fill(cairo);
    }
}

static void draw_oval(cairo_t* const cairo, const double x, const double y, const Mark mark)
{
    const double r = 3.0 * mark.scale - (mark.hollow ? 0.3 * mark.scale : 0.0);
    cairo_save(cairo);
    cairo_translate(cairo, x, y);
    cairo_rotate(cairo, -0.35);
    cairo_scale(cairo, 1.25 * r, 0.9 * r);
    cairo_new_path(cairo);
    cairo_arc(cairo, 0.0, 0.0, 1.0, 0.0, 2.0 * pi);
    cairo_restore(cairo);
    finish(cairo, mark);
}

/* Corners on a circle, the first at the top: three a triangle, four a diamond. */
static void draw_corners(cairo_t* const cairo, const double x, const double y, const double r,
                         const int corners, const Mark mark)
{
    cairo_new_path(cairo);
    for (int i = 0; i < corners; ++i) {
        const double turn = 2.0 * pi * i / corners;
        cairo_line_to(cairo, x + r * sin(turn), y - r * cos(turn));
    }
    cairo_close_path(cairo);
    finish(cairo, mark);
}

/* A plus: a hand stops the cymbal.  Our choice: sources don't agree on a sign. */
static void draw_plus(cairo_t* const cairo, const double x, const double y, const Mark mark)
{
    const double r = 3.6 * mark.scale;
    const double width = (mark.hollow ? 0.9 : 1.5) * mark.scale;
    ink_line(cairo, x - r, y, x + r, y, width, mark.colour);
    ink_line(cairo, x, y + r, x, y - r, width, mark.colour);
}

/* A crash rings: a cross in a circle. */
static void draw_circled(cairo_t* const cairo, const double x, const double y, const double r,
                         const Mark mark)
{
    draw_cross(cairo, x, y, (Mark){mark.colour, mark.scale * r / 4.6, mark.hollow});
    ink_source(cairo, mark.colour);
    cairo_set_line_width(cairo, (mark.hollow ? 0.7 : 1.0) * mark.scale);
    cairo_new_path(cairo);
    cairo_arc(cairo, x, y, r * mark.scale, 0.0, 2.0 * pi);
    cairo_stroke(cairo);
}

/* Bars over a cross, and under it: a ride, a china. */
static void draw_barred(cairo_t* const cairo, const double x, const double y, const bool below,
                        const Mark mark)
{
    const double r = 3.0 * mark.scale;
    const double width = (mark.hollow ? 0.8 : 1.2) * mark.scale;
    draw_cross(cairo, x, y, mark);
    ink_line(cairo, x - 1.3 * r, y - 1.25 * r, x + 1.3 * r, y - 1.25 * r, width, mark.colour);
    if (below) {
        ink_line(cairo, x - 1.3 * r, y + 1.25 * r, x + 1.3 * r, y + 1.25 * r, width, mark.colour);
    }
}

void head_draw(cairo_t* const cairo, const double x, const double y, const Voice voice,
               const Mark mark)
{
    const double r = 3.0 * mark.scale;
    switch (voice) {
    case VOICE_HAT_OPEN:
    case VOICE_HAT_HALF_OPEN:
        head_ring(cairo, x + 5.5 * mark.scale, y - 5.0 * mark.scale, voice == VOICE_HAT_HALF_OPEN,
                  mark);
        draw_cross(cairo, x, y, mark);
        break;
    case VOICE_HAT_CLOSED:
    case VOICE_HAT_PEDAL:
    case VOICE_SIDE_STICK:
        draw_cross(cairo, x, y, mark);
        break;
    case VOICE_RIDE:
    case VOICE_CHINA:
        draw_barred(cairo, x, y, voice == VOICE_CHINA, mark);
        break;
    case VOICE_CRASH:
    case VOICE_CRASH_2:
        draw_circled(cairo, x, y, 4.6, mark);
        break;
    case VOICE_SPLASH:
        draw_circled(cairo, x, y, 3.6, mark);
        break;
    case VOICE_RIDE_BELL:
        draw_corners(cairo, x, y, 1.4 * r, 4, mark);
        break;
    case VOICE_CHOKE:
        draw_plus(cairo, x, y, mark);
        break;
    case VOICE_COWBELL:
        draw_corners(cairo, x, y, 1.35 * r, 3, mark);
        break;
    case VOICE_KICK:
    case VOICE_KICK_LEFT:
    case VOICE_SNARE:
    case VOICE_TOM_HIGH:
    case VOICE_TOM_MID:
    case VOICE_TOM_LOW:
    case VOICE_TOM_FLOOR:
    case VOICE_CLICK:
    case VOICE_CLICK_ACCENT:
    case VOICE_COUNT:
        draw_oval(cairo, x, y, mark);
        break;
    }
}

void head_accent(cairo_t* const cairo, const double x, const double y, const Colour colour)
{
    ink_line(cairo, x - 3.5, y - 1.9, x + 3.5, y, 0.9, colour);
    ink_line(cairo, x + 3.5, y, x - 3.5, y + 1.9, 0.9, colour);
}

void head_brackets(cairo_t* const cairo, const double x, const double y, const Mark mark)
{
    const double s = mark.scale;
    ink_source(cairo, mark.colour);
    cairo_set_line_width(cairo, 0.9 * s);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x + 1.0 * s, y, 7.5 * s, pi - 0.5, pi + 0.5);
    cairo_stroke(cairo);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x - 1.0 * s, y, 7.5 * s, -0.5, 0.5);
    cairo_stroke(cairo);
}

void head_graces(cairo_t* const cairo, const double x, const double y, const int count,
                 const double up)
{
    for (int i = 0; i < count; ++i) {
        const double at = x - 7.0 - 5.0 * (count - 1 - i);
        head_draw(cairo, at, y, VOICE_SNARE, (Mark){black, 0.55, false});
        ink_line(cairo, at + 1.6, y, at + 1.6, y - 8.0 * up, 0.8, black);
        if (count == 1) {
            ink_line(cairo, at - 1.4, y - 3.0 * up, at + 4.2, y - 6.5 * up, 0.7, black);
        }
    }
}

void head_note(cairo_t* const cairo, const double x, const double y, const int unit,
               const bool dotted, const Mark mark)
{
    const double s = mark.scale;
    const double stem = x + 3.3 * s;
    const double top = y - 15.0 * s;
    draw_oval(cairo, x, y, (Mark){mark.colour, s, unit < 4});
    if (unit > 1) {
        ink_line(cairo, stem, y - 0.8 * s, stem, top, 1.0 * s, mark.colour);
    }
    if (unit > 4) {
        ink_line(cairo, stem, top, stem + 3.6 * s, top + 5.5 * s, 1.3 * s, mark.colour);
    }
    if (dotted) {
        ink_source(cairo, mark.colour);
        cairo_new_path(cairo);
        cairo_arc(cairo, x + 6.6 * s, y, 1.2 * s, 0.0, 2.0 * pi);
        cairo_fill(cairo);
    }
}

void head_simile(cairo_t* const cairo, const double x, const double y, const Mark mark)
{
    const double s = mark.scale;
    ink_line(cairo, x - 5.0 * s, y + 4.5 * s, x + 5.0 * s, y - 4.5 * s, 1.8 * s, mark.colour);
    for (int side = -1; side <= 1; side += 2) {
        ink_source(cairo, mark.colour);
        cairo_new_path(cairo);
        cairo_arc(cairo, x + 4.0 * s * side, y + 3.0 * s * side, 1.4 * s, 0.0, 2.0 * pi);
        cairo_fill(cairo);
    }
}
