// SPDX-License-Identifier: ISC
/* The open list, below the staff, which goes on above it: a line for each entry, in columns
   under their names. */
#include "brush.h"
#include "handed.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static bool has_rates(const View* const view)
{
    return view->list.shelf == ENTRY_FEET;
}

/* ---- Pictures */

/* A bar of so many ticks on one line: right limbs up, left limbs down. */
typedef struct {
    Box box; /* the line is its middle */
    double ticks;
    bool feet;
} SmallLine;

static void draw_small(const Brush* const brush, const Figure* const figure,
                       const SmallLine* const small)
{
    const Box box = small->box;
    const double y = floor(box.y + box.height / 2.0) + 0.5;
    ink_line(brush->cairo, box.x, y, box.x + box.width, y, 1.0, brush->colours->edge);
    if (!figure) {
        return;
    }
    for (int64_t from = 0; from < (int64_t)small->ticks; from += figure->cycle_ticks) {
        for (uint32_t i = 0; i < figure->stroke_count; ++i) {
            const Stroke stroke = figure->strokes[i];
            const double share = (double)(from + stroke.tick) / small->ticks;
            const double tall = (stroke.level == LEVEL_GHOST    ? 0.3
                                 : stroke.level == LEVEL_NORMAL ? 0.6
                                                                : 0.95) *
                                box.height / 2.0;
            if (share < 1.0 && limb_is_foot(stroke.limb) == small->feet) {
                const double x = box.x + box.width * share;
                ink_line(brush->cairo, x, y, x,
                         handed_limb(brush->view, stroke.limb) % 2 ? y + tall : y - tall, 1.5,
                         brush->colours->ink);
            }
        }
    }
}

/* Hands of a turnaround over its feet would not be told apart on one line, so it has hands
   alone; a groove's first bar has a line of each. */
static void draw_picture(const Brush* const brush, const Entry* const entry, const Box box)
{
    const Figure* const figure = entry->figure;
    if (figure) {
        const bool feet = !figure->plays_limb[RIGHT_HAND] && !figure->plays_limb[LEFT_HAND];
        draw_small(brush, figure, &(SmallLine){box, 4.0 * TICKS_PER_QUARTER, feet});
    } else if (entry->groove) {
        const Part* const part = &entry->groove->parts[entry->groove->form[0]];
        const double ticks = (double)meter_bar_ticks(entry->groove->meter);
        const double half = box.height / 2.0;
        const Box hands = {box.x, box.y, box.width, half};
        const Box feet = {box.x, box.y + half, box.width, half};
        draw_small(brush, part->hands, &(SmallLine){hands, ticks, false});
        draw_small(brush, part->feet, &(SmallLine){feet, ticks, true});
    }
}

/* ---- Lines */

/* Whether it plays, or comes; where. */
static void draw_state(const Brush* const brush, const double x, const double y, const double room,
                       const bool plays)
{
    char text[64];
    const View* const view = brush->view;
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->accent);
    snprintf(text, sizeof text, "playing now");
    if (!plays) {
        snprintf(text, sizeof text, "next, at bar %d",
                 (int)(view->place.change_bar - view_phrase(view)) % view_phrase_bars(view) + 1);
    }
    if (ink_width(brush->cairo, type, text) <= room) {
        ink_text(brush->cairo, x, y, type, text);
    }
}

static void draw_name(const Brush* const brush, const ListColumns* const columns, const Box box,
                      const Entry* const entry, const bool plays, const bool waits)
{
    const Palette* const colours = brush->colours;
    const bool marked = plays || waits;
    const double y = box.y + box.height - 7.0;
    const double right = columns->name + columns->name_room;
    const double wide = brush_fit(brush, columns->name, y, columns->name_room,
                                  brush_type(13.0, marked, ALIGN_LEFT, colours->ink), entry->label);
    double x = columns->name + wide + 10.0;
    x += brush_marks(brush, (At){x, y}, brush->view->list.shelf, entry, right - x);
    if (marked) {
        ink_triangle(brush->cairo, columns->sign, y - 4.5, 5.0, POINT_RIGHT, plays,
                     colours->accent);
        draw_state(brush, x, y, right - x, plays);
    }
}

