// SPDX-License-Identifier: ISC
/* Pointing, clicking, dragging and the wheel. */
#include "../scene/dial.h"
#include "moves.h"

#include <math.h>
#include <stddef.h>

static const double double_click_seconds = 0.35;
static const double drag_range = 200.0; /* pixels for a whole range */
static const double drag_starts = 3.0;

static bool is_held(const Desk* const desk)
{
    return desk->view.pressed.kind == TARGET_DIAL;
}

static void touch(const Desk* const desk, const Control control, const bool held)
{
    if (desk->output.touch) {
        desk->output.touch(desk->output.handle, (uint32_t)(PORT_FIRST_CONTROL + control), held);
    }
}

static void press_dial(Desk* const desk, const Target* const target, const double x)
{
    const Control control = (Control)target->id.index;
    const Dial* const dial = dial_of(control);
    if (dial->kind == DIAL_SWITCH) {
        desk_toggle(desk, control);
    } else if (dial->kind == DIAL_CHOICE) {
        desk_nudge(desk, control,
                   control_rows[control].least + (float)choice_at(target, control, x));
    } else {
        desk->view.pressed = target->id;
        desk->drag_from = desk->drag_base = desk->view.values[control];
        touch(desk, control, true);
    }
}

/* Looks at a bar; the second click loops it, or ends the loop. */
static void press_bar(Desk* const desk, const int bar, const bool is_second)
{
    if (is_second) {
        const float loop = (float)(bar + 1);
        const bool is_looped = fabsf(desk->view.values[CONTROL_LOOP_BAR] - loop) < 0.5f;
        desk_nudge(desk, CONTROL_LOOP_BAR, is_looped ? 0.0f : loop);
    } else {
        desk->view.looked_at = bar;
    }
}

static void press_target(Desk* const desk, const Target* const target, const double x,
                         const bool is_second)
{
    switch (target->id.kind) {
    case TARGET_DIAL:
        if (is_second && dial_of((Control)target->id.index)->kind == DIAL_VALUE) {
            desk_nudge(desk, (Control)target->id.index, control_rows[target->id.index].normal);
        } else {
            press_dial(desk, target, x);
        }
        break;
    case TARGET_CLICK:
        desk_toggle(desk, CONTROL_CLICK);
        break;
    case TARGET_CARD:
        list_open(desk, (ShelfKind)target->id.index);
        break;
    case TARGET_CARD_UP:
        desk_walk(desk, (ShelfKind)target->id.index, -1);
        break;
    case TARGET_CARD_DOWN:
        desk_walk(desk, (ShelfKind)target->id.index, 1);
        break;
    case TARGET_TAB:
        desk->view.panel = (Panel)target->id.index;
        break;
    case TARGET_PAGE:
        desk->view.page = !desk->view.page;
        break;
    case TARGET_BAR:
        press_bar(desk, target->id.index, is_second);
        break;
    case TARGET_LIST_ROW:
        list_choose(desk, target->id.index);
        if (is_second) {
            list_close(desk, true);
        }
        break;
    case TARGET_EDIT:
        if (target->id.index == EDIT_NAME) {
            desk_begin_name(desk);
        } else {
            editor_do(desk, (EditItem)target->id.index);
        }
        break;
    case TARGET_THEME:
        desk_cycle_theme(desk);
        break;
    case TARGET_NONE:
    case TARGET_ROW:
    case TARGET_FIND:
    case TARGET_LIST:
        break;
    }
}

static bool is_in_list(const TargetKind kind)
{
    return kind == TARGET_LIST_ROW || kind == TARGET_LIST || kind == TARGET_FIND;
}

static bool can_have_focus(const Target* const target)
{
    return target->group != GROUP_NONE && !is_in_list(target->id.kind);
}

