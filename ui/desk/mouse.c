// SPDX-License-Identifier: ISC
#include "mouse.h"

#include "../scene/dial.h"
#include "../scene/target_choice.h"
#include "choosing.h"
#include "asking.h"
#include "edit_items.h"
#include "effects.h"
#include "list.h"
#include "options.h"
#include "shelves.h"
#include "shortlist.h"
#include "varying.h"

#include <math.h>
#include <stddef.h>

static const double double_click_seconds = 0.35;
static const double drag_range = 200.0; /* pixels for a whole range */
static const double drag_starts = 3.0;

static bool is_held(const Model* const model)
{
    return model->view.pressed.kind == TARGET_DIAL;
}

static void press_dial(Model* const model, const Target* const target, const double x)
{
    const Control control = (Control)target->id.index;
    const Dial* const dial = dial_of(control);
    if (dial->kind == DIAL_SWITCH) {
        model_toggle(model, control);
    } else if (dial->kind == DIAL_TRIGGER) {
        model_trigger(model, control);
    } else if (dial->kind == DIAL_CHOICE) {
        model_nudge(model, control,
                    control_rows[control].least + (float)target_choice_at(target, control, x));
    } else {
        model_hold(model, target->id);
    }
}

/* Looks at a bar; the second click loops it, or ends the loop. */
static void press_bar(Model* const model, const int bar, const bool is_second)
{
    if (is_second) {
        const float loop = (float)(bar + 1);
        const bool is_looped = fabsf(model->view.values[CONTROL_LOOP_BAR] - loop) < 0.5f;
        model_nudge(model, CONTROL_LOOP_BAR, is_looped ? 0.0f : loop);
    } else {
        model->view.looked_at = bar;
    }
}

static void press_target(Model* const model, const Target* const target, const double x,
                         const bool is_second)
{
    switch (target->id.kind) {
    case TARGET_DIAL:
        if (is_second && dial_of((Control)target->id.index)->kind == DIAL_VALUE) {
            model_nudge(model, (Control)target->id.index, control_rows[target->id.index].normal);
        } else {
            press_dial(model, target, x);
        }
        break;
    case TARGET_CARD_UP:
        shelves_walk(model, (EntryKind)target->id.index, -1);
        break;
    case TARGET_CARD_DOWN:
        shelves_walk(model, (EntryKind)target->id.index, 1);
        break;
    case TARGET_BAR:
        press_bar(model, target->id.index, is_second);
        break;
    case TARGET_LIST_ROW:
        list_choose(model, target->id.index);
        if (is_second) {
            list_close(model, true);
        }
        break;
    case TARGET_KEPT:
        shortlist_go(model, target->id.index);
        break;
    case TARGET_VARY:
        varying_go(model, target->id.index);
        model_focus(model, target->id);
        break;
    case TARGET_CLICK:
    case TARGET_KEPT_LOT:
    case TARGET_CARD:
    case TARGET_WORD:
    case TARGET_PUT_BACK:
    case TARGET_TAB:
    case TARGET_PAGE:
    case TARGET_SHOW:
    case TARGET_THEME:
    case TARGET_OPTION:
    case TARGET_EDIT:
    case TARGET_NONE:
    case TARGET_ROW:
    case TARGET_HEAD:
    case TARGET_FIND:
    case TARGET_LIST:
        effects_use(model, target->id);
        break;
    case TARGET_READING:
        if (is_second) {
            effects_read(model, (Press){.which = 0});
        }
        break;
    }
}

static bool is_in_list(const TargetKind kind)
{
    return kind == TARGET_LIST_ROW || kind == TARGET_LIST || kind == TARGET_FIND ||
           kind == TARGET_HEAD;
}

static bool can_have_focus(const Target* const target)
{
    return target->group != GROUP_NONE && !is_in_list(target->id.kind);
}

static bool is_soon(const Model* const model)
{
    return model->clicked_at >= 0.0 && model->now - model->clicked_at < double_click_seconds;
}

static bool stays(const Model* const model, const PaneEvent* const event)
{
    return fabs(event->x - model->drag_x) < drag_starts &&
           fabs(event->y - model->drag_y) < drag_starts;
}

/* The second click on a dial of words, which the first has laid out over it. */
static bool is_second_on_words(const Model* const model, const PaneEvent* const event)
{
    const TargetId dial = {TARGET_DIAL, (int)model->view.choosing};
    return model->view.is_choosing && event->button == 1 && is_soon(model) && stays(model, event) &&
           view_target_same(model->clicked, dial);
}

/* What is under the pointer; of a second click on a bar that bar, which the first one may have
   moved: of a long phrase eight are near. */
static const Target* pressed_target(const Model* const model, const TargetList* const targets,
                                    const PaneEvent* const event)
{
    const Target* const target = targets_at(targets, event->x, event->y);
    const bool is_bar = target && target->id.kind == TARGET_BAR && event->button == 1;
    return is_bar && stays(model, event) && is_soon(model) && model->clicked.kind == TARGET_BAR
               ? targets_find(targets, model->clicked)
               : target;
}

