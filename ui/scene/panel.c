// SPDX-License-Identifier: ISC
/* The dials under the staff, in groups. */
#include "brush.h"
#include "handed.h"
#include "shortlist.h"
#include "vary_page.h"

#include <math.h>
#include <stdio.h>

static void draw_choice(const Brush* const brush, const Target* const target, const Control control,
                        const Box box)
{
    const Palette* const colours = brush->colours;
    const Dial* const dial = dial_of(control);
    const Target frame = {target->id, target->group, box};
    char word[DIAL_TEXT_ROOM];
    const int chosen = (int)brush->view->values[control] - (int)control_rows[control].least;
    for (int i = 0; i < target_choice_words(control); ++i) {
        const double left = target_choice_edge(box, control, i);
        const double right = target_choice_edge(box, control, i + 1);
        const bool is_chosen = i == chosen;
        if (is_chosen) {
            ink_fill_round(brush->cairo, (Box){left, box.y, right - left, box.height}, 3.0,
                           colours->ink);
        } else if (i > 0 && i != chosen + 1) {
            ink_line(brush->cairo, left, box.y + 6.0, left, box.y + box.height - 6.0, 1.0,
                     colours->edge);
        }
        handed_words(brush->view, dial->words[i], word, sizeof word);
        ink_text_in(
            brush->cairo, (left + right) / 2.0, box.y + box.height / 2.0 + 4.6, right - left - 2.0,
            brush_type(13.0, is_chosen, ALIGN_CENTRE, is_chosen ? colours->ground : colours->soft),
            word);
    }
    const bool over = brush_is_hovered(brush, target->id);
    ink_frame(brush->cairo, box, 3.0, over ? 1.6 : 1.0, over ? colours->ink : colours->edge);
    brush_focus(brush, &frame, 3.0);
}

/* A rule over the range: a tick at the default, a thick stretch from there to the
   value, a mark at the value. */
static void draw_rule(const Brush* const brush, const Control control, const Box box)
{
    const Palette* const colours = brush->colours;
    const TargetId id = {TARGET_DIAL, (int)control};
    const bool is_dragged = brush->view->is_dragged && view_target_same(brush->view->pressed, id);
    const Colour colour = is_dragged ? colours->accent : colours->ink;
    const double y = geometry_in_cell(box).rule;
    const double value = box.x + box.width * dial_share(control, brush->view->values[control]);
    const double normal = box.x + box.width * dial_share(control, control_rows[control].normal);
    ink_line(brush->cairo, box.x, y, box.x + box.width, y, 1.0, colours->edge);
    ink_line(brush->cairo, normal, y - 3.0, normal, y, 1.0, colours->edge);
    ink_line(brush->cairo, normal, y, value, y, 3.0, colour);
    const double thick = brush_is_hovered(brush, id) || is_dragged ? 5.0 : 3.0;
    ink_line(brush->cairo, value, y - 4.0, value, y + 4.0, thick, colour);
}

static void draw_value(const Brush* const brush, const Target* const target, const Control control)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    const CellPlaces places = geometry_in_cell(box);
    const bool typing = view->is_typing && view_target_same(view->focus, target->id);
    const char* unit = "";
    char text[DIAL_TEXT_ROOM];
    dial_text(view, control, view->values[control], text, &unit);
    if (typing) {
        snprintf(text, sizeof text, "%s|", view->typed);
        unit = dial_of(control)->unit;
        ink_fill_round(brush->cairo, places.typing, 2.0, colours->raised);
        ink_frame(brush->cairo, places.typing, 2.0, 1.0, colours->edge);
    }
    const Type type = brush_type(16.0, false, ALIGN_LEFT, colours->ink);
    const double wide = ink_width(brush->cairo, type, text);
    const bool opens = dial_of(control)->form == FORM_WORDS && !typing;
    const double room = box.width - (opens ? 14.0 : 0.0); /* before the triangle */
    const double size = wide > room ? 13.0 : 16.0;
    const At at = places.value;
    const double end = at.x + ink_text_in(brush->cairo, at.x, at.y, room,
                                          brush_type(size, false, ALIGN_LEFT, colours->ink), text);
    if (opens) {
        ink_triangle(brush->cairo, (end < at.x + room ? end : at.x + room) + 9.0, places.sign, 4.5,
                     POINT_DOWN, true,
                     brush_is_hovered(brush, target->id) ? colours->ink : colours->soft);
    }
    const Type small = brush_type(11.0, false, ALIGN_LEFT, colours->soft);
    if (end + 5.0 + ink_width(brush->cairo, small, unit) <= box.x + places.label_room - 4.0) {
        ink_text(brush->cairo, end + 5.0, at.y, small, unit);
    }
    draw_rule(brush, control, box);
}

