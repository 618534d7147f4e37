// SPDX-License-Identifier: ISC
/* The panel that changes a figure, and the two buttons that write files. */
#include "brush.h"
#include "words.h"

#include <stdio.h>

static const char* const labels[EDIT_ITEMS] = {
    [EDIT_PAIR] = "Edit",          [EDIT_GRID] = "Steps on",
    [EDIT_LENGTH] = "Length",      [EDIT_ROLLS] = "At the bar line",
    [EDIT_UNDO] = "Undo",          [EDIT_REDO] = "Redo",
    [EDIT_NAME] = "Name",          [EDIT_SAVE] = "Save",
    [EDIT_DROP] = "Drop the edit", [EDIT_FILE] = "MIDI file",
    [EDIT_LEARN] = "Learn keys",   [EDIT_PAGE] = "Page",
    [EDIT_GROOVE] = "Groove",      [EDIT_DELETE] = "Delete",
};

const char* edit_help(const EditItem item)
{
    static const char* const helps[EDIT_ITEMS] = {
        [EDIT_PAIR] = "Edit: the figure of the feet, of the hands, or the fill; each keeps what "
                      "you changed; key E",
        [EDIT_GRID] = "Steps on: the grid that a click falls on; what is there stays where it is",
        [EDIT_LENGTH] = "Length: steps until the figure starts again; strokes beyond are left out",
        [EDIT_ROLLS] = "At the bar line: start again with each bar, or roll on over it",
        [EDIT_UNDO] = "Undo: takes back the last change; key Z",
        [EDIT_REDO] = "Redo: makes it again; key Y",
        [EDIT_NAME] = "Name: click or Enter, then type what the saved figure shall be called",
        [EDIT_SAVE] = "Save: keeps all that you changed in your own bank, each under its name; in "
                      "a row key S",
        [EDIT_DROP] = "Drop the edit: the figure plays as it was written",
        [EDIT_FILE] =
            "MIDI file: the phrase, into a folder that is asked for once; key W; Shift+W straight",
        [EDIT_PAGE] =
            "Page: held while you edit; wheel, up and down turn it, Enter lets it follow again",
        [EDIT_GROOVE] =
            "Groove: all that plays, as a groove of your own under a name that is asked "
            "for; key U",
        [EDIT_DELETE] = "Delete: your own figure out of your bank; asks first, and its file stays "
                        "beside",
        [EDIT_LEARN] = "Learn keys: play the pad of the voice named; up and down choose the voice",
    };
    return helps[item];
}

/* While the page is held: which bar it is, and which one sounds. */
void edit_draw_held(const Brush* const brush, const At at, const double room)
{
    char text[64];
    const View* const view = brush->view;
    const SeenPlace* const place = &view->place;
    if (!brush->g->edits || !view->held) {
        return;
    }
    const Type held = brush_type(12.0, true, ALIGN_LEFT, brush->colours->accent);
    snprintf(text, sizeof text, "%s held at bar %d", brush->g->compact ? "" : "page",
             view->looked_at + 1);
    brush_fit(brush, at.x, at.y, room, held, text + (brush->g->compact ? 1 : 0));
    if (place->rolling && view->has_place) {
        const int64_t playing = floor_mod(place->bar - view_phrase(view), view_phrase_bars(view));
        snprintf(text, sizeof text, "bar %d is playing", (int)playing + 1);
        brush_fit(brush, at.x, at.y + 18.0, room,
                  brush_type(12.0, false, ALIGN_LEFT, brush->colours->ink), text);
    }
    if (view->edit.differ && !brush->g->compact) {
        snprintf(text, sizeof text, "%d stroke%s not as kept", view->edit.differ,
                 view->edit.differ == 1 ? "" : "s");
        brush_fit(brush, at.x, at.y + 36.0, room,
                  brush_type(12.0, false, ALIGN_LEFT, brush->colours->soft), text);
    }
}

static void value(const Brush* const brush, const Box box, const char* const text,
                  const char* const unit)
{
    const Palette* const colours = brush->colours;
    const CellPlaces places = geometry_in_cell(box);
    const At at = places.value;
    const double wide = ink_text_in(brush->cairo, at.x, at.y, box.width,
                                    brush_type(16.0, false, ALIGN_LEFT, colours->ink), text);
    ink_text(brush->cairo, at.x + wide + 5.0, at.y,
             brush_type(11.0, false, ALIGN_LEFT, colours->soft), unit);
    ink_line(brush->cairo, box.x, places.rule, box.x + box.width, places.rule, 1.0, colours->edge);
}

