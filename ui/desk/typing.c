// SPDX-License-Identifier: ISC
/* Typing a dial's value, or a figure's name. */
#include "../scene/dial.h"
#include "moves.h"

#include <pango/pango.h>
#include <stddef.h>
#include <string.h>

static bool is_name(const View* const view)
{
    return view->focus.kind == TARGET_EDIT && view->focus.index == EDIT_NAME;
}

void desk_begin_name(Desk* const desk)
{
    View* const view = &desk->view;
    desk_focus(desk, (TargetId){TARGET_EDIT, EDIT_NAME});
    view->is_typing = true;
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
    const size_t length = view->is_typing ? strlen(view->typed) : 0;
    char letter[8] = "";
    const size_t bytes = (size_t)g_unichar_to_utf8(text, letter);
    if (length + bytes < TYPED_ROOM) {
        view->is_typing = true;
        memcpy(view->typed + length, letter, bytes);
        view->typed[length + bytes] = '\0';
        desk->is_dirty = true;
    }
}

void desk_end_typing(Desk* const desk, const bool keep)
{
    View* const view = &desk->view;
    float value = 0.0f;
    if (view->is_typing && is_name(view)) {
        view->is_typing = false;
        desk->is_dirty = true;
        if (keep) {
            editor_name(desk, view->typed);
        }
    } else if (view->is_typing) {
        const Control control = (Control)view->focus.index;
        if (keep && dial_parse(control, view->typed, &value)) {
            desk_nudge(desk, control, value);
        }
        view->is_typing = false;
        desk->is_dirty = true;
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
    } else {
        return false;
    }
    return true;
}
