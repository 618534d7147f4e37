// SPDX-License-Identifier: ISC
/* The open list, which pushes the staff aside and never covers what is heard, and
   what plays now and next side by side. */
#include "brush.h"
#include "handed.h"

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
                ink_line(brush->cairo, x, y, x,
                         handed_limb(brush->view, stroke.limb) % 2 ? y + tall : y - tall, 1.5,
                         brush->colours->ink);
            }
        }
    }
}

static void draw_row_words(const Brush* const brush, const RowPlaces* const places,
                           const Entry* const entry, const bool plays, const bool waits)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const bool marked = plays || waits;
    char text[256];
    brush_fit(brush, places->name.x, places->name.y, places->name_room,
              brush_type(13.0, marked, ALIGN_LEFT, colours->ink), entry->label);
    if (marked) {
        ink_triangle(brush->cairo, places->sign.x, places->sign.y, 5.0, POINT_RIGHT, plays,
                     colours->accent);
    }
    if (plays) {
        snprintf(text, sizeof text, "playing now");
    } else if (waits) {
        snprintf(text, sizeof text, "next, at bar %d",
                 (int)(view->place.change_bar - view_phrase(view)) % view_phrase_bars(view) + 1);
    } else {
        snprintf(text, sizeof text, "%s", *entry->told ? entry->told : entry->comment);
    }
    if (!brush->g->compact) {
        ink_text_in(brush->cairo, places->comment.x, places->comment.y, places->name_room,
                    brush_type(10.0, marked, ALIGN_LEFT, marked ? colours->accent : colours->soft),
                    text);
    }
}

static void draw_row(const Brush* const brush, const Target* const target)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const List* const list = &view->list;
    const Entry* const entry =
        &view->shelves[list->shelf].entries[list->rows[target->id.index].entry];
    const bool selected = target->id.index == list->selected;
    const bool plays = entry->id == view_playing(view, list->shelf);
    const bool waits = !plays && view->place.waiting && selected;
    const bool has_picture = entry->figure && !brush->g->compact;
    const Box box = target->box;
    const RowPlaces places = geometry_in_row(brush->g, box, has_picture, has_rates(view));
    if (selected || brush_is_hovered(brush, target->id)) {
        ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    }
    if (selected) {
        ink_frame(brush->cairo, box, 3.0, 2.0, colours->accent);
    }
    draw_row_words(brush, &places, entry, plays, waits);
    if (has_picture) {
        draw_small(brush, entry->figure, places.picture);
    }
    if (entry->difficulty) {
        brush_difficulty(brush, places.dots, entry->difficulty);
    }
    const Demand* const demand = &view->demands[target->id.index];
    if (has_rates(view) && demand->is_known) {
        const double most = fmax(demand->feet[0].rate, demand->feet[1].rate);
        char text[16];
        snprintf(text, sizeof text, "%.0f", most);
        ink_text(brush->cairo, places.rate.x, places.rate.y,
                 brush_type(16.0, true, ALIGN_RIGHT, colours->ink), text);
        ink_text(brush->cairo, places.rate_unit.x, places.rate_unit.y,
                 brush_type(11.0, false, ALIGN_LEFT, colours->soft), "/s");
    }
}

static void draw_heading(const Brush* const brush, const int row, const Box box)
{
    const View* const view = brush->view;
    const List* const list = &view->list;
    const Entry* const entry = &view->shelves[list->shelf].entries[list->rows[row].entry];
    const Palette* const colours = brush->colours;
    const Box edge = brush->g->list_box;
    const At at = geometry_in_row(brush->g, box, false, false).heading;
    char family[64];
    snprintf(family, sizeof family, "%s", *entry->family ? entry->family : "as written");
    if (family[0] >= 'a' && family[0] <= 'z') {
        family[0] = (char)(family[0] - 'a' + 'A');
    }
    ink_line(brush->cairo, edge.x, box.y + 0.5, edge.x + edge.width, box.y + 0.5, 1.0,
             colours->rule);
    ink_text_in(brush->cairo, at.x, at.y, 200.0, brush_type(11.0, true, ALIGN_LEFT, colours->soft),
                family);
}

static void draw_find(const Brush* const brush, const ListPlaces* const places, const Box box)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    char text[FIND_ROOM + 8];
    const bool is_empty = !*view->list.find;
    snprintf(text, sizeof text, "%s|", view->list.find);
    brush_fit(brush, places->title.x, places->title.y, places->title_room,
              brush_type(16.0, true, ALIGN_LEFT, colours->ink), kind_rows[view->list.shelf].title);
    ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    ink_frame(brush->cairo, box, 3.0, 1.0, colours->edge);
    ink_text_in(brush->cairo, places->letters.x, places->letters.y, places->letters_room,
                brush_type(13.0, false, ALIGN_LEFT, is_empty ? colours->soft : colours->ink),
                is_empty ? "type to find a name or family" : text);
}

