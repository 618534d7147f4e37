// SPDX-License-Identifier: ISC
#include "ink.h"

#include <math.h>
#include <pango/pangocairo.h>

static const double pi = 3.141592653589793;

static void set_grey(cairo_t* const cairo, const double grey)
{
    cairo_set_source_rgb(cairo, grey, grey, grey);
}

static PangoLayout* layout_of(cairo_t* const cairo, const Type type, const char* const words)
{
    PangoLayout* const layout = pango_cairo_create_layout(cairo);
    PangoFontDescription* const font = pango_font_description_from_string("Sans");
    pango_font_description_set_absolute_size(font, type.size * PANGO_SCALE);
    pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    pango_layout_set_text(layout, words, -1);
    return layout;
}

double ink_width(cairo_t* const cairo, const Type type, const char* const words)
{
    int width = 0;
    PangoLayout* const layout = layout_of(cairo, type, words);
    pango_layout_get_size(layout, &width, NULL);
    g_object_unref(layout);
    return (double)width / PANGO_SCALE;
}

double ink_text(cairo_t* const cairo, const double x, const double y, const Type type,
                const char* const words)
{
    int width = 0;
    PangoLayout* const layout = layout_of(cairo, type, words);
    pango_layout_get_size(layout, &width, NULL);
    const double wide = (double)width / PANGO_SCALE;
    const double base = (double)pango_layout_get_baseline(layout) / PANGO_SCALE;
    const double back = type.align == ALIGN_LEFT     ? 0.0
                        : type.align == ALIGN_CENTRE ? wide / 2.0
                                                     : wide;
    set_grey(cairo, type.grey);
    cairo_move_to(cairo, x - back, y - base);
    pango_cairo_show_layout(cairo, layout);
    g_object_unref(layout);
    return wide;
}

void ink_line(cairo_t* const cairo, const double x1, const double y1, const double x2,
              const double y2, const double width, const double grey)
{
    set_grey(cairo, grey);
    cairo_set_line_width(cairo, width);
    cairo_move_to(cairo, x1, y1);
    cairo_line_to(cairo, x2, y2);
    cairo_stroke(cairo);
}

static void draw_cross(cairo_t* const cairo, const double x, const double y, const double r)
{
    ink_line(cairo, x - r, y - r, x + r, y + r, 1.5, 0.0);
    ink_line(cairo, x - r, y + r, x + r, y - r, 1.5, 0.0);
}

/* A ring over the head: the hat is open; with a bar through it, half open. */
static void draw_ring(cairo_t* const cairo, const double x, const double y, const bool barred)
{
    cairo_set_line_width(cairo, 0.8);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x, y, 2.2, 0.0, 2.0 * pi);
    cairo_stroke(cairo);
    if (barred) {
        ink_line(cairo, x - 2.6, y + 2.6, x + 2.6, y - 2.6, 0.8, 0.0);
    }
}

static void draw_oval(cairo_t* const cairo, const double x, const double y, const double r)
{
    cairo_save(cairo);
    cairo_translate(cairo, x, y);
    cairo_rotate(cairo, -0.35);
    cairo_scale(cairo, 1.25 * r, 0.9 * r);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, 0.0, 0.0, 1.0, 0.0, 2.0 * pi);
    cairo_restore(cairo);
    cairo_fill(cairo);
}

/* Corners on a circle, the first at the top: three a triangle, four a diamond. */
static void draw_corners(cairo_t* const cairo, const double x, const double y, const double r,
                         const int corners)
{
    cairo_new_path(cairo);
    for (int i = 0; i < corners; ++i) {
        const double turn = 2.0 * pi * i / corners;
        cairo_line_to(cairo, x + r * sin(turn), y - r * cos(turn));
    }
    cairo_close_path(cairo);
    cairo_fill(cairo);
}

void ink_head(cairo_t* const cairo, const double x, const double y, const Voice voice,
              const double scale)
{
    const double r = 3.0 * scale;
    set_grey(cairo, 0.0);
    switch (voice) {
    case VOICE_HAT_OPEN:
    case VOICE_HAT_HALF_OPEN:
        draw_ring(cairo, x + 5.5, y - 5.0, voice == VOICE_HAT_HALF_OPEN);
        draw_cross(cairo, x, y, r);
        break;
    case VOICE_HAT_CLOSED:
    case VOICE_HAT_PEDAL:
    case VOICE_SIDE_STICK:
    case VOICE_RIDE:
    case VOICE_CRASH:
    case VOICE_CRASH_2:
    case VOICE_CHINA:
    case VOICE_SPLASH:
        draw_cross(cairo, x, y, r);
        break;
    case VOICE_RIDE_BELL:
        draw_corners(cairo, x, y, 1.4 * r, 4);
        break;
    case VOICE_COWBELL:
        draw_corners(cairo, x, y, 1.35 * r, 3);
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
        draw_oval(cairo, x, y, r);
        break;
    }
}

void ink_accent(cairo_t* const cairo, const double x, const double y)
{
    ink_line(cairo, x - 3.5, y - 1.9, x + 3.5, y, 0.9, 0.0);
    ink_line(cairo, x + 3.5, y, x - 3.5, y + 1.9, 0.9, 0.0);
}

void ink_brackets(cairo_t* const cairo, const double x, const double y)
{
    set_grey(cairo, 0.0);
    cairo_set_line_width(cairo, 0.9);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x + 1.0, y, 7.5, pi - 0.5, pi + 0.5);
    cairo_stroke(cairo);
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x - 1.0, y, 7.5, -0.5, 0.5);
    cairo_stroke(cairo);
}

void ink_graces(cairo_t* const cairo, const double x, const double y, const int count,
                const double up)
{
    for (int i = 0; i < count; ++i) {
        const double at = x - 7.0 - 5.0 * (count - 1 - i);
        ink_head(cairo, at, y, VOICE_SNARE, 0.55);
        ink_line(cairo, at + 1.6, y, at + 1.6, y - 8.0 * up, 0.8, 0.0);
        if (count == 1) {
            ink_line(cairo, at - 1.4, y - 3.0 * up, at + 4.2, y - 6.5 * up, 0.7, 0.0);
        }
    }
}
