// SPDX-License-Identifier: ISC
#include "keys.h"

#include "actions.h"

#include <stddef.h>

static bool is_key(const uint32_t key, const PaneEvent* const event)
{
    const uint32_t text = event->text;
    return key == KEY_LETTERS   ? text >= ' '
           : key == KEY_FIGURES ? (text >= '0' && text <= '9') || text == '-' || text == '.'
                                : key && (key == event->key || key == event->place);
}

/* The place of what was pressed among a row's keys; -1: it isn't among them. */
static int find(const Action* const action, const PaneEvent* const event)
{
    const bool is_shift = event->modifiers & PANE_SHIFT;
    const bool is_other = action->shift == (is_shift ? NO_SHIFT : WITH_SHIFT);
    for (int i = 0; !is_other && i < ACTION_KEYS_MAX; ++i) {
        if (is_key(action->keys[i].key, event)) {
            return i;
        }
    }
    return -1;
}

/* While the list of keys is open its line is told from the others. */
static void light(KeyList* const keys, const int row)
{
    for (int line = 0; line < keys->count; ++line) {
        keys->lit = keys->lines[line].row == row ? line + 1 : keys->lit;
    }
}

static bool act(Model* const model, const Scope scope, const PaneEvent* const event)
{
    const bool is_listed = model->view.keys.is_open;
    const Action* action = NULL;
    for (int row = 0; (action = actions_row(row)); ++row) {
        const int at = action->scope == scope ? find(action, event) : -1;
        if (at >= 0) {
            action->effect(model,
                           (Press){.which = action->keys[at].which,
                                   .shift = event->modifiers & PANE_SHIFT,
                                   .text = event->text,
                                   .seconds = event->seconds > 0.0 ? event->seconds : model->now});
            if (is_listed) {
                light(&model->view.keys, row);
            }
            model->is_dirty = true;
            return true;
        }
    }
    return false;
}

bool keys_press(Model* const model, const PaneEvent* const event)
{
    const bool types =
        model->view.list.is_open || model->view.is_typing || model->view.asked.is_open;
    if (event->modifiers & (PANE_CONTROL | PANE_ALT | PANE_SUPER)) {
        return false; /* a short cut of the host's */
    }
    for (int scope = SCOPE_COUNT - 1; scope >= 0; --scope) {
        if (actions_apply(model, (Scope)scope) && act(model, (Scope)scope, event)) {
            return true;
        }
    }
    /* while letters can be typed, all but function keys are kept from the host */
    return types && event->key < PANE_KEY_F1;
}
