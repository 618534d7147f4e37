// SPDX-License-Identifier: ISC
#include "effects.h"

#include "../scene/dial.h"
#include "../scene/signature.h"
#include "../scene/handed.h"
#include "asking.h"
#include "choosing.h"
#include "edit_items.h"
#include "list.h"
#include "options.h"
#include "shelves.h"
#include "shortlist.h"
#include "typing.h"

#include <math.h>
#include <stdio.h>

/* ---- Wherever the focus is */

void effects_turn(Model* const model, const Press press)
{
    model_toggle(model, handed_name(&model->view, (Control)press.which));
}

void effects_trigger(Model* const model, const Press press)
{
    model_trigger(model, (Control)press.which);
}

/* Which limbs are heard. */
void effects_hear_only(Model* const model, const Press press)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const bool is_other = limb_is_foot((uint8_t)limb) == (press.which == HANDS_ALONE);
        model_nudge(model, (Control)(CONTROL_RIGHT_HAND + limb),
                    press.which == EVERYTHING || !is_other ? 1.0f : 0.0f);
    }
}

void effects_open_list(Model* const model, const Press press)
{
    list_open(model, (EntryKind)press.which);
}

/* What was picked in the place of the groove's own. */
void effects_put_all_back(Model* const model, const Press press)
{
    (void)press;
    shelves_put_back(model, ENTRY_KINDS);
}

/* What is tapped is the note that the tempo shown counts. */
static double quarters_of_tap(const Model* const model)
{
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    return bar ? note_value_of(bar->meter, false).quarters : 1.0;
}

void effects_tap(Model* const model, const Press press)
{
    const double taps = tap_at(&model->tap, press.seconds);
    model_focus(model, (TargetId){TARGET_DIAL, CONTROL_TEMPO});
    if (taps > 0.0) {
        const bool is_own = model->view.values[CONTROL_CLOCK] > 0.5f;
        char words[MESSAGE_ROOM];
        model_nudge(model, CONTROL_TEMPO, (float)rint(taps * quarters_of_tap(model)));
        snprintf(words, sizeof words, is_own ? "Tapped: %g" : "Tapped: %g for the own clock; key C",
                 (double)model->view.values[CONTROL_TEMPO]);
        model_say(model, words);
    }
}

static void loop(Model* const model, const int64_t bar)
{
    const float wanted = (float)(bar + 1);
    if (bar >= 0 && bar < view_phrase_bars(&model->view)) {
        const bool is_looped = model->view.values[CONTROL_LOOP_BAR] > 0.5f;
        model_nudge(model, CONTROL_LOOP_BAR, is_looped ? 0.0f : wanted);
    }
}

void effects_loop_shown(Model* const model, const Press press)
{
    (void)press;
    loop(model, view_shown(&model->view) - view_phrase(&model->view));
}

void effects_do_item(Model* const model, const Press press)
{
    edit_items_do(model, (EditItem)press.which);
}

void effects_write_phrase(Model* const model, const Press press)
{
    asking_write(model, press.shift);
}

/* ---- The ring of focus */

static int index_of(const TargetList* const targets, const TargetId id)
{
    for (int i = 0; i < targets->count; ++i) {
        if (view_target_same(targets->targets[i].id, id)) {
            return i;
        }
    }
    return -1;
}

void effects_go_to_group(Model* const model, const Press press)
{
    TargetList targets;
    model_targets(model, &targets);
    const int at = index_of(&targets, model->view.focus);
    const int groups = GROUP_LIST;
    int group = at < 0 ? GROUP_TOP : (int)targets.targets[at].group;
    for (int tries = 0; tries < groups; ++tries) {
        group = (group + press.which + groups) % groups;
        for (int i = 0; i < targets.count; ++i) {
            if ((int)targets.targets[i].group == group) {
                model_focus(model, targets.targets[i].id);
                return;
            }
        }
    }
}

/* The ends hold. */
void effects_go_within(Model* const model, const Press press)
{
    TargetList targets;
    model_targets(model, &targets);
    const int at = index_of(&targets, model->view.focus);
    const int next = at + press.which;
    if (at >= 0 && next >= 0 && next < targets.count &&
        targets.targets[next].group == targets.targets[at].group) {
        model_focus(model, targets.targets[next].id);
    }
}

/* ---- What has the focus */

static Control focused(const Model* const model)
{
    const TargetId focus = model->view.focus;
    return focus.kind == TARGET_CLICK  ? CONTROL_CLICK /* its switch by the rows */
           : focus.kind == TARGET_CARD ? kind_controls[focus.index]
                                       : (Control)focus.index;
}

void effects_step(Model* const model, const Press press)
{
    const Control control = focused(model);
    model_nudge(model, control,
                dial_step(control, model->view.values[control], press.which, press.shift));
}

void effects_go_to_end(Model* const model, const Press press)
{
    const ControlRow* const row = &control_rows[focused(model)];
    model_nudge(model, focused(model), press.which ? row->most : row->least);
}

