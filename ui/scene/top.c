// SPDX-License-Identifier: ISC
/* The top row. */
#include "brush.h"
#include "coming.h"
#include "news.h"
#include "picked.h"
#include "signature.h"

#include <stdio.h>

static void label(const Brush* const brush, const At at, const char* const words)
{
    ink_text(brush->cairo, at.x, at.y, brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft),
             words);
}

static void draw_groove(const Brush* const brush, const TopRow* const top)
{
    const View* const view = brush->view;
    const TargetId id = {TARGET_CARD, ENTRY_GROOVE};
    const Entry* const entry = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    const Palette* const colours = brush->colours;
    const Colour sign = brush_is_hovered(brush, id) ? colours->ink : colours->soft;
    const char* const name = entry ? entry->label : view->has_place ? "not in the bank" : "";
    if (!brush->g->compact) {
        label(brush, top->groove_word, "Groove");
    }
    ink_triangle(brush->cairo, top->groove_sign.x, top->groove_sign.y,
                 brush->g->compact ? 5.0 : 4.5, POINT_DOWN, true, sign);
    const Target* const changed =
        targets_find(brush->targets, (TargetId){TARGET_PUT_BACK, ENTRY_KINDS});
    const double room = changed ? changed->box.x - 6.0 - top->groove_name.x : top->groove_room;
    brush_fit(brush, top->groove_name.x, top->groove_name.y, room,
              brush_type(20.0, true, ALIGN_LEFT, colours->ink), name);
    if (changed) {
        char words[PICKED_ROOM];
        picked_words(view, words);
        brush_mark(brush, changed->box, words, false, brush_is_hovered(brush, changed->id));
    }
    brush_focus(brush, targets_find(brush->targets, id), 1.0);
}

/* ---- Meter and tempo */

static void draw_meter(const Brush* const brush, const TopRow* const top)
{
    char text[SIGNATURE_ROOM];
    const SeenBar* const bar = view_bar(brush->view, view_shown(brush->view));
    const double size = brush->g->compact ? 14.0 : 18.0;
    const Type type = brush_type(size, true, ALIGN_CENTRE, brush->colours->ink);
    if (bar) {
        signature_upper(bar->meter, text);
        ink_text(brush->cairo, top->meter[0].x, top->meter[0].y, type, text);
        snprintf(text, sizeof text, "%d", (int)bar->meter.beat_unit);
        ink_text(brush->cairo, top->meter[1].x, top->meter[1].y, type, text);
    }
}

static const char* tempo_label(const View* const view)
{
    const bool is_own = view->values[CONTROL_CLOCK] > 0.5f;
    return is_own ? view->values[CONTROL_LADDER_STEP] > 0.0f ? "Tempo, on the ladder" : "Tempo"
           : view->has_place && !view->place.host_has_tempo ? "Tempo of the groove"
                                                            : "Tempo, from host";
}

/* What the number counts: where one is typed quarters, as the control does. */
static NoteValue tempo_note(const View* const view, const bool typing)
{
    static const Meter common = {4.0, 4};
    const SeenBar* const bar = view_bar(view, view_shown(view));
    return note_value_of(bar && !typing ? bar->meter : common, false);
}

/* What hosts and the control count, where the beat is another note. */
static void draw_quarters(const Brush* const brush, const At at, const double tempo)
{
    char text[64];
    static const char* const words[] = {"host:", "own:", "groove:"};
    const View* const view = brush->view;
    const bool is_own = view->values[CONTROL_CLOCK] > 0.5f;
    const Palette* const colours = brush->colours;
    const int which = is_own ? 1 : view->has_place && !view->place.host_has_tempo ? 2 : 0;
    snprintf(text, sizeof text, "Tempo, %s", words[which]);
    const Type soft = brush_type(11.0, false, ALIGN_LEFT, colours->soft);
    const double x = at.x + ink_text(brush->cairo, at.x, at.y, soft, text) + 8.0;
    head_note(brush->cairo, x, at.y - 2.0, 4, false, (Mark){colours->soft, 0.7, false});
    snprintf(text, sizeof text, "= %.4g", tempo);
    ink_text(brush->cairo, x + 8.0, at.y, soft, text);
}

static void draw_number(const Brush* const brush, const TopRow* const top, const double dot,
                        const char* const text, const bool is_typed)
{
    const Palette* const colours = brush->colours;
    const At at = {top->tempo_number.x + dot, top->tempo_number.y};
    const double size = brush->g->compact ? 20.0 : 28.0;
    const double wide = brush_fit(brush, at.x, at.y, top->tempo.x + top->tempo.width - at.x,
                                  brush_type(size, true, ALIGN_LEFT, colours->ink), text);
    if (is_typed) {
        const bool over = brush_is_hovered(brush, (TargetId){TARGET_DIAL, CONTROL_TEMPO});
        ink_line(brush->cairo, at.x, at.y + 3.5, at.x + wide, at.y + 3.5, 1.0,
                 over ? colours->ink : colours->edge);
    }
}

