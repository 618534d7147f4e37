// SPDX-License-Identifier: ISC
/* The open list, which pushes the staff aside and never covers what is heard, and
   what plays now and next side by side. */
#include "brush.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static bool has_rates(const View* const view)
{
    return view->list.shelf == ENTRY_FEET;
}

/* One bar of the figure on one line: right limbs up, left limbs down; hands of a
   turnaround over its feet would not be told apart here, so it has hands alone. */
static void draw_small(const Brush* const brush, const Figure* const figure, const Box box)
{
    const double y = floor(box.y + box.height / 2.0) + 0.5;
    const int64_t bar = 4 * TICKS_PER_QUARTER;
    const bool has_hands = figure->plays_limb[RIGHT_HAND] || figure->plays_limb[LEFT_HAND];
    ink_line(brush->cairo, box.x, y, box.x + box.width, y, 1.0, brush->colours->edge);
    for (int64_t from = 0; from < bar; from += figure->cycle_ticks) {
        for (uint32_t i = 0; i < figure->stroke_count; ++i) {
            const Stroke stroke = figure->strokes[i];
            const double share = (double)(from + stroke.tick) / (double)bar;
            const double tall = stroke.level == LEVEL_GHOST    ? 3.0
                                : stroke.level == LEVEL_NORMAL ? 6.0
                                                               : 9.5;
            if (share < 1.0 && limb_is_foot(stroke.limb) != has_hands) {
                const double x = box.x + box.width * share;
                ink_line(brush->cairo, x, y, x, stroke.limb % 2 ? y + tall : y - tall, 1.5,
                         brush->colours->ink);
            }
        }
    }
}

static void draw_line_words(const Brush* const brush, const Box box, const Entry* const entry,
                            const bool plays, const bool waits)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const double left = box.x + 18.0;
    const bool has_picture = entry->figure && !brush->g->compact;
    const double room = has_picture ? 142.0 : box.width - (has_rates(view) ? 132.0 : 90.0);
    const bool one_line = brush->g->compact;
    char text[128];
    brush_fit(brush, left, box.y + (one_line ? 18.0 : 14.0), room,
              brush_type(13.0, plays || waits, ALIGN_LEFT, colours->ink), entry->label);
    if (plays) {
        ink_triangle(brush->cairo, box.x + 8.0, box.y + 15.0, 5.0, POINT_RIGHT, true,
                     colours->accent);
        snprintf(text, sizeof text, "playing now");
    } else if (waits) {
        ink_triangle(brush->cairo, box.x + 8.0, box.y + 15.0, 5.0, POINT_RIGHT, false,
                     colours->accent);
        snprintf(text, sizeof text, "next, at bar %d",
                 (int)(view->place.change_bar - view_phrase(view)) % view_phrase_bars(view) + 1);
    } else {
        snprintf(text, sizeof text, "%s", entry->comment);
    }
    const bool marked = plays || waits;
    if (!one_line) {
        ink_text_in(brush->cairo, left, box.y + 26.0, room,
                    brush_type(10.0, marked, ALIGN_LEFT, marked ? colours->accent : colours->soft),
                    text);
    }
}

