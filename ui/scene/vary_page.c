// SPDX-License-Identifier: ISC
#include "vary_page.h"

#include "../../plugin/engine/varied/variation.h"
#include "handed.h"
#include "kept_strip.h"
#include "vary_row.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const Control dials[VARY_DIALS] = {CONTROL_VARIATION, CONTROL_VARIATION_THEN,
                                          CONTROL_GROW_EVERY};

void vary_page_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    const VaryPage* const page = &view->vary;
    const VaryPlaces places = vary_place_of(g);
    for (int i = 0; i < VARY_DIALS; ++i) {
        target_list_add(list, TARGET_DIAL, (int)dials[i], GROUP_PANEL, places.dials[i]);
    }
    for (int line = 0; line < places.rows && page->first + line < page->count; ++line) {
        const int row = page->first + line;
        target_list_add(list, TARGET_VARY, row, row == page->cursor ? GROUP_ROWS : GROUP_NONE,
                        vary_place_row(&places, line));
    }
    kept_strip_targets(view, g, list);
}

/* What of the page plays now, and what is asked for. */
static int playing_of(const View* const view)
{
    const int grown = view->vary.grown[view->vary.is_deep];
    return grown >= 0 ? grown : view->vary.playing[view->vary.is_deep];
}

static int asked_of(const View* const view)
{
    return (int)view->values[view->vary.is_deep ? CONTROL_VARIATION_THEN : CONTROL_VARIATION];
}

/* At another depth than what sounds nothing of the page sounds. */
static bool is_of_what_plays(const View* const view)
{
    return !view->vary.is_deep || view->vary.playing[0] == view->vary.first_made;
}

static bool plays(const View* const view, const int row)
{
    return row == playing_of(view) && is_of_what_plays(view);
}

static bool waits(const View* const view, const int row)
{
    return row == asked_of(view) && !plays(view, row) && view->place.waiting;
}

bool vary_page_sounds(const View* const view, const Geometry* const g, Box* const box)
{
    const VaryPlaces places = vary_place_of(g);
    const int line = playing_of(view) - view->vary.first;
    const bool is_seen = view->vary.count && is_of_what_plays(view) && line >= 0 &&
                         line < places.rows && playing_of(view) < view->vary.count;
    *box = vary_place_row(&places, is_seen ? line : 0);
    return is_seen;
}

void vary_page_help(const View* const view, const int row, char text[VARY_HELP_ROOM])
{
    static const char* const playable[] = {
        "", "", "  Hard: a foot comes to 7 a second, or two of it within 120 ms.",
        "  For four minutes nobody could."};
    text[0] = '\0';
    if (row < 0 || row >= view->vary.count) {
        return;
    }
    const VaryRow* const shown = &view->vary.rows[row];
    if (*shown->why) {
        snprintf(text, VARY_HELP_ROOM, "Not offered, %s: %s", shown->name, shown->why);
    } else {
        snprintf(text, VARY_HELP_ROOM, "%s%s  %s", shown->help,
                 playable[shown->feet.verdict.playable], "Enter: keep.  Esc: as chosen");
    }
}

/* ---- Over the rows */

enum { AMOUNT_ROOM = 160 };

static void amount_words(const View* const view, char text[AMOUNT_ROOM])
{
    const VaryPage* const page = &view->vary;
    const Entry* const feet = view_entry(view, ENTRY_FEET, view_playing(view, ENTRY_FEET));
    if (!page->count) {
        snprintf(text, AMOUNT_ROOM, "The feet rest in this bar");
    } else if (page->is_deep && page->first_made) {
        snprintf(text, AMOUNT_ROOM, "%d on top of %s", page->offered,
                 variation_words((uint32_t)page->first_made));
    } else {
        snprintf(text, AMOUNT_ROOM, "%d from %s", page->offered, feet ? feet->label : "these feet");
    }
}

/* One place behind the point, as rates are told. */
static double foot_limit(const View* const view, const int foot)
{
    return round(10.0 * view->vary.limits[handed_limb(view, foot)]) / 10.0;
}

/* What a foot is judged by for a minute; the longer times and both feet follow other lines. */
static void limit_words(const View* const view, char text[AMOUNT_ROOM])
{
    const double right = foot_limit(view, 0);
    const double left = foot_limit(view, 1);
    if (fabs(right - left) < 0.05) {
        snprintf(text, AMOUNT_ROOM, "limit %g /s a foot", right);
    } else {
        snprintf(text, AMOUNT_ROOM, "limit right %g, left %g /s", right, left);
    }
}

/* As much of both as there is room for: the feet's name stands in their card as well. */
static void draw_amount(const Brush* const brush, const VaryPlaces* const places,
                        const RowPlaces* const columns)
{
    char amount[AMOUNT_ROOM], limit[AMOUNT_ROOM], text[2 * AMOUNT_ROOM + 4];
    const View* const view = brush->view;
    const Type type = brush_type(12.0, false, ALIGN_LEFT, brush->colours->soft);
    const double end =
        columns->right < columns->from ? columns->right - 28.0 : columns->from - 16.0;
    const double room = end - columns->name;
    amount_words(view, amount);
    limit_words(view, limit);
    snprintf(text, sizeof text, "%s; %s", amount, limit);
    if (ink_width(brush->cairo, type, text) > room) {
        snprintf(text, sizeof text, "%d offered; %s", view->vary.offered, limit);
    }
    if (ink_width(brush->cairo, type, text) > room) {
        snprintf(text, sizeof text, "%s", limit);
    }
    ink_text_in(brush->cairo, columns->name, places->head, room, type,
                view->vary.count ? text : amount);
}

