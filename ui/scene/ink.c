// SPDX-License-Identifier: ISC
#include "ink.h"

#include <math.h>
#include <pango/pangocairo.h>
#include <string.h>

static const double pi = 3.141592653589793;

void ink_source(cairo_t* const cairo, const Colour colour)
{
    cairo_set_source_rgb(cairo, colour.red, colour.green, colour.blue);
}

/* Words as they can be shown on a line: what was cut in the middle of a letter loses
   it, and a new line or a tab is a blank.  To be freed. */
static char* fit_to_show(const char* const words)
{
    const char* end = words;
    const size_t length = strlen(words);
    const bool is_cut = !g_utf8_validate(words, -1, &end) && words + length - end < 4;
    char* const text =
        is_cut ? g_strndup(words, (gsize)(end - words)) : g_utf8_make_valid(words, -1);
    for (char* at = text; *at; ++at) {
        if ((unsigned char)*at < ' ') {
            *at = ' ';
        }
    }
    return text;
}

static PangoLayout* layout_of(cairo_t* const cairo, const Type type, const char* const words)
{
    PangoLayout* const layout = pango_cairo_create_layout(cairo);
    PangoFontDescription* const font = pango_font_description_from_string("Sans");
    pango_font_description_set_absolute_size(font, type.size * PANGO_SCALE);
    pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    char* const text = fit_to_show(words);
    pango_layout_set_text(layout, text, -1);
    g_free(text);
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

/* Shows a layout with its first base line at y, and gives it back. */
static double show(cairo_t* const cairo, PangoLayout* const layout, const double x, const double y,
                   const Type type)
{
    int width = 0;
    pango_layout_get_size(layout, &width, NULL);
    const double wide = (double)width / PANGO_SCALE;
    const double base = (double)pango_layout_get_baseline(layout) / PANGO_SCALE;
    const double back = type.align == ALIGN_LEFT     ? 0.0
                        : type.align == ALIGN_CENTRE ? wide / 2.0
                                                     : wide;
    ink_source(cairo, type.colour);
    cairo_move_to(cairo, x - back, y - base);
    pango_cairo_show_layout(cairo, layout);
    g_object_unref(layout);
    return wide;
}

double ink_text(cairo_t* const cairo, const double x, const double y, const Type type,
                const char* const words)
{
    return show(cairo, layout_of(cairo, type, words), x, y, type);
}

static double natural_width(PangoLayout* const layout)
{
    int width = 0;
    pango_layout_get_size(layout, &width, NULL);
    return (double)width / PANGO_SCALE;
}

double ink_text_in(cairo_t* const cairo, const double x, const double y, const double room,
                   const Type type, const char* const words)
{
    PangoLayout* const layout = layout_of(cairo, type, words);
    if (natural_width(layout) > room) {
        pango_layout_set_width(layout, (int)(room * PANGO_SCALE));
        pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    }
    return show(cairo, layout, x, y, type);
}

void ink_name(cairo_t* const cairo, const Box box, const Type type, const char* const words)
{
    const double least = type.size * 2.0 / 3.0;
    Type fit = type;
    for (;;) {
        PangoLayout* const layout = layout_of(cairo, fit, words);
        pango_layout_set_width(layout, (int)(box.width * PANGO_SCALE));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD);
        pango_layout_set_spacing(layout, (int)(-0.1 * fit.size * PANGO_SCALE));
        PangoRectangle used;
        pango_layout_get_extents(layout, NULL, &used);
        const bool fits = pango_layout_get_line_count(layout) <= 2 &&
                          used.width <= (int)(box.width * PANGO_SCALE) &&
                          used.height <= (int)(box.height * PANGO_SCALE);
        if (fits || fit.size <= least) {
            pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR); /* a word that is too long */
            pango_layout_set_height(layout, -2);
            pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
            const double base = (double)pango_layout_get_baseline(layout) / PANGO_SCALE;
            show(cairo, layout, box.x, box.y + base, fit);
            return;
        }
        g_object_unref(layout);
        fit.size -= 1.0;
    }
}

void ink_line(cairo_t* const cairo, const double x1, const double y1, const double x2,
              const double y2, const double width, const Colour colour)
{
    ink_source(cairo, colour);
    cairo_set_line_width(cairo, width);
    cairo_move_to(cairo, x1, y1);
    cairo_line_to(cairo, x2, y2);
    cairo_stroke(cairo);
}

void ink_fill(cairo_t* const cairo, const Box box, const Colour colour)
{
    ink_source(cairo, colour);
    cairo_rectangle(cairo, box.x, box.y, box.width, box.height);
    cairo_fill(cairo);
}

static void round_path(cairo_t* const cairo, const Box box, const double round)
{
    const double right = box.x + box.width;
    const double bottom = box.y + box.height;
    cairo_new_path(cairo);
    cairo_arc(cairo, right - round, box.y + round, round, -pi / 2.0, 0.0);
    cairo_arc(cairo, right - round, bottom - round, round, 0.0, pi / 2.0);
    cairo_arc(cairo, box.x + round, bottom - round, round, pi / 2.0, pi);
    cairo_arc(cairo, box.x + round, box.y + round, round, pi, 1.5 * pi);
    cairo_close_path(cairo);
}

void ink_frame(cairo_t* const cairo, const Box box, const double round, const double width,
               const Colour colour)
{
    const double half = width / 2.0;
    ink_source(cairo, colour);
    cairo_set_line_width(cairo, width);
    round_path(cairo, (Box){box.x + half, box.y + half, box.width - width, box.height - width},
               round);
    cairo_stroke(cairo);
}

void ink_fill_round(cairo_t* const cairo, const Box box, const double round, const Colour colour)
{
    ink_source(cairo, colour);
    round_path(cairo, box, round);
    cairo_fill(cairo);
}

void ink_triangle(cairo_t* const cairo, const double x, const double y, const double half,
                  const Point point, const bool filled, const Colour colour)
{
    const double up = point == POINT_UP ? -0.85 * half : 0.85 * half;
    ink_source(cairo, colour);
    cairo_new_path(cairo);
    if (point == POINT_RIGHT || point == POINT_LEFT) {
        const double on = point == POINT_RIGHT ? 0.85 * half : -0.85 * half;
        cairo_move_to(cairo, x + on, y);
        cairo_line_to(cairo, x - on, y - half);
        cairo_line_to(cairo, x - on, y + half);
    } else {
        cairo_move_to(cairo, x, y + up);
        cairo_line_to(cairo, x - half, y - up);
        cairo_line_to(cairo, x + half, y - up);
    }
    cairo_close_path(cairo);
    cairo_set_line_width(cairo, 1.2);
    if (filled) {
        cairo_fill(cairo);
    } else {
        cairo_stroke(cairo);
    }
}

void ink_hook(cairo_t* const cairo, const double x, const double y, const Colour colour)
{
    ink_source(cairo, colour);
    cairo_set_line_width(cairo, 1.4);
    cairo_new_path(cairo);
    cairo_move_to(cairo, x - 4.0, y - 2.0);
    cairo_line_to(cairo, x + 2.0, y - 2.0);
    cairo_arc(cairo, x + 2.0, y + 1.0, 3.0, -pi / 2.0, pi / 2.0);
    cairo_stroke(cairo);
    ink_line(cairo, x - 4.5, y - 2.0, x - 1.0, y - 5.0, 1.4, colour);
    ink_line(cairo, x - 4.5, y - 2.0, x - 1.0, y + 1.0, 1.4, colour);
}