static void draw_line(const Brush* const brush, const Target* const target)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const List* const list = &view->list;
    const Entry* const entry =
        &view->shelves[list->shelf].entries[list->rows[target->id.index].entry];
    const bool selected = target->id.index == list->selected;
    const bool plays = entry->id == view_playing(view, list->shelf);
    const bool waits = !plays && view->place.waiting && selected;
    const Box box = target->box;
    if (selected || brush_is_hovered(brush, target->id)) {
        ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    }
    if (selected) {
        ink_frame(brush->cairo, box, 3.0, 2.0, colours->accent);
    }
    draw_line_words(brush, box, entry, plays, waits);
    const double right = box.x + box.width;
    if (entry->figure && !brush->g->compact) {
        const double x = has_rates(view) ? right - 204.0 : right - 160.0;
        draw_small(brush, entry->figure, (Box){x, box.y + 4.0, 88.0, box.height - 8.0});
    }
    if (entry->difficulty) {
        brush_difficulty(brush, has_rates(view) ? right - 104.0 : right - 60.0,
                         box.y + box.height / 2.0, entry->difficulty);
    }
    const Demand* const demand = &view->demands[target->id.index];
    if (has_rates(view) && demand->is_known) {
        const double most = fmax(demand->feet[0].rate, demand->feet[1].rate);
        char text[16];
        snprintf(text, sizeof text, "%.0f", most);
        ink_text(brush->cairo, right - 22.0, box.y + box.height / 2.0 + 6.0,
                 brush_type(16.0, true, ALIGN_RIGHT, colours->ink), text);
        ink_text(brush->cairo, right - 19.0, box.y + box.height / 2.0 + 6.0,
                 brush_type(11.0, false, ALIGN_LEFT, colours->soft), "/s");
    }
}

static void draw_heading(const Brush* const brush, const int row, const Box box)
{
    const View* const view = brush->view;
    const List* const list = &view->list;
    const Entry* const entry = &view->shelves[list->shelf].entries[list->rows[row].entry];
    const Palette* const colours = brush->colours;
    char family[64];
    snprintf(family, sizeof family, "%s", *entry->family ? entry->family : "as written");
    if (family[0] >= 'a' && family[0] <= 'z') {
        family[0] = (char)(family[0] - 'a' + 'A');
    }
    ink_line(brush->cairo, box.x - 4.0, box.y + 0.5, box.x + box.width + 4.0, box.y + 0.5, 1.0,
             colours->rule);
    ink_text_in(brush->cairo, box.x + 18.0, box.y + box.height - 8.0, 200.0,
                brush_type(11.0, true, ALIGN_LEFT, colours->soft), family);
}

static void draw_find(const Brush* const brush, const Target* const target)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    char text[FIND_ROOM + 8];
    const bool is_empty = !*view->list.find;
    snprintf(text, sizeof text, "%s|", view->list.find);
    brush_fit(brush, brush->g->list_box.x + 12.0, box.y + 20.0, 70.0,
              brush_type(16.0, true, ALIGN_LEFT, colours->ink), kind_rows[view->list.shelf].title);
    ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    ink_frame(brush->cairo, box, 3.0, 1.0, colours->edge);
    ink_text_in(brush->cairo, box.x + 8.0, box.y + 19.0, box.width - 12.0,
                brush_type(13.0, false, ALIGN_LEFT, is_empty ? colours->soft : colours->ink),
                is_empty ? "type to find a name or family" : text);
}

void draw_list(const Brush* const brush)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const List* const list = &view->list;
    const Palette* const colours = brush->colours;
    const int rows = geometry_list_rows(g);
    ink_frame(brush->cairo, g->list_box, 5.0, 1.0, colours->edge);
    draw_find(brush, targets_find(brush->targets, (TargetId){TARGET_FIND, 0}));
    for (int i = 0; i < rows && list->first + i < list->count; ++i) {
        const int row = list->first + i;
        const Box box = {g->list_box.x + 4.0, g->list_rows + g->row_height * i,
                         g->list_box.width - 8.0, g->row_height};
        if (list->rows[row].is_heading) {
            draw_heading(brush, row, box);
        }
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        if (brush->targets->targets[i].id.kind == TARGET_LIST_ROW) {
            draw_line(brush, &brush->targets->targets[i]);
        }
    }
    if (!list->count) {
        ink_text(brush->cairo, g->list_box.x + 18.0, g->list_rows + 24.0,
                 brush_type(13.0, false, ALIGN_LEFT, colours->soft), "nothing has these letters");
    }
}

/* ---- Under the staff while a list is open */

