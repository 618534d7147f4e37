// SPDX-License-Identifier: ISC
#include "controller.h"

#include "actions.h"
#include "asking.h"
#include "grades.h"
#include "kept_told.h"
#include "edit_marks.h"
#include "keys.h"
#include "list.h"
#include "mouse.h"
#include "shelves.h"
#include "shortlist.h"
#include "varying.h"

bool controller_open(Model* const model, Bank* const bank, const Uris* const uris,
                     const ModelOutput output)
{
    model_begin(model, uris, output);
    actions_list(&model->view.keys);
    controller_resize(model, FIRST_WIDTH, FIRST_HEIGHT, 1.0);
    return shelves_fill(model, bank);
}

void controller_close(Model* const model)
{
    editor_close(model);
    groove_saving_close(model);
    entries_close(model);
    kept_told_close(model);
    mouse_release(model);            /* no port is left held, */
    model_tick_trigger(model, true); /* none triggered */
    shelves_free(model);
    varying_free(model);
    shortlist_free(model);
    snapshot_free(model->snapshot);
    model->snapshot = NULL;
}

bool controller_bank(Model* const model, Bank* const bank)
{
    if (!shelves_fill(model, bank)) {
        return false;
    }
    mouse_release(model); /* no port is left held */
    editor_bank(model);
    list_refresh(model);
    model->is_dirty = true;
    return true;
}

/* What has the keys can always be seen: where it went away, the panel's tab has them. */
static void keep_focus(Model* const model)
{
    const View* const view = &model->view;
    TargetList targets;
    model_targets(model, &targets);
    const bool is_elsewhere = view->list.is_open || view->keys.is_open || view->reads;
    if (!is_elsewhere && !targets_find(&targets, view->focus)) {
        const bool is_kept = view->panel == PANEL_SHORTLIST;
        model_focus(model, is_kept ? (TargetId){TARGET_KEPT, view->shortlist.cursor}
                                   : (TargetId){TARGET_TAB, (int)view->panel});
    }
}

void controller_resize(Model* const model, const int width, const int height, const double scale)
{
    model->width = width;
    model->height = height;
    model->scale = scale;
    model_fit(model);
    list_scroll(model, 0);
    keep_focus(model);
}

LV2_URID controller_asks(const Model* const model)
{
    return model->view.edit.is_learning                           ? model->uris->fl_noteIn
           : !model->view.has_place                               ? 0
           : pieces_lack(&model->entries_told.pieces, model->now) ? model->uris->fl_sessionEntries
           : pieces_lack(&model->kept_told, model->now)           ? model->uris->fl_keptSelections
                                                                  : model->uris->fl_place;
}

/* Without news for so long the place stands still: the host may have gone. */
static const double longest_guess = 0.5;

void controller_tick(Model* const model, const double seconds)
{
    View* const view = &model->view;
    model->now = seconds;
    editor_tick(model);
    sounding_tick(model);
    edit_marks_find(model);
    varying_tick(model);
    groove_saving_tick(model);
    shortlist_tick(model);
    model_tick_trigger(model, false);
    grades_shown(model);
    if (!view->has_place || !view->place.rolling) {
        return;
    }
    const double since = seconds - model->told_at;
    const double guess = since < longest_guess ? since : longest_guess;
    view->now_tick = model->told_tick + guess * view->place.ticks_per_second;
}

static void set_keys(Model* const model, const bool has_keys)
{
    model->view.has_keys = has_keys;
    model->is_dirty = true;
}

static void leave(Model* const model)
{
    if (model->view.hover.kind != TARGET_NONE) {
        model->view.hover = (TargetId){TARGET_NONE, 0};
        model->is_dirty = true;
    }
}

static bool take(Model* const model, const PaneEvent* const event)
{
    PaneEvent logical = *event;
    logical.x = (event->x - model->fit.x) / model->fit.scale;
    logical.y = (event->y - model->fit.y) / model->fit.scale;
    switch (event->kind) {
    case PANE_PRESS:
        mouse_press(model, &logical);
        break;
    case PANE_RELEASE:
        if (event->button == 1) {
            mouse_up(model);
        }
        break;
    case PANE_MOTION:
        mouse_motion(model, &logical);
        break;
    case PANE_SCROLL:
        mouse_scroll(model, &logical);
        break;
    case PANE_KEY:
        return keys_press(model, &logical);
    case PANE_LEAVE:
        leave(model);
        break;
    case PANE_FOCUS_IN:
        set_keys(model, true);
        break;
    case PANE_FOCUS_OUT:
        set_keys(model, false);
        break;
    case PANE_DROP:
        asking_dropped(model, event->path);
        break;
    case PANE_RESIZE:
    case PANE_CLOSE:
        break;
    }
    return true;
}

bool controller_input(Model* const model, const PaneEvent* const event)
{
    const bool is_used = take(model, event);
    if (model->view.panel != PANEL_EDIT) {
        editor_let_page_go(model);
    }
    if (page_rows[model->view.panel].group != PAGES_STATE) {
        model->view.page_before = model->view.panel;
    }
    shortlist_follow(model);
    keep_focus(model);
    return is_used;
}
