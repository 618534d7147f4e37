// SPDX-License-Identifier: ISC
/* shown_text.h - every text of a picture, and the box of its ink.  The scene draws words by
   one function of Pango's, which this stands in for. */
#pragma once

#include "stage.h"

#include <pango/pangocairo.h>
#include <stdio.h>
#include <string.h>

enum { SHOWN_TEXTS_MAX = 1024, SHOWN_TEXT_ROOM = 160 };

typedef struct {
    char text[SHOWN_TEXT_ROOM];
    Box box; /* as the context is scaled */
    double size;
    bool is_cut;
} ShownText;

static struct {
    int count;
    ShownText texts[SHOWN_TEXTS_MAX];
} shown;

/* In the place of Pango's: notes, and draws nothing. */
void pango_cairo_show_layout(cairo_t* const cairo, PangoLayout* const layout)
{
    PangoRectangle ink;
    double x = 0.0, y = 0.0;
    pango_layout_get_extents(layout, &ink, NULL);
    cairo_get_current_point(cairo, &x, &y);
    double scale = 1.0, none = 0.0;
    cairo_user_to_device(cairo, &x, &y);
    cairo_user_to_device_distance(cairo, &scale, &none);
    if (shown.count < SHOWN_TEXTS_MAX && ink.width > 0) {
        ShownText* const text = &shown.texts[shown.count++];
        const double unit = PANGO_SCALE / scale;
        snprintf(text->text, sizeof text->text, "%s", pango_layout_get_text(layout));
        text->box = (Box){x + ink.x / unit, y + ink.y / unit, ink.width / unit, ink.height / unit};
        text->is_cut = pango_layout_is_ellipsized(layout);
        text->size =
            pango_font_description_get_size(pango_layout_get_font_description(layout)) / unit;
    }
}

/* Draws a view, and notes its texts. */
static inline void shown_draw(const View* const view)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    shown.count = 0;
    screen_draw(cairo, view, false);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

/* The first with this text; NULL if there is none. */
static inline const ShownText* shown_find(const char* const text)
{
    for (int i = 0; i < shown.count; ++i) {
        if (!strcmp(shown.texts[i].text, text)) {
            return &shown.texts[i];
        }
    }
    return NULL;
}

/* How often a text stands there, whole. */
static inline int shown_times(const char* const text)
{
    int times = 0;
    for (int i = 0; i < shown.count; ++i) {
        times += !strcmp(shown.texts[i].text, text);
    }
    return times;
}