void mouse_press(Model* const model, const PaneEvent* const event)
{
    TargetList targets;
    if (is_second_on_words(model, event)) {
        const Control control = model->view.choosing;
        choosing_leave(model);
        model_nudge(model, control, control_rows[control].normal);
        return;
    }
    model_targets(model, &targets);
    const Target* const target = pressed_target(model, &targets, event);
    const TargetId id = target ? target->id : (TargetId){TARGET_NONE, 0};
    if (target && id.kind == TARGET_ROW && event->button != 2 && !model->view.list.is_open) {
        model_stop_typing(model);
        editor_press(model, id.index, event->x, event->y, event->button,
                     event->modifiers & PANE_SHIFT);
        return;
    }
    if (event->button != 1) {
        return;
    }
    mouse_release(model); /* of a press whose release the host kept */
    asking_no(model);
    if ((model->view.list.is_open || model->view.keys.is_open) && !is_in_list(id.kind)) {
        list_close(model, true); /* outside: keep, as Enter does; then the click counts */
        mouse_press(model, event);
        return;
    }
    const bool is_second = view_target_same(id, model->clicked) && is_soon(model);
    model->clicked = id;
    model->clicked_at = is_second ? -1.0 : model->now;
    model->drag_x = event->x;
    model->drag_y = event->y;
    model->is_fine = event->modifiers & PANE_SHIFT;
    model_stop_typing(model);
    if (model->view.is_choosing && id.kind != TARGET_WORD) {
        choosing_leave(model);
    }
    if (target) {
        if (can_have_focus(target)) {
            model_focus(model, id);
        }
        press_target(model, target, event->x, is_second);
    }
    model->is_dirty = true;
}

static void drag(Model* const model, const PaneEvent* const event)
{
    const Control control = (Control)model->view.pressed.index;
    const double along = event->x - model->drag_x + model->drag_y - event->y;
    if (!model->view.is_dragged && fabs(along) < drag_starts) {
        return;
    }
    model->view.is_dragged = true;
    const ControlRow* const row = &control_rows[control];
    const bool fine = event->modifiers & PANE_SHIFT;
    if (fine != model->is_fine) { /* from here on: the value must not leap */
        model->is_fine = fine;
        model->drag_base = model->view.values[control];
        model->drag_x = event->x;
        model->drag_y = event->y;
        return;
    }
    const double range = fine ? 10.0 * drag_range : drag_range;
    const double wanted =
        (double)model->drag_base + along / range * (double)(row->most - row->least);
    model_set(model, control, dial_step(control, (float)wanted, 0.0, fine));
}

void mouse_motion(Model* const model, const PaneEvent* const event)
{
    model->x = event->x;
    model->y = event->y;
    if (is_held(model)) {
        drag(model, event);
        return;
    }
    if (model->editor.hold.is_held) {
        editor_drag(model, event->y);
        return;
    }
    TargetList targets;
    model_targets(model, &targets);
    const Target* const target = targets_at(&targets, event->x, event->y);
    const TargetId id = target ? target->id : (TargetId){TARGET_NONE, 0};
    editor_hover(model, id.kind == TARGET_ROW ? id.index : -1, event->x);
    if (!view_target_same(id, model->view.hover)) {
        model->view.hover = id;
        model->is_dirty = true;
    }
}

void mouse_release(Model* const model)
{
    editor_release(model, model->x);
    model_let_go(model);
}

void mouse_up(Model* const model)
{
    const TargetId held = model->view.pressed;
    const bool is_click = is_held(model) && !model->view.is_dragged;
    mouse_release(model);
    if (is_click && view_target_same(held, model->clicked)) {
        choosing_open(model, (Control)held.index);
        varying_choose(model, (Control)held.index);
    }
}

static bool is_trigger(const TargetId id)
{
    return id.kind == TARGET_DIAL && dial_of((Control)id.index)->kind == DIAL_TRIGGER;
}

void mouse_scroll(Model* const model, const PaneEvent* const event)
{
    TargetList targets;
    model_targets(model, &targets);
    const Target* const target = targets_at(&targets, event->x, event->y);
    const int by = event->scroll > 0.0 ? 1 : -1;
    if (!target || is_held(model) || is_trigger(target->id)) {
        return;
    }
    const TargetId id = target->id;
    if (id.kind == TARGET_VARY) {
        varying_scroll(model, -3 * by);
    } else if (is_in_list(id.kind)) {
        list_scroll(model, -3 * by);
    } else if (id.kind == TARGET_OPTION && id.index == OPTION_TEXT) {
        options_step(model, OPTION_TEXT, by);
    } else if (id.kind == TARGET_EDIT) {
        edit_items_step(model, (EditItem)id.index, by);
    } else if (id.kind == TARGET_DIAL || id.kind == TARGET_CLICK) {
        const Control control = id.kind == TARGET_DIAL ? (Control)id.index : CONTROL_CLICK;
        model_nudge(model, control,
                    dial_step(control, model->view.values[control], event->scroll,
                              event->modifiers & PANE_SHIFT));
    } else if (id.kind == TARGET_CARD || id.kind == TARGET_CARD_UP || id.kind == TARGET_CARD_DOWN) {
        shelves_walk(model, (EntryKind)id.index, -by);
    }
}
