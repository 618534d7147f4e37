// SPDX-License-Identifier: ISC
#include "shortlist.h"

#include "kept_strip.h"
#include "vary_row.h"

#include <math.h>
#include <stdio.h>

static const double row_most = 48.0;

ShortlistPlaces shortlist_places(const Geometry* const g, const View* const view)
{
    const Box box = g->list_box;
    const RowPlaces columns = vary_place_columns(g, view);
    const double title = box.y + 22.0;
    const double heads = box.y + (g->compact ? 42.0 : 50.0);
    const double rows = heads + 6.0;
    const double room = box.y + box.height - rows;
    const bool has_hands = !g->compact && columns.name_room > 240.0;
    const double name_room = columns.name_room - 38.0;
    return (ShortlistPlaces){
        .title = title,
        .lots = {{g->compact ? 190.0 : 220.0, title - 15.0, 66.0, 22.0},
                 {g->compact ? 256.0 : 286.0, title - 15.0, 66.0, 22.0}},
        .pair = g->compact ? 340.0 : 388.0,
        .plays = {g->compact ? 484.0 : 532.0, title - 15.0, 84.0, 20.0},
        .heads = heads,
        .rule = floor(rows - 1.0) + 0.5,
        .rows = {box.x, rows, box.width, room},
        .row_height = fmin(floor(room / KEPT_LOT), g->compact ? 22.0 : row_most),
        .has_hands = has_hands,
        .name_room = name_room,
        .marks = columns.name + columns.name_room - 12.0,
    };
}

static Box row_box(const ShortlistPlaces* const places, const int line)
{
    return (Box){places->rows.x, places->rows.y + places->row_height * line, places->rows.width,
                 places->row_height};
}

void shortlist_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    const ShortlistPlaces places = shortlist_places(g, view);
    target_list_add(list, TARGET_LIST, 0, GROUP_NONE, g->list_box);
    for (int lot = 0; lot < 2; ++lot) {
        target_list_add(list, TARGET_KEPT_LOT, lot, GROUP_KEPT, places.lots[lot]);
    }
    target_list_add(list, TARGET_DIAL, CONTROL_KEPT, GROUP_PANEL, places.plays);
    for (int line = 0; line < KEPT_LOT; ++line) {
        const int slot = view->kept.lot + line;
        target_list_add(list, TARGET_KEPT, slot,
                        slot == view->shortlist.cursor ? GROUP_ROWS : GROUP_NONE,
                        row_box(&places, line));
    }
}

bool shortlist_sounds(const View* const view, const Geometry* const g, Box* const box)
{
    const ShortlistPlaces places = shortlist_places(g, view);
    const int line = view->kept.playing - 1 - view->kept.lot;
    const bool is_seen = view->kept.playing && line >= 0 && line < KEPT_LOT;
    *box = row_box(&places, is_seen ? line : 0);
    return is_seen;
}

bool shortlist_says(const View* const view, const Geometry* const g, Box* const box)
{
    const double base = shortlist_places(g, view).heads;
    const bool is_dial = view->hover.kind == TARGET_DIAL;
    *box = (Box){0.0, base - 15.0, g->width, 20.0};
    return g->compact &&
           (view->asked.is_open || (*view->edit.note && !view->is_typing && !is_dial));
}

static void draw_lot(const Brush* const brush, const Target* const target)
{
    static const char* const words[] = {"1 to 8", "9 to 16"};
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    const bool is_chosen = target->id.index * KEPT_LOT == brush->view->kept.lot;
    const bool over = brush_is_hovered(brush, target->id);
    if (is_chosen) {
        ink_fill_round(brush->cairo, box, 3.0, colours->ink);
    } else {
        ink_frame(brush->cairo, box, 3.0, over ? 1.6 : 1.0, over ? colours->ink : colours->edge);
    }
    ink_text(brush->cairo, box.x + box.width / 2.0, box.y + 15.5,
             brush_type(12.0, is_chosen, ALIGN_CENTRE, is_chosen ? colours->ground : colours->soft),
             words[target->id.index]);
    brush_focus(brush, target, 0.0);
}

/* What a lane, a knob or a pedal turns: which of them plays. */
static void draw_plays(const Brush* const brush, const Target* const target)
{
    char text[DIAL_TEXT_ROOM];
    const char* unit = "";
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    const bool over = brush_is_hovered(brush, target->id);
    dial_text(view, CONTROL_KEPT, view->values[CONTROL_KEPT], text, &unit);
    if (view->is_typing && view_target_same(view->focus, target->id)) {
        snprintf(text, sizeof text, "%.8s|", view->typed);
    }
    const double wide =
        ink_text(brush->cairo, box.x + 4.0, box.y + 15.0,
                 brush_type(12.0, false, ALIGN_LEFT, over ? colours->ink : colours->soft), "kept");
    ink_text_in(brush->cairo, box.x + wide + 10.0, box.y + 15.0, box.width - wide - 12.0,
                brush_type(13.0, false, ALIGN_LEFT, colours->ink), text);
    brush_focus(brush, target, 0.0);
}

/* As much as there is room for. */
static void draw_hint(const Brush* const brush, const ShortlistPlaces* const places)
{
    static const char* const hints[] = {
        "S keeps, R names, A hands over, Shift+S drops or puts back",
        "S keeps, R names, A hands over", "R names, A hands over"};
    const Type type = brush_type(12.0, false, ALIGN_RIGHT, brush->colours->soft);
    const double room = brush->g->right - places->plays.x - places->plays.width - 12.0;
    for (size_t i = 0; i < sizeof hints / sizeof *hints; ++i) {
        if (ink_width(brush->cairo, type, hints[i]) <= room) {
            ink_text(brush->cairo, brush->g->right, places->title, type, hints[i]);
            return;
        }
    }
}

