// SPDX-License-Identifier: ISC
/* The keyboard: everything can be reached and set by it.  Each function that takes a
   key says whether it has a use for it here and now; the others are the host's. */
#include "../scene/dial.h"
#include "moves.h"

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

/* The ends hold. */
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

/* Turns a switch, or goes round the words of a choice. */
static bool enter_dial(Desk* const desk, const Control control, const bool is_switch)
{
    const ControlRow* const row = &control_rows[control];
    const float value = desk->view.values[control];
    if (is_switch) {
        desk_toggle(desk, control);
    } else if (dial_of(control)->kind == DIAL_CHOICE) {
        desk_nudge(desk, control, value >= row->most ? row->least : value + 1.0f);
    } else {
        return false;
    }
    return true;
}

static bool dial_key(Desk* const desk, const PaneEvent* const event)
{
    const bool is_click = desk->view.focus.kind == TARGET_CLICK; /* its switch by the rows */
    const Control control = is_click ? CONTROL_CLICK : (Control)desk->view.focus.index;
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
        return enter_dial(desk, control, is_click || dial_of(control)->kind == DIAL_SWITCH);
    default:
        return false;
    }
    return true;
}

static bool card_key(Desk* const desk, const PaneEvent* const event)
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
        return false;
    }
    return true;
}

static bool edit_key(Desk* const desk, const PaneEvent* const event)
{
    const EditItem item = (EditItem)desk->view.focus.index;
    if (event->key == PANE_KEY_ENTER && item == EDIT_NAME) {
        desk_begin_name(desk);
    } else if (event->key == PANE_KEY_ENTER) {
        editor_do(desk, item);
    } else if (event->key == PANE_KEY_UP || event->key == PANE_KEY_DOWN) {
        editor_step(desk, item, event->key == PANE_KEY_UP ? 1 : -1);
    } else {
        return false;
    }
    return true;
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

/* Enter on what is neither dial, card nor item of the editor. */
static bool enter_focused(Desk* const desk)
{
    View* const view = &desk->view;
    switch (view->focus.kind) {
    case TARGET_TAB:
        view->panel = (Panel)view->focus.index;
        return true;
    case TARGET_PAGE:
        view->page = !view->page;
        return true;
    case TARGET_BAR:
        loop(desk, view->focus.index);
        return true;
    case TARGET_THEME:
        desk_cycle_theme(desk);
        return true;
    case TARGET_NONE:
    case TARGET_DIAL:
    case TARGET_CLICK:
    case TARGET_CARD:
    case TARGET_EDIT:
    case TARGET_ROW:
    case TARGET_CARD_UP:
    case TARGET_CARD_DOWN:
    case TARGET_FIND:
    case TARGET_LIST_ROW:
    case TARGET_LIST:
        break;
    }
    return false;
}

static bool focused_key(Desk* const desk, const PaneEvent* const event)
{
    const TargetKind kind = desk->view.focus.kind;
    desk->is_dirty = true;
    if (kind == TARGET_DIAL || kind == TARGET_CLICK) {
        return dial_key(desk, event);
    }
    if (kind == TARGET_CARD) {
        return card_key(desk, event);
    }
    if (kind == TARGET_EDIT) {
        return edit_key(desk, event);
    }
    if (kind == TARGET_THEME && (event->key == PANE_KEY_UP || event->key == PANE_KEY_DOWN)) {
        desk_cycle_theme(desk);
        return true;
    }
    return event->key == PANE_KEY_ENTER && enter_focused(desk);
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
static bool escape(Desk* const desk)
{
    View* const view = &desk->view;
    if (view->pressed.kind != TARGET_DIAL) {
        return false;
    }
    desk_set(desk, (Control)view->pressed.index, desk->drag_from);
    desk_release(desk);
    return true;
}

static bool plain_key(Desk* const desk, const PaneEvent* const event)
{
    const bool shift = event->modifiers & PANE_SHIFT;
    if (event->key == PANE_KEY_TAB) {
        focus_group(desk, shift ? -1 : 1);
    } else if (event->key == PANE_KEY_LEFT || event->key == PANE_KEY_RIGHT) {
        focus_within(desk, event->key == PANE_KEY_RIGHT ? 1 : -1);
    } else if (event->key == PANE_KEY_ESCAPE) {
        return escape(desk);
    } else if (desk_can_type(desk) && is_number_part(event->text)) {
        desk_type(desk, event->text);
    } else if (!event->text ||
               (!limb_key(desk, event->key) && !short_cut(desk, event->key, shift))) {
        return focused_key(desk, event);
    }
    return true;
}

bool desk_key(Desk* const desk, const PaneEvent* const event)
{
    if (event->modifiers & (PANE_CONTROL | PANE_ALT | PANE_SUPER)) {
        return false; /* a short cut of the host's */
    }
    return desk->view.list.is_open ? list_key(desk, event)
           : desk->view.is_typing  ? desk_typing_key(desk, event)
                                   : plain_key(desk, event);
}
