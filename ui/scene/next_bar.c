// SPDX-License-Identifier: ISC
/* What is said of the bar after the one shown, where its line is. */
#include "coming.h"
#include "shown.h"
#include "signature.h"

#include <math.h>
#include <stdio.h>

/* A meter that is another from here on: its numbers, one over the other; in the reading view,
   where the lane is as low as they are, beside each other. */
static void draw_meter(const Brush* const brush, const double x, const Meter meter)
{
    char text[SIGNATURE_ROOM];
    const Geometry* const g = brush->g;
    const bool is_one = g->reads;
    const double size =
        is_one ? g->count_size[PAIR_HANDS] : fmax(0.6 * g->count_size[PAIR_HANDS], 11.0);
    const Type type =
        brush_type(size, true, is_one ? ALIGN_LEFT : ALIGN_CENTRE, brush->colours->ink);
    if (is_one) {
        signature_text(meter, text);
        ink_text_in(brush->cairo, x, g->count_hands, g->right - x, type, text);
        return;
    }
    signature_upper(meter, text);
    const double middle = x + ink_width(brush->cairo, type, text) / 2.0;
    ink_text(brush->cairo, middle, g->count_hands - 0.92 * size, type, text);
    snprintf(text, sizeof text, "%d", (int)meter.beat_unit);
    ink_text(brush->cairo, middle, g->count_hands, type, text);
}

/* The bar after the one shown, by name, and what is another in it. */
static void draw_label(const Brush* const brush, const Shown* const shown,
                       const bool is_other_meter)
{
    char text[64];
    const SeenBar* const bar = shown->bar;
    const Geometry* const g = brush->g;
    const double x = shown->from + (g->compact ? 9.0 : 15.0) * g->scale;
    const double room = g->right - x - (is_other_meter ? 1.6 * g->count_size[PAIR_HANDS] : 0.0);
    double end = x;
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
    snprintf(text, sizeof text, "bar %u %c", bar->in_phrase + 1, 'A' + bar->part);
    const bool is_brief = g->compact || ink_width(brush->cairo, type, text) > room;
    const char* const words = is_brief ? text + 4 : text; /* without "bar" */
    if (!g->compact || room > 20.0) {
        end += ink_text_in(brush->cairo, x, g->count_hands, room, type, words) + 8.0;
    }
    if (is_other_meter) {
        draw_meter(brush, end, bar->meter);
    }
    Coming coming;
    if (bar->is_coming && coming_of(brush->view, &coming)) {
        char what[COMING_ROOM];
        const Type next = brush_type(12.0, true, ALIGN_RIGHT, brush->colours->accent);
        coming_brief(&coming, what);
        ink_text(brush->cairo, g->right, g->count_feet, next, what);
    }
}

void draw_next_bar(const Brush* const brush, const Shown* const shown, const bool is_other_meter)
{
    if (!brush->g->reads) {
        draw_label(brush, shown, is_other_meter);
    } else if (is_other_meter) {
        draw_meter(brush, shown->from + 0.6 * brush->g->count_size[PAIR_HANDS], shown->bar->meter);
    }
}