static void draw_demand(const Brush* const brush, const double x, double y,
                        const FootDemand feet[2])
{
    static const char* const names[] = {"Right foot", "Left foot"};
    char text[64];
    for (int foot = 0; foot < 2; ++foot) {
        const Palette* const colours = brush->colours;
        ink_text(brush->cairo, x, y, brush_type(11.0, false, ALIGN_LEFT, colours->soft),
                 names[foot]);
        snprintf(text, sizeof text, "%.0f", feet[foot].rate);
        ink_text(brush->cairo, x + 82.0, y, brush_type(13.0, true, ALIGN_RIGHT, colours->ink),
                 text);
        if (feet[foot].gap_ms > 0.0) {
            snprintf(text, sizeof text, "/s, %.0f ms apart", feet[foot].gap_ms);
        } else {
            snprintf(text, sizeof text, "/s");
        }
        ink_text(brush->cairo, x + 86.0, y, brush_type(11.0, false, ALIGN_LEFT, colours->soft),
                 text);
        y += 16.0;
    }
}

static void draw_side(const Brush* const brush, const double x, const char* const title,
                      const bool filled, const Entry* const entry, const FootDemand* const feet)
{
    const Palette* const colours = brush->colours;
    const double y = brush->g->panel + 18.0;
    ink_triangle(brush->cairo, x + 5.0, y - 4.0, 4.5, POINT_RIGHT, filled, colours->accent);
    ink_text(brush->cairo, x + 18.0, y, brush_type(11.0, true, ALIGN_LEFT, colours->accent), title);
    brush_fit(brush, x + 18.0, y + 20.0, (brush->g->right - brush->g->labels) / 2.0 - 36.0,
              brush_type(16.0, true, ALIGN_LEFT, colours->ink), entry ? entry->label : "");
    if (feet) {
        draw_demand(brush, x + 18.0, y + 40.0, feet);
    } else if (entry) {
        const double room = (brush->g->right - brush->g->labels) / 2.0 - 36.0;
        ink_name(brush->cairo, (Box){x + 18.0, y + 28.0, room, 34.0},
                 brush_type(11.0, false, ALIGN_LEFT, colours->soft), entry->comment);
    }
}

void draw_now_and_next(const Brush* const brush)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const List* const list = &view->list;
    const int32_t playing = view_playing(view, list->shelf);
    const Entry* const now = view_entry(view, list->shelf, playing);
    const Entry* next = NULL;
    if (list->selected >= 0 && list->selected < list->count) {
        next = &view->shelves[list->shelf].entries[list->rows[list->selected].entry];
    }
    const FootDemand feet[] = {{(double)view->readouts[READOUT_RIGHT_FOOT_RATE],
                                (double)view->readouts[READOUT_RIGHT_FOOT_GAP]},
                               {(double)view->readouts[READOUT_LEFT_FOOT_RATE],
                                (double)view->readouts[READOUT_LEFT_FOOT_GAP]}};
    const bool rates = has_rates(view);
    const double half = (g->right - g->labels) / 2.0;
    char title[64];
    ink_line(brush->cairo, g->labels, floor(g->panel) + 0.5, g->width, floor(g->panel) + 0.5, 1.0,
             brush->colours->rule);
    draw_side(brush, g->labels, "Playing now", true, now, rates ? feet : NULL);
    if (next && next->id != playing) {
        const Demand* const demand = &view->demands[list->selected];
        snprintf(title, sizeof title, view->place.waiting ? "Next, at bar %d" : "Chosen",
                 (int)(view->place.change_bar - view_phrase(view)) % view_phrase_bars(view) + 1);
        ink_line(brush->cairo, g->labels + half - 14.0, g->panel + 8.0, g->labels + half - 14.0,
                 g->panel + 86.0, 1.0, brush->colours->rule);
        draw_side(brush, g->labels + half, title, false, next,
                  rates && demand->is_known ? demand->feet : NULL);
    }
}