static void draw_numbers(const Brush* const brush, const ListColumns* const columns, const Box box,
                         const Entry* const entry)
{
    const Palette* const colours = brush->colours;
    const double y = box.y + box.height - 7.0;
    const Type soft = brush_type(12.0, false, ALIGN_RIGHT, colours->soft);
    ink_text(brush->cairo, columns->meter, y, brush_type(13.0, true, ALIGN_RIGHT, colours->ink),
             entry->meter);
    ink_text(brush->cairo, columns->tempo, y, soft, entry->tempo);
    brush_fit(brush, columns->length, y, columns->length_room, soft, entry->length);
    if (entry->difficulty) {
        brush_difficulty(brush, (At){columns->dots, box.y + box.height / 2.0}, entry->difficulty);
    }
}

static void draw_demand(const Brush* const brush, const ListColumns* const columns, const Box box,
                        const Demand* const demand)
{
    char text[16];
    const Type type = brush_type(13.0, true, ALIGN_RIGHT, brush->colours->ink);
    for (int foot = 0; demand->is_known && foot < 2; ++foot) {
        snprintf(text, sizeof text, "%.0f", demand->feet[handed_limb(brush->view, foot)].rate);
        ink_text(brush->cairo, columns->rate[foot], box.y + box.height - 7.0, type, text);
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
    const Box box = target->box;
    const ListColumns columns = geometry_columns(brush->g, list->shelf);
    if (selected || brush_is_hovered(brush, target->id)) {
        ink_fill_round(brush->cairo, box, 3.0, colours->raised);
    }
    if (selected) {
        ink_frame(brush->cairo, box, 3.0, 2.0, colours->accent);
    }
    draw_name(brush, &columns, box, entry, plays, waits);
    draw_numbers(brush, &columns, box, entry);
    if (has_rates(view)) {
        draw_demand(brush, &columns, box, &view->demands[target->id.index]);
    }
    draw_picture(brush, entry,
                 (Box){columns.picture, box.y + 2.0, columns.picture_room, box.height - 4.0});
}

static void draw_heading(const Brush* const brush, const int row, const Box box)
{
    const View* const view = brush->view;
    const List* const list = &view->list;
    const Entry* const entry = &view->shelves[list->shelf].entries[list->rows[row].entry];
    const Palette* const colours = brush->colours;
    const double x = geometry_columns(brush->g, list->shelf).name;
    char family[64];
    const char* const words = list->rows[row].words ? list->rows[row].words : entry->family;
    snprintf(family, sizeof family, "%s", *words ? words : "as written");
    if (family[0] >= 'a' && family[0] <= 'z') {
        family[0] = (char)(family[0] - 'a' + 'A');
    }
    ink_text_in(brush->cairo, x, box.y + box.height - 7.0, 300.0,
                brush_type(12.0, true, ALIGN_LEFT, colours->soft), family);
}

/* ---- Over the lines */

/* A triangle beside the one that sorts: up, the least comes first. */
static void draw_head(const Brush* const brush, const ListColumn column, const double x,
                      const Align align, const char* const words)
{
    const List* const list = &brush->view->list;
    const ListOrder order = list->orders[list->shelf];
    const Palette* const colours = brush->colours;
    const double y = geometry_list(brush->g).heads;
    const bool sorts = column != LIST_BY_NONE && order.column == column;
    const bool over = brush_is_hovered(brush, (TargetId){TARGET_HEAD, (int)column});
    const double wide = ink_text(
        brush->cairo, x, y,
        brush_type(11.0, sorts, align, sorts || over ? colours->ink : colours->soft), words);
    if (sorts) {
        ink_triangle(brush->cairo, align == ALIGN_LEFT ? x + wide + 8.0 : x - wide - 8.0, y - 4.0,
                     4.0, order.falls ? POINT_DOWN : POINT_UP, true, colours->ink);
    }
}

static void draw_heads(const Brush* const brush)
{
    static const char* const pictures[ENTRY_KINDS] = {[ENTRY_HANDS] = "a bar",
                                                      [ENTRY_FEET] = "a bar",
                                                      [ENTRY_TURNAROUND] = "its hands",
                                                      [ENTRY_GROOVE] = "first bar: hands over feet",
                                                      [ENTRY_KIT] = ""};
    const EntryKind kind = brush->view->list.shelf;
    const ListColumns columns = geometry_columns(brush->g, kind);
    const Box box = brush->g->list_box;
    const double y = geometry_list(brush->g).rule;
    draw_head(brush, LIST_BY_NAME, columns.name, ALIGN_LEFT, "name");
    if (kind == ENTRY_GROOVE) {
        draw_head(brush, LIST_BY_METER, columns.meter, ALIGN_RIGHT, "meter");
    }
    if (kind != ENTRY_KIT) {
        draw_head(brush, LIST_BY_TEMPO, columns.tempo, ALIGN_RIGHT, "tempo");
        draw_head(brush, LIST_BY_LENGTH, columns.length, ALIGN_RIGHT, "length");
        draw_head(brush, LIST_BY_DIFFICULTY, columns.dots, ALIGN_LEFT, "difficulty");
    }
    if (kind == ENTRY_FEET) {
        draw_head(brush, LIST_BY_RIGHT, columns.rate[0], ALIGN_RIGHT, "R /s");
        draw_head(brush, LIST_BY_LEFT, columns.rate[1], ALIGN_RIGHT, "L /s");
    }
    draw_head(brush, LIST_BY_NONE, columns.picture, ALIGN_LEFT, pictures[kind]);
    ink_line(brush->cairo, box.x, y, box.x + box.width, y, 1.0, brush->colours->rule);
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
                is_empty ? "type words, a grid, under 7, at 180, 7/8" : text);
}