static void draw_unused(const Brush* const brush, const Box box, const char* const why)
{
    const At at = geometry_in_cell(box).value;
    brush_fit(brush, at.x, at.y, box.width,
              brush_type(13.0, false, ALIGN_LEFT, brush->colours->soft), why);
}

/* A name with a triangle: it opens a list. */
static void draw_pick(const Brush* const brush, const Target* const target)
{
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    const Control control = kind_controls[target->id.index];
    const bool over = brush_is_hovered(brush, target->id);
    const char* unit = "";
    char text[DIAL_TEXT_ROOM];
    dial_text(brush->view, control, brush->view->values[control], text, &unit);
    brush_label(brush, box, dial_of(control)->label, over);
    const CellPlaces places = geometry_in_cell(box);
    const double room = box.width - 16.0;
    const double wide = ink_text_in(brush->cairo, places.value.x, places.value.y, room,
                                    brush_type(14.0, false, ALIGN_LEFT, colours->ink), text);
    ink_triangle(brush->cairo, box.x + (wide < room ? wide : room) + 9.0, places.sign, 4.5,
                 POINT_DOWN, true, over ? colours->ink : colours->soft);
    brush_focus(brush, target, 4.0);
}

void draw_dial(const Brush* const brush, const Target* const target, const Control control)
{
    const Dial* const dial = dial_of(control);
    const Box box = target->box;
    const CellPlaces places = geometry_in_cell(box);
    const char* const unused = dial_unused(brush->view, control);
    const bool over = brush_is_hovered(brush, target->id);
    char label[DIAL_TEXT_ROOM];
    handed_words(brush->view, dial->label, label, sizeof label);
    brush_label(brush, box, label, over);
    if (unused) {
        draw_unused(brush, box, unused);
    } else if (dial->kind == DIAL_SWITCH) {
        const bool on = brush->view->values[control] > 0.0f;
        brush_switch(brush, places.on, on);
        ink_text(brush->cairo, places.on_word.x, places.on_word.y,
                 brush_type(13.0, false, ALIGN_LEFT, brush->colours->ink), on ? "on" : "off");
    } else if (dial->kind == DIAL_TRIGGER) {
        brush_button(brush, target, brush->view->values[control] > 0.0f ? "asked for" : "now",
                     true);
    } else if (dial->kind == DIAL_CHOICE) {
        draw_choice(brush, target, control, places.choice);
        return;
    } else {
        draw_value(brush, target, control);
    }
    brush_focus(brush, target, 4.0);
}

static void draw_tab(const Brush* const brush, const Target* const target)
{
    const Palette* const colours = brush->colours;
    const Panel panel = (Panel)target->id.index;
    const TabPlaces places = geometry_tab_places(brush->g, target->box);
    const bool is_open = panel == brush->view->panel;
    const bool over = brush_is_hovered(brush, target->id);
    const double line = geometry_tab_line(brush->g, panel);
    const double wide = ink_text(brush->cairo, places.words.x, places.words.y,
                                 brush_type(brush->g->compact ? 13.0 : 14.0, is_open, ALIGN_LEFT,
                                            is_open || over ? colours->ink : colours->soft),
                                 page_rows[panel].words);
    if (is_open) {
        ink_line(brush->cairo, places.words.x - 2.0, places.mark, places.words.x + wide + 2.0,
                 places.mark, 3.0, colours->ink);
    }
    if (line > 0.0) {
        ink_line(brush->cairo, floor(line) + 0.5, target->box.y + 6.0, floor(line) + 0.5,
                 target->box.y + target->box.height - 6.0, 1.0, colours->edge);
    }
    brush_focus(brush, target, 0.0);
}

/* A key and what it opens; reversed while that is open. */
static void draw_key_tab(const Brush* const brush, const Target* const target,
                         const char* const key, const char* const words, const bool is_open)
{
    const Palette* const colours = brush->colours;
    const TabPlaces places = geometry_tab_places(brush->g, target->box);
    const bool over = brush_is_hovered(brush, target->id);
    if (is_open) {
        ink_fill_round(brush->cairo, places.cap, 3.0, colours->ink);
    } else {
        ink_frame(brush->cairo, places.cap, 3.0, over ? 1.6 : 1.0,
                  over ? colours->ink : colours->edge);
    }
    ink_text(brush->cairo, places.key.x, places.key.y,
             brush_type(12.0, true, ALIGN_CENTRE, is_open ? colours->ground : colours->ink), key);
    if (!brush->g->compact) {
        ink_text(
            brush->cairo, places.cap.x + places.cap.width + 4.0, places.key.y,
            brush_type(13.0, is_open, ALIGN_LEFT, is_open || over ? colours->ink : colours->soft),
            words);
    }
    brush_focus(brush, target, 0.0);
}