static void draw_name(const Brush* const brush, const Target* const target)
{
    const View* const view = brush->view;
    char text[TYPED_ROOM + 8];
    const bool typing = view->is_typing && view_target_same(view->focus, target->id);
    snprintf(text, sizeof text, typing ? "%s|" : "%s", typing ? view->typed : view->edit.name);
    value(brush, target->box, *text ? text : "click in a row to begin", "");
}

/* A button that does nothing says why. */
static const char* button_words(const Edit* const edit, const EditItem item, char text[32])
{
    if (!edit->is_open) {
        return "no edit";
    }
    switch (item) {
    case EDIT_UNDO:
        snprintf(text, 32, edit->undo ? "%d back" : "as it began", edit->undo);
        return text;
    case EDIT_REDO:
        snprintf(text, 32, edit->redo ? "%d on" : "none undone", edit->redo);
        return text;
    case EDIT_SAVE:
        return "save";
    case EDIT_DROP:
        return "as written";
    case EDIT_PAIR:
    case EDIT_GRID:
    case EDIT_LENGTH:
    case EDIT_ROLLS:
    case EDIT_NAME:
    case EDIT_FILE:
    case EDIT_LEARN:
    case EDIT_PAGE:
    case EDIT_GROOVE:
    case EDIT_DELETE:
    case EDIT_ITEMS:
        break;
    }
    return "";
}

static void draw_number(const Brush* const brush, const Target* const target, const int number,
                        const char* const unit)
{
    char text[16];
    snprintf(text, sizeof text, "%d", number);
    value(brush, target->box, number ? text : "\xE2\x80\x93", number ? unit : "");
}

static void draw_learn(const Brush* const brush, const Target* const target)
{
    const Edit* const edit = &brush->view->edit;
    brush_button(brush, target, edit->is_learning ? words_voice(edit->learns) : "off", true);
}

static const char* pair_words(const Edit* const edit)
{
    const bool is_hands = edit->pair == PAIR_HANDS;
    return edit->kind == FIGURE_TURNAROUND ? is_hands ? "fill" : "fill's feet"
           : is_hands                      ? "hands"
                                           : "feet";
}

static const char* rolls_words(const Edit* const edit)
{
    return !edit->is_open ? "as written" : edit->rolls ? "rolls on" : "starts again";
}

static void draw_length(const Brush* const brush, const Target* const target)
{
    const Edit* const edit = &brush->view->edit;
    if (edit->is_open) {
        draw_number(brush, target, edit->steps, "steps");
    } else {
        value(brush, target->box, "as written", "");
    }
}

static void draw_page(const Brush* const brush, const Target* const target)
{
    char text[32];
    const View* const view = brush->view;
    snprintf(text, sizeof text, view->held ? "bar %d, held" : "follows", view->looked_at + 1);
    value(brush, target->box, text, "");
}

void draw_edit(const Brush* const brush, const Target* const target)
{
    const Edit* const edit = &brush->view->edit;
    const EditItem item = (EditItem)target->id.index;
    char text[32];
    brush_label(brush, target->box, labels[item], brush_is_hovered(brush, target->id));
    switch (item) {
    case EDIT_PAIR:
        value(brush, target->box, pair_words(edit), "");
        break;
    case EDIT_GRID:
        draw_number(brush, target, edit->grid, "a quarter");
        break;
    case EDIT_LENGTH:
        draw_length(brush, target);
        break;
    case EDIT_ROLLS:
        value(brush, target->box, rolls_words(edit), "");
        break;
    case EDIT_UNDO:
        brush_button(brush, target, button_words(edit, item, text), edit->undo > 0);
        break;
    case EDIT_REDO:
        brush_button(brush, target, button_words(edit, item, text), edit->redo > 0);
        break;
    case EDIT_NAME:
        draw_name(brush, target);
        break;
    case EDIT_SAVE:
    case EDIT_DROP:
        brush_button(brush, target, button_words(edit, item, text), edit->is_open);
        break;
    case EDIT_FILE:
        brush_button(brush, target, "write", true);
        break;
    case EDIT_LEARN:
        draw_learn(brush, target);
        break;
    case EDIT_GROOVE:
        brush_button(brush, target, "save all", true);
        break;
    case EDIT_DELETE:
        brush_button(brush, target, "your own", true);
        break;
    case EDIT_PAGE:
        draw_page(brush, target);
        break;
    case EDIT_ITEMS:
        break;
    }
    brush_focus(brush, target, 4.0);
}
