// SPDX-License-Identifier: ISC
/* The keyboard: everything can be reached and set by it. */
#include "../scene/dial.h"
#include "moves.h"

#include <pango/pango.h>
#include <stddef.h>
#include <string.h>

/* Which limbs are heard. */
static void only(Desk* const desk, const bool hands, const bool feet)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        desk_nudge(desk, (Control)(CONTROL_RIGHT_HAND + limb),
                   (limb < 2 ? hands : feet) ? 1.0f : 0.0f);
    }
}

/* ---- Typing a value, or a name */

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

static bool can_type(const Desk* const desk)
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

static void typing_key(Desk* const desk, const PaneEvent* const event)
{
    View* const view = &desk->view;
    size_t length = strlen(view->typed);
    if (event->key == PANE_KEY_ENTER) {
        desk_end_typing(desk, true);
    } else if (event->key == PANE_KEY_ESCAPE) {
        desk_end_typing(desk, false);
    } else if (event->key == PANE_KEY_BACKSPACE && length > 0) {
        while (length > 1 && ((unsigned char)view->typed[length - 1] & 0xC0U) == 0x80U) {
            --length;
        }
        view->typed[length - 1] = '\0';
        desk->is_dirty = true;
    } else if (event->text >= ' ' && (is_name(view) || event->text < 127)) {
        desk_type(desk, event->text);
    }
}

/* ---- The ring of focus */

static int index_of(const TargetList* const targets, const TargetId id)
{
    for (int i = 0; i < targets->count; ++i) {
        if (target_same(targets->targets[i].id, id)) {
            return i;
        }
    }
    return -1;
}

static void focus_group(Desk* const desk, const int by)
{
    TargetList targets;
    desk_targets(desk, &targets);
    const int at = index_of(&targets, desk->view.focus);
    const int groups = GROUP_PANEL + 1;
    int group = at < 0 ? GROUP_TOP : (int)targets.targets[at].group;
    for (int tries = 0; tries < groups; ++tries) {
        group = (group + by + groups) % groups;
        for (int i = 0; i < targets.count; ++i) {
            if ((int)targets.targets[i].group == group) {
                desk_focus(desk, targets.targets[i].id);
                return;
            }
        }
    }
}

static void focus_within(Desk* const desk, const int by)
{
    TargetList targets;
    desk_targets(desk, &targets);
    const int at = index_of(&targets, desk->view.focus);
    const int next = at + by;
    if (at >= 0 && next >= 0 && next < targets.count &&
        targets.targets[next].group == targets.targets[at].group) {
        desk_focus(desk, targets.targets[next].id);
    }
}

/* ---- What has the focus */

static void step(Desk* const desk, const Control control, const double by, const bool fine)
{
    desk_nudge(desk, control, dial_step(control, desk->view.values[control], by, fine));
}

static void dial_key(Desk* const desk, const PaneEvent* const event)
{
    const bool is_click = desk->view.focus.kind == TARGET_CLICK; /* its switch by the rows */
    const Control control = is_click ? CONTROL_CLICK : (Control)desk->view.focus.index;
    const Dial* const dial = dial_of(control);
    const bool fine = event->modifiers & PANE_SHIFT;
    switch (event->key) {
    case PANE_KEY_UP:
        step(desk, control, 1.0, fine);
        break;
    case PANE_KEY_DOWN:
        step(desk, control, -1.0, fine);
        break;
    case PANE_KEY_PAGE_UP:
        step(desk, control, 10.0, fine);
        break;
    case PANE_KEY_PAGE_DOWN:
        step(desk, control, -10.0, fine);
        break;
    case PANE_KEY_HOME:
        desk_nudge(desk, control, control_rows[control].least);
        break;
    case PANE_KEY_END:
        desk_nudge(desk, control, control_rows[control].most);
        break;
    case PANE_KEY_DELETE:
        desk_nudge(desk, control, control_rows[control].normal);
        break;
    case PANE_KEY_ENTER:
        if (is_click || dial->kind == DIAL_SWITCH) {
            desk_toggle(desk, control);
        } else if (dial->kind == DIAL_CHOICE) {
            const bool is_last = desk->view.values[control] >= control_rows[control].most;
            desk_nudge(desk, control,
                       is_last ? control_rows[control].least : desk->view.values[control] + 1.0f);
        }
        break;
    default:
        break;
    }
}

static void card_key(Desk* const desk, const PaneEvent* const event)
{
    const ShelfKind shelf = (ShelfKind)desk->view.focus.index;
    switch (event->key) {
    case PANE_KEY_UP:
        desk_walk(desk, shelf, -1);
        break;
    case PANE_KEY_DOWN:
        desk_walk(desk, shelf, 1);
        break;
    case PANE_KEY_PAGE_UP:
        desk_walk_family(desk, shelf, -1);
        break;
    case PANE_KEY_PAGE_DOWN:
        desk_walk_family(desk, shelf, 1);
        break;
    case PANE_KEY_ENTER:
        list_open(desk, shelf);
        break;
    case PANE_KEY_DELETE:
        desk_nudge(desk, shelf_control(shelf), control_rows[shelf_control(shelf)].normal);
        break;
    default:
        break;
    }
}

