// SPDX-License-Identifier: ISC
/* The dials under the staff, in groups, and the line that explains. */
#include "brush.h"
#include "handed.h"
#include "news.h"

#include <math.h>
#include <stdio.h>

static const char* const panel_names[PANEL_COUNT] = {"Feel",     "Rhythm", "Fills",
                                                     "Practice", "Edit",   "Output"};

static void draw_choice(const Brush* const brush, const Target* const target, const Control control,
                        const Box box)
{
    const Palette* const colours = brush->colours;
    const Dial* const dial = dial_of(control);
    const Target frame = {target->id, target->group, box};
    char word[DIAL_TEXT_ROOM];
    const int chosen = (int)brush->view->values[control] - (int)control_rows[control].least;
    for (int i = 0; i < targets_choice_words(control); ++i) {
        const double left = targets_choice_edge(box, control, i);
        const double right = targets_choice_edge(box, control, i + 1);
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
    const double size = wide > box.width ? 13.0 : 16.0;
    const At at = places.value;
    const double end = at.x + ink_text_in(brush->cairo, at.x, at.y, box.width,
                                          brush_type(size, false, ALIGN_LEFT, colours->ink), text);
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

static void draw_tabs(const Brush* const brush, const Target* const target)
{
    const Palette* const colours = brush->colours;
    const TabPlaces places = geometry_tab_places(brush->g, target->box, 0.0);
    const bool is_open = target->id.index == (int)brush->view->panel;
    const bool over = brush_is_hovered(brush, target->id);
    const Colour colour = is_open || over ? colours->ink : colours->soft;
    const double wide =
        ink_text(brush->cairo, places.words.x, places.words.y,
                 brush_type(13.0, is_open, ALIGN_LEFT, colour), panel_names[target->id.index]);
    if (is_open) {
        const Box mark = geometry_tab_places(brush->g, target->box, wide).mark;
        ink_line(brush->cairo, mark.x, mark.y, mark.x + mark.width, mark.y + mark.height, 3.0,
                 colours->ink);
    }
    brush_focus(brush, target, 0.0);
}

static void draw_page(const Brush* const brush, const Target* const target)
{
    char text[32];
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
    const At at = geometry_tab_places(brush->g, target->box, 0.0).words;
    snprintf(text, sizeof text, "row %d of 2", brush->view->page + 1);
    ink_text(brush->cairo, at.x, at.y, type, text);
    ink_triangle(brush->cairo, at.x + target->box.width - 14.0, at.y - 4.0, 5.0,
                 brush->view->page ? POINT_UP : POINT_DOWN, true, brush->colours->soft);
    brush_focus(brush, target, 0.0);
}

/* What is pointed at in a small window is explained where the tabs are. */
static bool explains(const Brush* const brush)
{
    const TargetKind kind = brush->view->hover.kind;
    return brush->g->compact && !brush->g->list && kind != TARGET_NONE && kind != TARGET_TAB &&
           kind != TARGET_PAGE;
}

void draw_panel(const Brush* const brush)
{
    const double y = floor(brush->g->panel) + 0.5;
    if (!brush->g->list) {
        ink_line(brush->cairo, 0.0, y, brush->g->width, y, 1.0, brush->colours->rule);
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->id.kind == TARGET_TAB && !explains(brush)) {
            draw_tabs(brush, target);
        } else if (target->id.kind == TARGET_PAGE && !explains(brush)) {
            draw_page(brush, target);
        } else if (target->id.kind == TARGET_TAB || target->id.kind == TARGET_PAGE) {
            continue;
        } else if (target->id.kind == TARGET_THEME) {
            draw_theme(brush, target);
        } else if (target->id.kind == TARGET_OPTION) {
            draw_option(brush, target);
        } else if (target->id.kind == TARGET_EDIT) {
            draw_edit(brush, target);
        } else if (target->group == GROUP_PANEL && target->id.kind == TARGET_CARD) {
            draw_pick(brush, target);
        } else if (target->group == GROUP_PANEL) {
            draw_dial(brush, target, (Control)target->id.index);
        } else if (target->id.kind == TARGET_DIAL && target->group == GROUP_TOP &&
                   dial_of((Control)target->id.index)->kind == DIAL_CHOICE) {
            draw_choice(brush, target, (Control)target->id.index, target->box);
        }
    }
}

/* ---- The line that explains */

static const char* help_of(const View* const view, const TargetId id)
{
    switch (id.kind) {
    case TARGET_DIAL:
        return dial_of(handed_name(view, (Control)id.index))->help;
    case TARGET_CLICK:
        return dial_of(CONTROL_CLICK)->help;
    case TARGET_CARD:
        return dial_of(kind_controls[id.index])->help;
    case TARGET_CARD_UP:
        return "The figure before, heard at the next line";
    case TARGET_CARD_DOWN:
        return "The figure after, heard at the next line";
    case TARGET_PUT_BACK:
        return "Puts back what the groove has itself; Backspace does it for hands, feet and fill";
    case TARGET_TAB:
        return "P goes to the next group of dials";
    case TARGET_PAGE:
        return "The other row of dials";
    case TARGET_BAR:
        return view->place.rolling ? "Double-click loops this bar, and again the whole phrase"
                                   : "Click looks at this bar; double-click loops it";
    case TARGET_THEME:
        return "The window's colours: those of the host, dark, or light";
    case TARGET_OPTION:
        return options_help((OptionItem)id.index);
    case TARGET_EDIT:
        return edit_help((EditItem)id.index);
    case TARGET_ROW:
        return "Click: normal, accent, ghost, none.  Drag up or down: level.  Shift-drag: move.  "
               "Right click: voice";
    case TARGET_FIND:
    case TARGET_LIST_ROW:
    case TARGET_LIST:
        return view->keys.is_open
                   ? "What each key does; Up and down: more.  Esc or K: back"
                   : "Up, down: hear another.  Enter: keep it.  Esc: back to what played before";
    case TARGET_READING:
    case TARGET_NONE:
        break;
    }
    return "";
}

_Static_assert(MESSAGE_ROOM + 64 >= NEWS_ROOM, "news have room in draw_help");

void draw_help(const Brush* const brush)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const Geometry* const g = brush->g;
    char text[MESSAGE_ROOM + 64] = "";
    const TargetId list = {TARGET_LIST, 0};
    const TargetId pointed = view->hover.kind != TARGET_NONE ? view->hover
                             : g->list                       ? list
                                                             : view->focus;
    char of_dial[DIAL_HELP_ROOM];
    const char* words = help_of(view, pointed);
    if (pointed.kind == TARGET_DIAL) {
        const Control named = handed_name(view, (Control)pointed.index);
        dial_help(view, named, of_dial);
        handed_words(view, of_dial, text, sizeof text);
        words = (int)named == pointed.index ? text : of_dial; /* a limb's names the other already */
    }
    bool is_news = false; /* said even where there is no room for help */
    if (view->is_typing && *view->refused) {
        words = view->refused;
        is_news = true;
    } else if (view->is_typing) {
        words = "Type a value: Enter sets it, Esc leaves it as it was";
    } else if (*view->edit.note && view->hover.kind != TARGET_DIAL) {
        words = view->edit.note;
        is_news = true;
    } else if (view->hover.kind == TARGET_NONE && view->dropped) {
        snprintf(text, sizeof text,
                 g->compact ? "%u strokes lost: MIDI room too small"
                            : "%u strokes were not played: the host gives too little room for MIDI",
                 view->dropped);
        words = text;
        is_news = true;
    } else if (view->hover.kind == TARGET_NONE && *view->message) {
        snprintf(text, sizeof text, "Bank: %s", view->message);
        words = text;
        is_news = true;
    }
    if (!is_news && g->compact && view->hover.kind == TARGET_NONE) {
        news_words(view, text);
        words = text; /* in a larger window it stands over the groove's name */
        is_news = true;
    }
    const Line help = geometry_help(g, explains(brush));
    const Line line = help.room > 0.0 || !is_news ? help : geometry_news(g);
    const Type type = brush_type(11.0, false, ALIGN_LEFT, colours->soft);
    if (words == of_dial && ink_width(brush->cairo, type, words) > line.room) {
        words = dial_of((Control)pointed.index)->help; /* rather without its value than cut */
    }
    if (line.room > 0.0) {
        ink_text_in(brush->cairo, line.at.x, line.at.y, line.room, type, words);
    }
}
