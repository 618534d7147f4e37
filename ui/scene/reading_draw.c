// SPDX-License-Identifier: ISC
/* What stands around the staff in the reading view. */
#include "brush.h"
#include "coming.h"
#include "handed.h"
#include "reading.h"
#include "signature.h"
#include "words.h"

#include <math.h>
#include <stdio.h>

static Type type_of(const Brush* const brush, const ReadingRole role, const bool bold,
                    const Align align, const Colour colour)
{
    return brush_type(reading_size(brush->g, role), bold, align, colour);
}

/* Down to two thirds, and only then cut. */
static double fit(const Brush* const brush, const At at, const double room, Type type,
                  const char* const words)
{
    const double least = type.size * 2.0 / 3.0;
    while (type.size > least && ink_width(brush->cairo, type, words) > room) {
        type.size *= 0.97;
    }
    return ink_text_in(brush->cairo, at.x, at.y, room, type, words);
}

/* ---- Over the staff */

static void draw_bar(const Brush* const brush, const ReadingPlaces* const places)
{
    char text[64];
    const View* const view = brush->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Type type = type_of(brush, READING_BAR, true, ALIGN_CENTRE, brush->colours->ink);
    if (!bar) {
        return;
    }
    if (view->values[CONTROL_ENABLED] <= 0.0f) {
        snprintf(text, sizeof text, "off");
    } else if (view->place.bar < 0) {
        snprintf(text, sizeof text, "count-in");
    } else {
        snprintf(text, sizeof text, "%c  bar %u of %u", 'A' + bar->part, bar->in_phrase + 1,
                 bar->phrase_bars);
    }
    ink_text(brush->cairo, places->bar.x, places->bar.y, type, text);
}

static void draw_tempo(const Brush* const brush, const ReadingPlaces* const places)
{
    char text[32];
    const Palette* const colours = brush->colours;
    const SeenBar* const bar = view_bar(brush->view, view_shown(brush->view));
    static const Meter common = {4.0, 4};
    const NoteValue note = note_value_of(bar ? bar->meter : common, false);
    const double tempo = (double)brush->view->readouts[READOUT_TEMPO_NOW] / note.quarters;
    snprintf(text, sizeof text, tempo > 0.0 ? "%.4g" : "\xE2\x80\x93", tempo);
    const double wide =
        ink_text(brush->cairo, places->tempo.x, places->tempo.y,
                 type_of(brush, READING_TEMPO, true, ALIGN_RIGHT, colours->ink), text);
    const double u = brush->g->unit;
    const double dot = note.dotted ? 10.0 * u : 0.0;
    const At head = {places->tempo.x - wide - 82.0 * u - dot, places->tempo.y - 8.0 * u};
    head_note(brush->cairo, head.x, head.y, note.unit, note.dotted,
              (Mark){colours->ink, 2.8 * u, false});
    ink_text(brush->cairo, head.x + 46.0 * u + dot, places->tempo.y,
             type_of(brush, READING_TEMPO, false, ALIGN_CENTRE, colours->soft), "=");
    if (bar) {
        const Type type = type_of(brush, READING_METER, true, ALIGN_CENTRE, colours->ink);
        snprintf(text, sizeof text, "%g", bar->meter.beats_per_bar);
        ink_text(brush->cairo, places->meter.x, places->meter.y, type, text);
        snprintf(text, sizeof text, "%d", (int)bar->meter.beat_unit);
        ink_text(brush->cairo, places->meter.x, places->meter_lower, type, text);
    }
}

/* ---- Beside it */

static void draw_limb(const Brush* const brush, const ReadingPlaces* const places, const int limb)
{
    static const char* const names[LIMB_COUNT] = {"R hand", "L hand", "R foot", "L foot"};
    char text[32];
    const View* const view = brush->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const bool on = view->values[handed_switch(view, limb)] > 0.0f;
    const Palette* const colours = brush->colours;
    const At beside = places->beside[limb];
    fit(brush, places->limb[limb], places->limb_room,
        type_of(brush, READING_LIMB, true, ALIGN_LEFT, colours->ink), names[limb]);
    const Type soft = type_of(brush, READING_VOICE, false, ALIGN_LEFT, colours->soft);
    if (!on) {
        fit(brush, beside, places->limb_room, soft, "yours");
    } else if (limb < 2 && bar) {
        fit(brush, beside, places->limb_room, soft,
            words_voice_brief(brush_voice_of_limb(bar, limb)));
    } else if (limb >= 2) {
        snprintf(text, sizeof text, "%.0f", handed_rate(view, limb - 2).rate);
        const double wide =
            ink_text(brush->cairo, beside.x, beside.y,
                     type_of(brush, READING_RATE, true, ALIGN_LEFT, colours->ink), text);
        ink_text(brush->cairo, beside.x + wide + 8.0 * brush->g->unit, beside.y, soft, "/s");
    }
}

