// SPDX-License-Identifier: ISC
#include "typing.h"

#include "../../plugin/bank/utf8.h"
#include "../scene/dial.h"

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

void typing_begin_name(Model* const model)
{
    View* const view = &model->view;
    model_focus(model, (TargetId){TARGET_EDIT, EDIT_NAME});
    begin(view);
    memcpy(view->typed, view->edit.name, sizeof view->typed);
    model->is_dirty = true;
}

void typing_more(Model* const model, const uint32_t text)
{
    View* const view = &model->view;
    if (view->is_typing && !is_name(view) && text >= 127) {
        return;
    }
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
        model->is_dirty = true;
    }
}

/* What the dial can't take stays to be changed, and why is said. */
static bool set_typed(Model* const model)
{
    View* const view = &model->view;
    const Control control = (Control)view->focus.index;
    char why[DIAL_WHY_ROOM] = "";
    float value = 0.0f;
    if (!dial_parse(control, view->typed, &value, why)) {
        snprintf(view->refused, sizeof view->refused, "%s", why);
        return false;
    }
    model_nudge(model, control, value);
    return true;
}

void typing_end(Model* const model)
{
    View* const view = &model->view;
    if (is_name(view)) {
        editor_name(model, view->typed);
    } else if (*view->typed && !set_typed(model)) {
        model->is_dirty = true;
        return;
    }
    model_stop_typing(model);
}

void typing_less(Model* const model)
{
    char* const typed = model->view.typed;
    const size_t length = strlen(typed);
    typed[utf8_cut(typed, length, length ? length - 1 : 0)] = '\0';
    model->view.refused[0] = '\0';
    model->is_dirty = true;
}
