// SPDX-License-Identifier: ISC
/* Dials, words and pictures of choices: what the cells of a page or a state hold. */
#include "brush.h"
#include "handed.h"
#include "vary_page.h"

#include <math.h>
#include <stdio.h>

void draw_choice(const Brush* const brush, const Target* const target, const Control control,
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