/* ---- Under it */

static void draw_form(const Brush* const brush, const int index, const int bars)
{
    char text[16];
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const double u = brush->g->unit;
    const SeenBar* const bar = view_bar(view, view_phrase(view) + index);
    const bool is_now = view_phrase(view) + index == view_shown(view);
    const Box box = reading_bar(brush->g, index, bars);
    const double wide = fmin(6.0 * u, 0.1 * box.width);
    if (!bar) {
        return;
    }
    if (is_now) {
        ink_fill(brush->cairo, box, colours->shade);
        ink_fill(brush->cairo, (Box){box.x, box.y, wide, box.height}, colours->accent);
    }
    const At at = {box.x + wide + 12.0 * u, box.y + 52.0 * u};
    const Type letter =
        type_of(brush, READING_FORM, true, ALIGN_LEFT, is_now ? colours->accent : colours->ink);
    const Type number =
        type_of(brush, READING_FORM, false, ALIGN_LEFT, is_now ? colours->ink : colours->soft);
    snprintf(text, sizeof text, "%c", 'A' + bar->part);
    const double end = at.x + ink_text(brush->cairo, at.x, at.y, letter, text) + 12.0 * u;
    snprintf(text, sizeof text, "%u", bar->in_phrase + 1);
    if (end + ink_width(brush->cairo, number, text) < box.x + box.width) {
        ink_text(brush->cairo, end, at.y, number, text);
    }
}

/* What waits for its line, if it has a name. */
static const Entry* waiting(const View* const view)
{
    Coming coming;
    return coming_of(view, &coming) ? coming.entry : NULL;
}

/* The fill that the phrase has, wherever it stands. */
static const Entry* last_bar(const View* const view)
{
    uint32_t fill = 0;
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        fill = bar && bar->fill ? bar->fill : fill;
    }
    return fill ? view_entry(view, ENTRY_TURNAROUND, (int32_t)fill) : NULL;
}

static void draw_name(const Brush* const brush, const ReadingPlaces* const places)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const Entry* const next = waiting(view);
    const Entry* const entry = next ? next : last_bar(view);
    const bool is_changed = view->place.waiting && !next;
    const char* const name = is_changed ? "a change" : entry ? entry->label : NULL;
    const bool waits = next || is_changed;
    At at = places->name;
    if (!name) {
        return;
    }
    const Type label = type_of(brush, READING_NAME, false, ALIGN_LEFT, colours->soft);
    const Type type =
        type_of(brush, READING_NAME, true, ALIGN_LEFT, waits ? colours->accent : colours->ink);
    const double wide = ink_width(brush->cairo, type, name) + ink_width(brush->cairo, label, "x");
    const bool is_long = wide + ink_width(brush->cairo, label, "last bar:") > places->name_room;
    at.x += ink_text(brush->cairo, at.x, at.y, label,
                     waits     ? "next:"
                     : is_long ? "last:"
                               : "last bar:") +
            14.0 * brush->g->unit;
    fit(brush, at, places->name.x + places->name_room - at.x, type, name);
}

void draw_reading(const Brush* const brush)
{
    const View* const view = brush->view;
    const ReadingPlaces places = reading_places(brush->g);
    const Entry* const groove = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    for (int i = 0; i < 2; ++i) {
        ink_line(brush->cairo, 0.0, places.rule[i], brush->g->width, places.rule[i], 1.0,
                 brush->colours->rule);
    }
    fit(brush, places.groove, places.groove_room,
        type_of(brush, READING_GROOVE, true, ALIGN_LEFT, brush->colours->ink),
        groove            ? groove->label
        : view->has_place ? "not in the bank"
                          : "");
    draw_bar(brush, &places);
    draw_tempo(brush, &places);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        draw_limb(brush, &places, limb);
    }
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        draw_form(brush, i, view_phrase_bars(view));
    }
    draw_name(brush, &places);
}