static void edit_key(Desk* const desk, const PaneEvent* const event)
{
    const EditItem item = (EditItem)desk->view.focus.index;
    if (event->key == PANE_KEY_ENTER && item == EDIT_NAME) {
        desk_begin_name(desk);
    } else if (event->key == PANE_KEY_ENTER) {
        editor_do(desk, item);
    } else if (event->key == PANE_KEY_UP || event->key == PANE_KEY_DOWN) {
        editor_step(desk, item, event->key == PANE_KEY_UP ? 1 : -1);
    }
}

static void loop(Desk* const desk, const int64_t bar)
{
    const float wanted = (float)(bar + 1);
    if (bar < 0 || bar >= view_phrase_bars(&desk->view)) {
        return;
    }
    const bool is_looped = desk->view.values[CONTROL_LOOP_BAR] > 0.5f;
    desk_nudge(desk, CONTROL_LOOP_BAR, is_looped ? 0.0f : wanted);
}

static void focused_key(Desk* const desk, const PaneEvent* const event)
{
    View* const view = &desk->view;
    const bool is_enter = event->key == PANE_KEY_ENTER;
    switch (view->focus.kind) {
    case TARGET_DIAL:
    case TARGET_CLICK:
        dial_key(desk, event);
        break;
    case TARGET_CARD:
        card_key(desk, event);
        break;
    case TARGET_TAB:
        if (is_enter) {
            view->panel = (Panel)view->focus.index;
        }
        break;
    case TARGET_PAGE:
        if (is_enter) {
            view->page = !view->page;
        }
        break;
    case TARGET_BAR:
        if (is_enter) {
            loop(desk, view->focus.index);
        }
        break;
    case TARGET_EDIT:
        edit_key(desk, event);
        break;
    case TARGET_THEME:
        if (is_enter || event->key == PANE_KEY_UP || event->key == PANE_KEY_DOWN) {
            desk_cycle_theme(desk);
        }
        break;
    case TARGET_NONE:
    case TARGET_ROW:
    case TARGET_CARD_UP:
    case TARGET_CARD_DOWN:
    case TARGET_FIND:
    case TARGET_LINE:
    case TARGET_LIST:
        break;
    }
    desk->is_dirty = true;
}

/* ---- Letters and figures that work anywhere */

static bool short_cut(Desk* const desk, const uint32_t key, const bool shift)
{
    View* const view = &desk->view;
    switch (key) {
    case 'g':
        list_open(desk, SHELF_GROOVE);
        return true;
    case 'h':
        list_open(desk, SHELF_HANDS);
        return true;
    case 'f':
        list_open(desk, SHELF_FEET);
        return true;
    case 't':
        desk_focus(desk, (TargetId){TARGET_DIAL, CONTROL_TEMPO});
        return true;
    case 'c':
        desk_nudge(desk, CONTROL_CLOCK, view->values[CONTROL_CLOCK] > 0.5f ? 0.0f : 1.0f);
        return true;
    case 'l':
        loop(desk, view_shown(view) - view_phrase(view));
        return true;
    case 'z':
        editor_do(desk, EDIT_UNDO);
        return true;
    case 'y':
        editor_do(desk, EDIT_REDO);
        return true;
    case 'w':
        editor_write(desk, shift);
        return true;
    case 'p':
        view->panel = (Panel)((view->panel + 1) % PANEL_COUNT);
        desk->is_dirty = true;
        return true;
    default:
        return false;
    }
}

static bool limb_key(Desk* const desk, const uint32_t key)
{
    if (key >= '1' && key <= '4') {
        desk_toggle(desk, (Control)(CONTROL_RIGHT_HAND + (int)(key - '1')));
    } else if (key == '5') {
        desk_toggle(desk, CONTROL_CLICK);
    } else if (key == '6') {
        only(desk, true, false);
    } else if (key == '7') {
        only(desk, false, true);
    } else if (key == '0') {
        only(desk, true, true);
    } else {
        return false;
    }
    return true;
}

static bool is_number_part(const uint32_t text)
{
    return (text >= '0' && text <= '9') || text == '-' || text == '.';
}

/* Esc during a drag puts the value back. */
static void escape(Desk* const desk)
{
    View* const view = &desk->view;
    if (view->pressed.kind == TARGET_DIAL) {
        desk_set(desk, (Control)view->pressed.index, desk->drag_from);
        desk_release(desk);
    }
}

static void plain_key(Desk* const desk, const PaneEvent* const event)
{
    const int back = event->modifiers & PANE_SHIFT ? -1 : 1;
    if (event->key == PANE_KEY_TAB) {
        focus_group(desk, back);
    } else if (event->key == PANE_KEY_LEFT || event->key == PANE_KEY_RIGHT) {
        focus_within(desk, event->key == PANE_KEY_RIGHT ? 1 : -1);
    } else if (event->key == PANE_KEY_ESCAPE) {
        escape(desk);
    } else if (can_type(desk) && is_number_part(event->text)) {
        desk_type(desk, event->text);
    } else if (!event->text || (!limb_key(desk, event->key) &&
                                !short_cut(desk, event->key, event->modifiers & PANE_SHIFT))) {
        focused_key(desk, event);
    }
}

void desk_key(Desk* const desk, const PaneEvent* const event)
{
    if (desk->view.list.is_open) {
        list_key(desk, event);
    } else if (desk->view.is_typing) {
        typing_key(desk, event);
    } else {
        plain_key(desk, event);
    }
}
