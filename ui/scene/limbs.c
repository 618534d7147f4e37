// SPDX-License-Identifier: ISC
/* The labels beside the rows. */
#include "brush.h"
#include "handed.h"
#include "words.h"

#include <stdio.h>

static void label(const Brush* const brush, const At at, const char* const words)
{
    ink_text(brush->cairo, at.x, at.y, brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft),
             words);
}

/* Single strokes a second of both feet together that were kept up for a minute:
   1034 in 60 s, a speed-drumming competition, feet category, 2018, told by one
   encyclopedia-style page only. */
static const double record_of_feet = 1034.0 / 60.0;

static bool is_past_record(const View* const view)
{
    return (double)view->readouts[READOUT_RIGHT_FOOT_RATE] +
               (double)view->readouts[READOUT_LEFT_FOOT_RATE] >
           record_of_feet;
}

/* Strokes in the busiest second; reversed where no one is known to have kept it up. */
static void draw_rate(const Brush* const brush, const int foot, const LabelPlaces* const places)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const Palette* const colours = brush->colours;
    const double rate = handed_rate(view, foot).rate;
    const double gap = handed_rate(view, foot).gap_ms;
    const At at = places->rate;
    char text[64];
    snprintf(text, sizeof text, "%.0f", rate);
    const bool is_past = is_past_record(view);
    const Type type = brush_type(g->compact ? 16.0 : 20.0, true, ALIGN_RIGHT,
                                 is_past ? colours->ground : colours->ink);
    if (is_past) {
        const double wide = ink_width(brush->cairo, type, text);
        ink_fill_round(
            brush->cairo,
            (Box){at.x - wide - 3.0, at.y - 0.85 * type.size, wide + 6.0, 1.1 * type.size}, 3.0,
            colours->ink);
    }
    ink_text(brush->cairo, at.x, at.y, type, text);
    if (g->compact || g->list) {
        label(brush, places->rate_unit, "/s");
        return;
    }
    label(brush, places->record, is_past ? "past the record" : "strokes/s");
    if (gap > 0.0 && gap < (double)readout_rows[READOUT_RIGHT_FOOT_GAP].most) {
        snprintf(text, sizeof text, "closest %.0f ms", gap);
        ink_text_in(brush->cairo, places->closest.x, places->closest.y, places->closest_room,
                    brush_type(11.0, false, ALIGN_LEFT, colours->soft), text);
    }
}

/* The switch and its name; how wide that is. */
static double draw_switch(const Brush* const brush, const LabelPlaces* const places, const bool on,
                          const char* const name)
{
    brush_switch(brush, places->on, on);
    return ink_text(brush->cairo, places->name.x, places->name.y,
                    brush_type(13.0, true, ALIGN_LEFT, brush->colours->ink), name);
}

static void draw_limb(const Brush* const brush, const Target* const target, const int limb)
{
    static const char* const full[LIMB_COUNT] = {"Right hand", "Left hand", "Right foot",
                                                 "Left foot"};
    static const char* const brief[LIMB_COUNT] = {"R hand", "L hand", "R foot", "L foot"};
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const LabelPlaces places = geometry_label(g, limb);
    const bool on = view->values[handed_switch(view, limb)] > 0.0f;
    draw_switch(brush, &places, on, g->compact || g->list ? brief[limb] : full[limb]);
    const SeenBar* const bar = view_bar(view, view_shown(view));
    if (g->low || geometry_folds(g, limb)) {
        brush_focus(brush, target, 1.0);
        return;
    }
    if (limb >= 2) {
        draw_rate(brush, limb - 2, &places);
    } else if (bar) {
        const char* const word = on ? words_voice(brush_voice_of_limb(bar, limb)) : "yours to play";
        ink_text_in(brush->cairo, places.voice.x, places.voice.y, places.voice_room,
                    brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft), word);
    }
    brush_focus(brush, target, 1.0);
}

static void draw_click(const Brush* const brush)
{
    const Target* const target = targets_find(brush->targets, (TargetId){TARGET_CLICK, 0});
    if (target) {
        const LabelPlaces places = geometry_label(brush->g, LIMB_COUNT);
        const float click = brush->view->values[CONTROL_CLICK];
        const double wide = draw_switch(brush, &places, click > 1.5f, "Click");
        const bool rests = click > 1.5f && brush->view->place.click_rests;
        if (!brush->g->compact && !brush->g->list && click > 0.5f && (click < 1.5f || rests)) {
            label(brush, (At){places.name.x + wide + 6.0, places.name.y - 0.5},
                  rests ? "silent" : "count-in");
        }
        brush_focus(brush, target, 1.0);
    }
}

static void draw_place(const Brush* const brush)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    char text[96];
    if (!bar) {
        return;
    }
    const char letter[] = {(char)('A' + bar->part), '\0'};
    const double size = g->compact ? 15.0 : 20.0;
    const double wide = ink_text(brush->cairo, g->labels, g->count_hands,
                                 brush_type(size, true, ALIGN_LEFT, brush->colours->ink), letter);
    if (view->values[CONTROL_ENABLED] <= 0.0f) {
        snprintf(text, sizeof text, "off");
    } else if (view->place.bar < -BARS_SHOWN_MAX) {
        snprintf(text, sizeof text, "count-in");
    } else if (view->place.bar < 0) {
        snprintf(text, sizeof text, "count-in %d", (int)-view->place.bar);
    } else if (view->held) {
        snprintf(text, sizeof text, "%u of %u, held", bar->in_phrase + 1, bar->phrase_bars);
    } else {
        snprintf(text, sizeof text, g->compact || g->list ? "%u of %u" : "bar %u of %u",
                 bar->in_phrase + 1, bar->phrase_bars);
    }
    const Type type = brush_type(g->compact ? 11.0 : 13.0, false, ALIGN_LEFT, brush->colours->ink);
    double x = g->labels + wide + 7.0;
    x += ink_text(brush->cairo, x, g->count_hands, type, text);
    if (bar->fill && x + ink_width(brush->cairo, type, ", fill") < g->beat_1 - 8.0) {
        ink_text(brush->cairo, x, g->count_hands, type, ", fill");
    }
}

void draw_limbs(const Brush* const brush)
{
    draw_place(brush);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const TargetId id = {TARGET_DIAL, (int)handed_switch(brush->view, limb)};
        draw_limb(brush, targets_find(brush->targets, id), limb);
    }
    draw_click(brush);
}