void desk_press(Desk* const desk, const PaneEvent* const event)
{
    TargetList targets;
    desk_targets(desk, &targets);
    const Target* const target = targets_at(&targets, event->x, event->y);
    const TargetId id = target ? target->id : (TargetId){TARGET_NONE, 0};
    if (target && id.kind == TARGET_ROW && event->button != 2 && !desk->view.list.is_open) {
        desk_end_typing(desk, false);
        editor_press(desk, id.index, event->x, event->y, event->button,
                     event->modifiers & PANE_SHIFT);
        return;
    }
    if (event->button != 1) {
        return;
    }
    desk_release(desk); /* of a press whose release the host kept */
    if (desk->view.list.is_open && !is_in_list(id.kind)) {
        list_close(desk, true); /* outside: keep, as Enter does; then the click counts */
        desk_press(desk, event);
        return;
    }
    const bool is_second = target_same(id, desk->clicked) && desk->clicked_at >= 0.0 &&
                           desk->now - desk->clicked_at < double_click_seconds;
    desk->clicked = id;
    desk->clicked_at = is_second ? -1.0 : desk->now;
    desk->drag_x = event->x;
    desk->drag_y = event->y;
    desk->is_fine = event->modifiers & PANE_SHIFT;
    desk_end_typing(desk, false);
    if (target) {
        if (can_have_focus(target)) {
            desk_focus(desk, id);
        }
        press_target(desk, target, event->x, is_second);
    }
    desk->is_dirty = true;
}

static void drag(Desk* const desk, const PaneEvent* const event)
{
    const Control control = (Control)desk->view.pressed.index;
    const double along = event->x - desk->drag_x + desk->drag_y - event->y;
    if (!desk->view.is_dragged && fabs(along) < drag_starts) {
        return;
    }
    desk->view.is_dragged = true;
    const ControlRow* const row = &control_rows[control];
    const bool fine = event->modifiers & PANE_SHIFT;
    if (fine != desk->is_fine) { /* from here on: the value must not leap */
        desk->is_fine = fine;
        desk->drag_base = desk->view.values[control];
        desk->drag_x = event->x;
        desk->drag_y = event->y;
        return;
    }
    const double range = fine ? 10.0 * drag_range : drag_range;
    const double wanted =
        (double)desk->drag_base + along / range * (double)(row->most - row->least);
    desk_set(desk, control, dial_step(control, (float)wanted, 0.0, fine));
}

void desk_motion(Desk* const desk, const PaneEvent* const event)
{
    desk->x = event->x;
    desk->y = event->y;
    if (is_held(desk)) {
        drag(desk, event);
        return;
    }
    if (desk->editor.hold.is_held) {
        editor_drag(desk, event->y);
        return;
    }
    TargetList targets;
    desk_targets(desk, &targets);
    const Target* const target = targets_at(&targets, event->x, event->y);
    const TargetId id = target ? target->id : (TargetId){TARGET_NONE, 0};
    editor_hover(desk, id.kind == TARGET_ROW ? id.index : -1, event->x);
    if (!target_same(id, desk->view.hover)) {
        desk->view.hover = id;
        desk->is_dirty = true;
    }
}

void desk_release(Desk* const desk)
{
    editor_release(desk, desk->x);
    if (is_held(desk)) {
        touch(desk, (Control)desk->view.pressed.index, false);
        desk->is_dirty = true;
    }
    desk->view.pressed = (TargetId){TARGET_NONE, 0};
    desk->view.is_dragged = false;
}

void desk_scroll(Desk* const desk, const PaneEvent* const event)
{
    TargetList targets;
    desk_targets(desk, &targets);
    const Target* const target = targets_at(&targets, event->x, event->y);
    const int by = event->scroll > 0.0 ? 1 : -1;
    if (!target || is_held(desk)) {
        return;
    }
    const TargetId id = target->id;
    if (is_in_list(id.kind)) {
        list_scroll(desk, -3 * by);
    } else if (id.kind == TARGET_EDIT) {
        editor_step(desk, (EditItem)id.index, by);
    } else if (id.kind == TARGET_DIAL || id.kind == TARGET_CLICK) {
        const Control control = id.kind == TARGET_DIAL ? (Control)id.index : CONTROL_CLICK;
        desk_nudge(desk, control,
                   dial_step(control, desk->view.values[control], event->scroll,
                             event->modifiers & PANE_SHIFT));
    } else if (id.kind == TARGET_CARD || id.kind == TARGET_CARD_UP || id.kind == TARGET_CARD_DOWN) {
        desk_walk(desk, (ShelfKind)id.index, -by);
    }
}