static void draw_page(const Brush* const brush, const Target* const target)
{
    char text[32];
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
    const At at = geometry_tab_places(brush->g, target->box).words;
    snprintf(text, sizeof text, "row %d of 2", brush->view->page + 1);
    ink_text(brush->cairo, at.x, at.y, type, text);
    ink_triangle(brush->cairo, at.x + target->box.width - 18.0, at.y - 4.0, 5.0,
                 brush->view->page ? POINT_UP : POINT_DOWN, true, brush->colours->soft);
    brush_focus(brush, target, 0.0);
}

/* A dial's words, each to be clicked; over the first the dial's name. */
static void draw_choosable(const Brush* const brush, const Target* const target)
{
    const Palette* const colours = brush->colours;
    const Control control = brush->view->choosing;
    const Box box = target->box;
    const int chosen = (int)(brush->view->values[control] - control_rows[control].least);
    const bool is_chosen = target->id.index == chosen;
    const bool over = brush_is_hovered(brush, target->id);
    if (target->id.index == 0 && !brush->g->compact) {
        ink_text(brush->cairo, box.x, box.y - 4.0,
                 brush_type(11.0, false, ALIGN_LEFT, colours->soft), dial_of(control)->label);
    }
    if (is_chosen) {
        ink_fill_round(brush->cairo, box, 3.0, colours->ink);
    } else {
        ink_frame(brush->cairo, box, 3.0, over ? 1.6 : 1.0, over ? colours->ink : colours->edge);
    }
    const Type least =
        brush_type(11.0, is_chosen, ALIGN_CENTRE, is_chosen ? colours->ground : colours->ink);
    Type type = least;
    type.size = 13.0;
    const char* const word = dial_of(control)->words[target->id.index];
    ink_text_in(brush->cairo, box.x + box.width / 2.0, box.y + box.height / 2.0 + 4.6,
                box.width - 4.0,
                ink_width(brush->cairo, type, word) < box.width - 4.0 ? type : least, word);
    brush_focus(brush, target, 3.0);
}

/* What a cell holds, of a page of dials or of a state. */
void draw_cells(const Brush* const brush)
{
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->group != GROUP_PANEL) {
            continue;
        }
        if (target->id.kind == TARGET_WORD) {
            draw_choosable(brush, target);
        } else if (target->id.kind == TARGET_THEME) {
            draw_theme(brush, target);
        } else if (target->id.kind == TARGET_OPTION) {
            draw_option(brush, target);
        } else if (target->id.kind == TARGET_EDIT) {
            draw_edit(brush, target);
        } else if (target->id.kind == TARGET_CARD) {
            draw_pick(brush, target);
        } else {
            draw_dial(brush, target, (Control)target->id.index);
        }
    }
}

#define PAGE_DRAW(name, words, group, key, bars, targets, draw) draw,
static void (*const page_draw[PANEL_COUNT])(const Brush*) = {PAGE_ROWS(PAGE_DRAW)};
#undef PAGE_DRAW

static void draw_tabs(const Brush* const brush, const Target* const target)
{
    const int index = target->id.index;
    if (target->id.kind == TARGET_TAB && page_rows[index].group == PAGES_STATE) {
        draw_key_tab(brush, target, page_rows[index].key, page_rows[index].words,
                     (Panel)index == brush->view->panel);
    } else if (target->id.kind == TARGET_TAB) {
        draw_tab(brush, target);
    } else if (target->id.kind == TARGET_SHOW) {
        draw_key_tab(brush, target, show_rows[index].key, show_rows[index].words, false);
    } else if (target->id.kind == TARGET_PAGE) {
        draw_page(brush, target);
    }
}

static void draw_lines(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    const double over = floor(g->panel) + 0.5;
    const double under = floor(g->tabs.y + g->tabs.height) + 0.5;
    ink_line(brush->cairo, 0.0, over, g->width, over, 1.0, brush->colours->rule);
    ink_line(brush->cairo, 0.0, under, g->width, under, 1.0, brush->colours->rule);
}

void draw_panel(const Brush* const brush)
{
    const bool is_covered = (brush->g->list && !brush->g->kept) || brush->g->keys;
    if (!is_covered) {
        draw_lines(brush);
        page_draw[brush->view->panel](brush);
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->group == GROUP_TABS) {
            draw_tabs(brush, target);
        } else if (target->id.kind == TARGET_DIAL && target->group == GROUP_TOP &&
                   dial_of((Control)target->id.index)->kind == DIAL_CHOICE) {
            draw_choice(brush, target, (Control)target->id.index, target->box);
        }
    }
}