void effects_go_back(Model* const model, const Press press)
{
    (void)press;
    model_nudge(model, focused(model), control_rows[focused(model)].normal);
}

/* Turns a switch, or goes round the words of a choice. */
void effects_go_round(Model* const model, const Press press)
{
    const Control control = focused(model);
    const ControlRow* const row = &control_rows[control];
    const float value = model->view.values[control];
    (void)press;
    if (dial_of(control)->kind == DIAL_TRIGGER) {
        model_trigger(model, control);
    } else if (model->view.focus.kind == TARGET_DIAL && dial_of(control)->kind == DIAL_VALUE) {
        choosing_open(model, control);
    } else if (dial_of(control)->kind == DIAL_CHOICE) {
        model_nudge(model, control, value >= row->most ? row->least : value + 1.0f);
    } else {
        model_toggle(model, control);
    }
}

void effects_put_back(Model* const model, const Press press)
{
    (void)press;
    model_set(model, (Control)model->view.pressed.index, model->drag_from);
    model_let_go(model);
}

void effects_walk_card(Model* const model, const Press press)
{
    shelves_walk(model, (EntryKind)model->view.focus.index, press.which);
}

void effects_walk_families(Model* const model, const Press press)
{
    shelves_walk_family(model, (EntryKind)model->view.focus.index, press.which);
}

void effects_step_item(Model* const model, const Press press)
{
    edit_items_step(model, (EditItem)model->view.focus.index, press.which);
}

void effects_step_option(Model* const model, const Press press)
{
    if (model->view.focus.kind == TARGET_OPTION) {
        options_step(model, (OptionItem)model->view.focus.index, press.which);
    } else {
        options_next_theme(model);
    }
}

void effects_use(Model* const model, const TargetId id)
{
    View* const view = &model->view;
    switch (id.kind) {
    case TARGET_CLICK:
        model_toggle(model, CONTROL_CLICK);
        break;
    case TARGET_CARD:
        list_open(model, (EntryKind)id.index);
        break;
    case TARGET_PUT_BACK:
        shelves_put_back(model, (EntryKind)id.index);
        break;
    case TARGET_WORD:
        choosing_pick(model, id.index);
        break;
    case TARGET_TAB:
        view->panel = (Panel)id.index;
        break;
    case TARGET_SHOW:
        effects_show(model, (ShowItem)id.index);
        break;
    case TARGET_PAGE:
        view->page = !view->page;
        break;
    case TARGET_THEME:
        options_next_theme(model);
        break;
    case TARGET_OPTION:
        options_step(model, (OptionItem)id.index, 1);
        break;
    case TARGET_EDIT:
        if (id.index == EDIT_NAME) {
            typing_begin_name(model);
        } else {
            edit_items_do(model, (EditItem)id.index);
        }
        break;
    case TARGET_HEAD:
        list_sort_at(model, (ListColumn)id.index);
        break;
    case TARGET_KEPT_LOT:
        shortlist_turn(model, id.index);
        break;
    case TARGET_KEPT:
        shortlist_go(model, id.index);
        break;
    case TARGET_VARY: /* its own keys */
    case TARGET_NONE:
    case TARGET_DIAL:
    case TARGET_BAR:
    case TARGET_ROW:
    case TARGET_CARD_UP:
    case TARGET_CARD_DOWN:
    case TARGET_FIND:
    case TARGET_LIST_ROW:
    case TARGET_LIST:
    case TARGET_READING:
        break;
    }
}

void effects_use_focused(Model* const model, const Press press)
{
    (void)press;
    if (model->view.focus.kind == TARGET_BAR) {
        loop(model, model->view.focus.index);
    } else {
        effects_use(model, model->view.focus);
    }
}

/* ---- Lists */

void effects_walk(Model* const model, const Press press)
{
    list_walk(model, press.which);
}

void effects_walk_pages(Model* const model, const Press press)
{
    list_walk(model, press.which * (list_rows_seen(model) - 1));
}

void effects_close_list(Model* const model, const Press press)
{
    list_close(model, press.which);
}

void effects_leave_list(Model* const model, const Press press)
{
    (void)press;
    if (*model->view.list.find) {
        list_find_all(model);
    } else {
        list_close(model, false);
    }
}

void effects_sort(Model* const model, const Press press)
{
    list_sort_by(model, press.which);
}

void effects_sort_round(Model* const model, const Press press)
{
    (void)press;
    list_sort_round(model);
}

void effects_find_more(Model* const model, const Press press)
{
    list_find_more(model, press.text);
}

void effects_find_less(Model* const model, const Press press)
{
    (void)press;
    list_find_less(model);
}

void effects_scroll(Model* const model, const Press press)
{
    list_scroll(model, press.which);
}

void effects_scroll_pages(Model* const model, const Press press)
{
    list_scroll(model, press.which * (list_rows_seen(model) - 1));
}