static void draw_title(const Brush* const brush, const ShortlistPlaces* const places)
{
    char text[64];
    const KeptShown* const kept = &brush->view->kept;
    const Palette* const colours = brush->colours;
    const double x = brush->g->list_box.x;
    const double wide = ink_text(
        brush->cairo, x, places->title,
        brush_type(brush->g->compact ? 15.0 : 20.0, true, ALIGN_LEFT, colours->ink), "Shortlist");
    snprintf(text, sizeof text, "%d of %d kept", kept_strip_count(brush->view), KEPT_MAX);
    ink_text(brush->cairo, x + wide + 12.0, places->title,
             brush_type(12.0, false, ALIGN_LEFT, colours->soft), text);
    if (kept->pair[0] && kept->pair[1]) {
        snprintf(text, sizeof text, "X swaps %d and %d", kept->pair[0], kept->pair[1]);
        ink_text(brush->cairo, places->pair, places->title,
                 brush_type(13.0, false, ALIGN_LEFT, colours->ink), text);
    }
    draw_hint(brush, places);
}

static void draw_heads(const Brush* const brush, const ShortlistPlaces* const places,
                       const RowPlaces* const columns)
{
    char text[32];
    const View* const view = brush->view;
    const Type soft = brush_type(12.0, false, ALIGN_LEFT, brush->colours->soft);
    const int bar = (int)floor_mod(view_shown(view) - view_phrase(view), view_phrase_bars(view));
    ink_text(brush->cairo, columns->name, places->heads, soft,
             places->has_hands ? "kept, with its hands and fill" : "kept");
    snprintf(text, sizeof text, "feet, in bar %d", bar + 1);
    ink_text(brush->cairo, columns->from, places->heads, soft, text);
    vary_row_heads(brush, columns, places->heads);
    ink_line(brush->cairo, places->rows.x, places->rule, places->rows.x + places->rows.width,
             places->rule, 1.0, brush->colours->rule);
}

/* Two triangles towards each other: one of the pair that X swaps. */
static void draw_pair(const Brush* const brush, const double x, const double y)
{
    ink_triangle(brush->cairo, x, y - 4.0, 3.5, POINT_RIGHT, true, brush->colours->ink);
    ink_triangle(brush->cairo, x, y + 4.0, 3.5, POINT_LEFT, true, brush->colours->ink);
}

/* Under the name. */
static void draw_hands(const Brush* const brush, const ShortlistPlaces* const places,
                       const double x, const double base, const ShortlistRow* const row)
{
    char text[256];
    snprintf(text, sizeof text, "%s%s%s", row->hands, *row->hands && *row->fill ? "; " : "",
             row->fill);
    ink_text_in(brush->cairo, x, base, places->name_room,
                brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft), text);
}

static void draw_row(const Brush* const brush, const Target* const target,
                     const ShortlistPlaces* const places, const RowPlaces* const columns)
{
    char number[16];
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const int index = target->id.index;
    const ShortlistRow* const row = &view->shortlist.rows[index];
    const KeptRow* const kept = &view->kept.rows[index];
    const Box box = target->box;
    const double base = floor(box.y + box.height / 2.0) + 5.0;
    const bool is_cursor = index == view->shortlist.cursor;
    const bool is_playing = kept_strip_plays(view, index);
    const bool is_waiting = kept_strip_waits(view, index);
    const bool is_paired = view->kept.pair[0] == index + 1 || view->kept.pair[1] == index + 1;
    if (is_cursor || brush_is_hovered(brush, target->id)) {
        ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    }
    if (is_playing || is_waiting) {
        ink_triangle(brush->cairo, columns->sign, base - 5.0, 5.0, POINT_RIGHT, is_playing,
                     colours->accent);
    }
    snprintf(number, sizeof number, "%d", index + 1);
    ink_text(brush->cairo, columns->name + 12.0, base,
             brush_type(14.0, true, ALIGN_RIGHT, kept->is_there ? colours->ink : colours->soft),
             number);
    if (kept->is_there) {
        const double up = places->has_hands ? 6.0 : 0.0;
        brush_fit(brush, columns->name + 20.0, base - up, places->name_room,
                  brush_type(13.0, is_playing || is_waiting, ALIGN_LEFT, colours->ink), kept->name);
        if (places->has_hands) {
            draw_hands(brush, places, columns->name + 20.0, base + up, row);
        }
        vary_row_strokes(brush, columns, box, &row->feet);
        vary_row_numbers(brush, columns, base, &row->feet);
    }
    if (is_paired) {
        draw_pair(brush, places->marks, base - 5.0);
    }
    if (is_cursor) {
        const bool has_keys = view->has_keys && view_target_same(view->focus, target->id);
        ink_frame(brush->cairo, box, 3.0, has_keys ? 2.0 : 1.0,
                  has_keys ? colours->accent : colours->edge);
    }
}

void shortlist_draw(const Brush* const brush)
{
    Box said;
    const ShortlistPlaces places = shortlist_places(brush->g, brush->view);
    const RowPlaces columns = vary_place_columns(brush->g, brush->view);
    const double y = floor(brush->g->list_box.y) - 1.5;
    ink_line(brush->cairo, 0.0, y, brush->g->width, y, 1.0, brush->colours->rule);
    draw_title(brush, &places);
    if (!shortlist_says(brush->view, brush->g, &said)) {
        draw_heads(brush, &places, &columns);
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->id.kind == TARGET_KEPT_LOT) {
            draw_lot(brush, target);
        } else if (view_target_same(target->id, (TargetId){TARGET_DIAL, CONTROL_KEPT})) {
            draw_plays(brush, target);
        } else if (target->id.kind == TARGET_KEPT) {
            draw_row(brush, target, &places, &columns);
        }
    }
}
