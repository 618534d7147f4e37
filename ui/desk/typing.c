// SPDX-License-Identifier: ISC
/* Typing a dial's value, or a figure's name. */
#include "../scene/dial.h"
#include "moves.h"

#include <pango/pango.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

static bool is_name(const View* const view)
{
    return view->focus.kind == TARGET_EDIT && view->focus.index == EDIT_NAME;
}

static void begin(View* const view)
{
    view->is_typing = true;
    view->typed[0] = '\0';
    view->refused[0] = '\0';
}

void desk_begin_name(Desk* const desk)
{
    View* const view = &desk->view;
    desk_focus(desk, (TargetId){TARGET_EDIT, EDIT_NAME});
    begin(view);
    memcpy(view->typed, view->edit.name, sizeof view->typed);
    desk->is_dirty = true;
}

bool desk_can_type(const Desk* const desk)
{
    return desk->view.focus.kind == TARGET_DIAL &&
           dial_of((Control)desk->view.focus.index)->kind == DIAL_VALUE;
}

void desk_type(Desk* const desk, const uint32_t text)
{
    View* const view = &desk->view;
    char letter[8] = "";
    const size_t bytes = (size_t)g_unichar_to_utf8(text, letter);
    if (!view->is_typing) {
        begin(view);
    }
    const size_t length = strlen(view->typed);
    if (length + bytes < TYPED_ROOM) {
        memcpy(view->typed + length, letter, bytes);
        view->typed[length + bytes] = '\0';
        view->refused[0] = '\0';
        desk->is_dirty = true;
    }
}

/* What the dial can't take stays to be changed, and why is said. */
static bool set_typed(Desk* const desk)
{
    View* const view = &desk->view;
    const Control control = (Control)view->focus.index;
    char why[DIAL_WHY_ROOM] = "";
    float value = 0.0f;
    if (!dial_parse(control, view->typed, &value, why)) {
        snprintf(view->refused, sizeof view->refused, "%s", why);
        return false;
    }
    desk_nudge(desk, control, value);
    return true;
}

void desk_end_typing(Desk* const desk, const bool keep)
{
    View* const view = &desk->view;
    const bool was_typing = view->is_typing;
    const bool keeps = was_typing && keep;
    desk->is_dirty = desk->is_dirty || was_typing;
    if (keeps && !is_name(view) && *view->typed && !set_typed(desk)) {
        return;
    }
    view->is_typing = false;
    if (keeps && is_name(view)) {
        editor_name(desk, view->typed);
    }
}

static void take_back_letter(Desk* const desk)
{
    char* const typed = desk->view.typed;
    size_t length = strlen(typed);
    while (length > 1 && ((unsigned char)typed[length - 1] & 0xC0U) == 0x80U) {
        --length;
    }
    typed[length > 0 ? length - 1 : 0] = '\0';
    desk->view.refused[0] = '\0';
    desk->is_dirty = true;
}

bool desk_typing_key(Desk* const desk, const PaneEvent* const event)
{
    if (event->key == PANE_KEY_ENTER) {
        desk_end_typing(desk, true);
    } else if (event->key == PANE_KEY_ESCAPE) {
        desk_end_typing(desk, false);
    } else if (event->key == PANE_KEY_BACKSPACE) {
        take_back_letter(desk);
    } else if (event->text >= ' ' && (is_name(&desk->view) || event->text < 127)) {
        desk_type(desk, event->text);
    }
    return event->key < PANE_KEY_F1;
}