static void value_of(const Brush* const brush, const TargetId id, char text[DIAL_TEXT_ROOM + 32])
{
    const View* const view = brush->view;
    char value[DIAL_TEXT_ROOM];
    const char* unit = "";
    dial_text(view, (Control)id.index, view->values[id.index], value, &unit);
    snprintf(text, DIAL_TEXT_ROOM + 32, "%s%s%s", value, *unit ? " " : "", unit);
    if (id.index == CONTROL_VARIATION_THEN && view->values[id.index] < 0.5f) {
        snprintf(text, DIAL_TEXT_ROOM + 32, "nothing more");
    }
    if (view->is_typing && view_target_same(view->focus, id)) {
        snprintf(text, DIAL_TEXT_ROOM + 32, "%.60s|", view->typed);
    }
}

/* A word, and the value after it; the one that the rows are for stands out. */
static void draw_value(const Brush* const brush, const Target* const target, const int which)
{
    static const char* const words[VARY_DIALS] = {"vary", "then", "grow"};
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    const double base = box.y + 13.0;
    const bool over = brush_is_hovered(brush, target->id);
    const bool is_open = which == (brush->view->vary.is_deep ? 1 : 0);
    char text[DIAL_TEXT_ROOM + 32];
    value_of(brush, target->id, text);
    const double wide = ink_text(
        brush->cairo, box.x + 4.0, base,
        brush_type(12.0, false, ALIGN_LEFT, over ? colours->ink : colours->soft), words[which]);
    const double x = box.x + 4.0 + wide + 6.0;
    const double end = brush_fit(brush, x, base, box.x + box.width - x - 2.0,
                                 brush_type(13.0, false, ALIGN_LEFT, colours->ink), text);
    if (is_open) {
        ink_line(brush->cairo, box.x + 4.0, base + 3.5, x + end, base + 3.5, 1.5, colours->ink);
    }
    brush_focus(brush, target, 0.0);
}

/* ---- Rows */

/* That it plays, or where it comes in. */
static void draw_state(const Brush* const brush, const RowPlaces* const columns, const double base,
                       const double name_end, const bool is_playing)
{
    char text[64];
    const View* const view = brush->view;
    const double right = columns->name + columns->name_room;
    const Type type = brush_type(12.0, false, ALIGN_RIGHT, brush->colours->accent);
    snprintf(text, sizeof text, "playing now");
    if (!is_playing) {
        snprintf(
            text, sizeof text, "next, at bar %d",
            (int)floor_mod(view->place.change_bar - view_phrase(view), view_phrase_bars(view)) + 1);
    }
    if (name_end + 8.0 + ink_width(brush->cairo, type, text) <= right) {
        ink_text(brush->cairo, right, base, type, text);
    }
}

/* Its name, and whether it plays, or comes in. */
static void draw_name(const Brush* const brush, const RowPlaces* const columns, const double base,
                      const VaryRow* const row)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const bool is_playing = plays(view, row->number);
    const bool is_marked = is_playing || waits(view, row->number);
    const Type type = brush_type(13.0, is_marked && !brush->g->compact, ALIGN_LEFT,
                                 *row->why ? colours->soft : colours->ink);
    char name[DIAL_TEXT_ROOM];
    handed_words(view, row->name, name, sizeof name);
    const double wide = brush_fit(brush, columns->name, base, columns->name_room, type, name);
    if (is_marked) {
        ink_triangle(brush->cairo, columns->sign, base - 5.0, 5.0, POINT_RIGHT, is_playing,
                     colours->accent);
        draw_state(brush, columns, base, columns->name + wide, is_playing);
    }
}

static void draw_row(const Brush* const brush, const Target* const target,
                     const RowPlaces* const columns)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const VaryRow* const row = &view->vary.rows[target->id.index];
    const Box box = target->box;
    const bool is_cursor = target->id.index == view->vary.cursor;
    const double base = floor(box.y + box.height / 2.0) + 5.0;
    if (is_cursor || brush_is_hovered(brush, target->id)) {
        ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    }
    draw_name(brush, columns, base, row);
    if (*row->why) {
        ink_text_in(brush->cairo, columns->from, base, columns->to - columns->from,
                    brush_type(12.0, false, ALIGN_LEFT, colours->soft), row->why);
    } else {
        vary_row_strokes(brush, columns, box, &row->feet);
        vary_row_numbers(brush, columns, base, &row->feet);
    }
    if (is_cursor) {
        const bool has_keys = view->has_keys && view_target_same(view->focus, target->id);
        ink_frame(brush->cairo, box, 3.0, has_keys ? 2.0 : 1.0,
                  has_keys ? colours->accent : colours->edge);
    }
}

void vary_page_draw(const Brush* const brush)
{
    const VaryPlaces places = vary_place_of(brush->g);
    const RowPlaces columns = vary_place_columns(brush->g, brush->view);
    draw_amount(brush, &places, &columns);
    vary_row_heads(brush, &columns, places.head);
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->id.kind == TARGET_VARY) {
            draw_row(brush, target, &columns);
        }
        for (int k = 0; k < VARY_DIALS; ++k) {
            if (view_target_same(target->id, (TargetId){TARGET_DIAL, (int)dials[k]})) {
                draw_value(brush, target, k);
            }
        }
    }
    kept_strip_draw(brush);
}