static void draw_tempo(const Brush* const brush, const TopRow* const top)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const TargetId id = {TARGET_DIAL, CONTROL_TEMPO};
    const bool typing = view->is_typing && view_target_same(view->focus, id);
    const NoteValue note = tempo_note(view, typing);
    char text[TYPED_ROOM + 8];
    const double tempo = (double)view->readouts[READOUT_TEMPO_NOW];
    snprintf(text, sizeof text, tempo > 0.0 ? "%.4g" : "\xE2\x80\x93", tempo / note.quarters);
    if (typing) {
        snprintf(text, sizeof text, "%s|", view->typed);
    }
    const double scale = brush->g->compact ? 1.15 : 1.6;
    head_note(brush->cairo, top->tempo_note.x, top->tempo_note.y, note.unit, note.dotted,
              (Mark){colours->ink, scale, false});
    const double dot = note.dotted ? 4.5 * scale : 0.0;
    ink_text(brush->cairo, top->tempo_equals.x + dot, top->tempo_equals.y,
             brush_type(brush->g->compact ? 14.0 : 18.0, false, ALIGN_CENTRE, colours->soft), "=");
    draw_number(brush, top, dot, text, view->values[CONTROL_CLOCK] > 0.5f || typing);
    const bool is_quarter = note.quarters > 0.999 && note.quarters < 1.001;
    if (!brush->g->compact && (is_quarter || !(tempo > 0.0))) {
        label(brush, top->tempo_word, tempo_label(view));
    } else if (!brush->g->compact) {
        draw_quarters(brush, top->tempo_word, tempo);
    }
    brush_focus(brush, targets_find(brush->targets, id), 1.0);
}

/* ---- What is news of the groove */

static void draw_coming(const Brush* const brush, const At at, const double room,
                        const Coming* const coming)
{
    char text[COMING_ROOM];
    char place[COMING_ROOM];
    const Colour colour = brush->colours->accent;
    const Type type = brush_type(12.0, true, ALIGN_LEFT, colour);
    const double x = at.x + 14.0;
    coming_words(coming, text);
    coming_place(coming, place);
    const double left = room - 14.0 - ink_width(brush->cairo, type, place);
    ink_triangle(brush->cairo, at.x + 5.0, at.y - 4.0, 4.5, POINT_RIGHT, false, colour);
    const double wide = brush_fit(brush, x, at.y, left, type, text);
    ink_text(brush->cairo, x + (wide < left ? wide : left), at.y, type, place);
}

/* Marks of the groove, and then what waits, or else what is news of it. */
static void draw_news(const Brush* const brush, const TopRow* const top)
{
    Coming coming;
    char text[NEWS_ROOM];
    const View* const view = brush->view;
    const Entry* const groove = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    if (top->news_room <= 0.0) {
        return;
    }
    const double marks =
        groove ? brush_marks(brush, top->news, ENTRY_GROOVE, groove, top->news_room) : 0.0;
    const At at = {top->news.x + marks, top->news.y};
    if (coming_of(view, &coming)) {
        draw_coming(brush, at, top->news_room - marks, &coming);
        return;
    }
    news_words(view, text);
    brush_fit(brush, at.x, at.y, top->news_room - marks,
              brush_type(12.0, false, ALIGN_LEFT, brush->colours->ink), text);
}

static void draw_top_words(const Brush* const brush, const TopRow* const top)
{
    const Type right = brush_type(11.0, false, ALIGN_RIGHT, brush->colours->soft);
    if (brush->g->compact) {
        ink_text(brush->cairo, top->clock_word.x, top->clock_word.y, right, "Clock");
        return;
    }
    label(brush, top->on_word, "On");
    label(brush, top->change_word, "Changes come in");
    label(brush, top->clock_word, "Clock");
}

void draw_top(const Brush* const brush)
{
    const TopRow top = geometry_top(brush->g);
    const TargetId enabled = {TARGET_DIAL, CONTROL_ENABLED};
    draw_top_words(brush, &top);
    brush_switch(brush, top.on, brush->view->values[CONTROL_ENABLED] > 0.0f);
    brush_focus(brush, targets_find(brush->targets, enabled), brush->g->compact ? 1.0 : 0.0);
    draw_groove(brush, &top);
    draw_news(brush, &top);
    draw_meter(brush, &top);
    draw_tempo(brush, &top);
    ink_line(brush->cairo, 0.0, brush->g->top + 0.5, brush->g->width, brush->g->top + 0.5, 1.0,
             brush->colours->rule);
}