/* How many there are, or were found. */
static void draw_amount(const Brush* const brush, const ListPlaces* const places)
{
    char text[64];
    const View* const view = brush->view;
    const List* const list = &view->list;
    const Shelf* const shelf = &view->shelves[list->shelf];
    int found = 0, own = 0;
    for (int i = 0; i < list->count; ++i) {
        found += !list->rows[i].is_heading;
        own += !list->rows[i].is_heading && shelf->entries[list->rows[i].entry].is_own;
    }
    snprintf(text, sizeof text, "%d of %d, %d own", found, shelf->count, own);
    ink_text(brush->cairo, places->count.x, places->count.y,
             brush_type(12.0, false, ALIGN_RIGHT, brush->colours->soft), text);
}

/* What there is to know of what is chosen. */
static void draw_comment(const Brush* const brush, const ListPlaces* const places)
{
    const View* const view = brush->view;
    const List* const list = &view->list;
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
    const int32_t asked = (int32_t)view->values[kind_controls[list->shelf]];
    if (places->comment_room > 0.0 && asked && !view_entry(view, list->shelf, asked)) {
        char text[128];
        snprintf(text, sizeof text, "%d is missing: %s", (int)asked,
                 kind_rows[list->shelf].instead);
        ink_text_in(brush->cairo, places->comment.x, places->comment.y, places->comment_room,
                    brush_type(11.0, true, ALIGN_LEFT, brush->colours->ink), text);
    } else if (list->selected >= 0 && list->selected < list->count && places->comment_room > 0.0) {
        const Entry* const entry =
            &view->shelves[list->shelf].entries[list->rows[list->selected].entry];
        ink_text_in(brush->cairo, places->comment.x, places->comment.y, places->comment_room, type,
                    entry->comment);
        ink_text_in(brush->cairo, places->told.x, places->told.y, places->comment_room, type,
                    entry->told);
    } else if (places->comment_room > 0.0 && list->count) {
        ink_text_in(brush->cairo, places->comment.x, places->comment.y, places->comment_room, type,
                    list->says);
    }
}

void draw_list(const Brush* const brush)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const List* const list = &view->list;
    const ListPlaces places = geometry_list(g);
    const int rows = geometry_list_rows(g);
    const double y = floor(g->list_box.y) - 1.5;
    ink_line(brush->cairo, 0.0, y, g->width, y, 1.0, brush->colours->rule);
    draw_find(brush, &places, geometry_find(g));
    draw_amount(brush, &places);
    draw_comment(brush, &places);
    draw_heads(brush);
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
        ink_text_in(brush->cairo, places.nothing.x, places.nothing.y,
                    g->list_box.x + g->list_box.width - places.nothing.x,
                    brush_type(13.0, false, ALIGN_LEFT, brush->colours->soft), list->says);
    }
}