void draw_list(const Brush* const brush)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const List* const list = &view->list;
    const Palette* const colours = brush->colours;
    const ListPlaces places = geometry_list(g);
    const int rows = geometry_list_rows(g);
    ink_frame(brush->cairo, g->list_box, 5.0, 1.0, colours->edge);
    draw_find(brush, &places, geometry_find(g));
    for (int i = 0; i < rows && list->first + i < list->count; ++i) {
        if (list->rows[list->first + i].is_heading) {
            draw_heading(brush, list->first + i, geometry_list_row(g, i));
        }
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        if (brush->targets->targets[i].id.kind == TARGET_LIST_ROW) {
            draw_row(brush, &brush->targets->targets[i]);
        }
    }
    if (!list->count) {
        ink_text(brush->cairo, places.nothing.x, places.nothing.y,
                 brush_type(13.0, false, ALIGN_LEFT, colours->soft), "nothing has these letters");
    }
}

/* ---- Under the staff while a list is open */

static void draw_demand(const Brush* const brush, const SidePlaces* const places,
                        const FootRate feet[2])
{
    static const char* const names[] = {"Right foot", "Left foot"};
    const Palette* const colours = brush->colours;
    const Type soft = brush_type(11.0, false, ALIGN_LEFT, colours->soft);
    char text[64];
    for (int foot = 0; foot < 2; ++foot) {
        const At at = places->foot[foot];
        ink_text(brush->cairo, at.x, at.y, soft, names[foot]);
        snprintf(text, sizeof text, "%.0f", feet[foot].rate);
        ink_text(brush->cairo, places->rate, at.y,
                 brush_type(13.0, true, ALIGN_RIGHT, colours->ink), text);
        if (feet[foot].gap_ms > 0.0) {
            snprintf(text, sizeof text, "/s, %.0f ms apart", feet[foot].gap_ms);
        } else {
            snprintf(text, sizeof text, "/s");
        }
        ink_text(brush->cairo, places->rate_unit, at.y, soft, text);
    }
}

static void draw_side(const Brush* const brush, const SidePlaces* const places,
                      const char* const title, const bool filled, const Entry* const entry,
                      const FootRate* const feet)
{
    const Palette* const colours = brush->colours;
    ink_triangle(brush->cairo, places->sign.x, places->sign.y, 4.5, POINT_RIGHT, filled,
                 colours->accent);
    ink_text(brush->cairo, places->title.x, places->title.y,
             brush_type(11.0, true, ALIGN_LEFT, colours->accent), title);
    brush_fit(brush, places->name.x, places->name.y, places->comment.width,
              brush_type(16.0, true, ALIGN_LEFT, colours->ink), entry ? entry->label : "");
    if (feet) {
        ink_text_in(brush->cairo, places->line.x, places->line.y, places->comment.width,
                    brush_type(11.0, false, ALIGN_LEFT, colours->soft),
                    entry ? entry->comment : "");
        draw_demand(brush, places, feet);
    } else if (entry) {
        ink_name(brush->cairo, places->comment, brush_type(11.0, false, ALIGN_LEFT, colours->soft),
                 entry->comment);
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
    const FootRate feet[] = {handed_rate(view, 0), handed_rate(view, 1)};
    const bool rates = has_rates(view);
    const SidePlaces sides[] = {geometry_side(g, 0), geometry_side(g, 1)};
    char title[64];
    ink_line(brush->cairo, g->labels, floor(g->panel) + 0.5, g->width, floor(g->panel) + 0.5, 1.0,
             brush->colours->rule);
    draw_side(brush, &sides[0], "Playing now", true, now, rates ? feet : NULL);
    if (next && next->id != playing) {
        const Demand* const demand = &view->demands[list->selected];
        snprintf(title, sizeof title, view->place.waiting ? "Next, at bar %d" : "Chosen",
                 (int)(view->place.change_bar - view_phrase(view)) % view_phrase_bars(view) + 1);
        const FootRate chosen[] = {demand->feet[handed_limb(view, 0)],
                                   demand->feet[handed_limb(view, 1)]};
        const Box edge = sides[1].edge;
        ink_line(brush->cairo, edge.x, edge.y, edge.x, edge.y + edge.height, 1.0,
                 brush->colours->rule);
        draw_side(brush, &sides[1], title, false, next, rates && demand->is_known ? chosen : NULL);
    }
}
