// SPDX-License-Identifier: ISC
#include "shortlist.h"

#include "kept_slots.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { QUARTERS_A_TICK = 200 };

/* ---- Rows */

static bool select_slot(const Model* const model, const int slot, Selection* const selection)
{
    const KeptSelection* const kept = kept_list_at(model->kept, (uint32_t)slot + 1);
    const Library* const library = model_library(model);
    if (!kept || !library) {
        return false;
    }
    const Settings settings = settings_of_kept(model->ports, (uint32_t)slot + 1, kept->values);
    *selection = selection_make(library, &settings, model_tempo(model));
    selection->varied = &model->shortlist->varied;
    return selection->groove;
}

static void name_it(const KeptSelection* const kept, const EntryKind kind,
                    const Figure* const figure, char name[KEPT_SHOWN_ROOM])
{
    const EntryInfo* const info = figure ? bank_info(kept->plays.bank, kind, figure->id) : NULL;
    snprintf(name, KEPT_SHOWN_ROOM, "%.60s", info ? info->label : figure ? "" : "none");
}

static void lay(Model* const model, const SeenBar* const bar, const int slot)
{
    Selection selection;
    ShortlistRow* const row = &model->view.shortlist.rows[slot];
    row->feet.count = row->feet.spans = 0;
    row->hands[0] = row->fill[0] = '\0';
    model->shortlist->is_laid[slot] = true;
    model->is_dirty = true;
    if (select_slot(model, slot, &selection)) {
        const KeptSelection* const kept = kept_list_at(model->kept, (uint32_t)slot + 1);
        const BarParts parts = groove_bar(&selection, bar->meter, bar->bar);
        name_it(kept, ENTRY_HANDS, parts.hands, row->hands);
        name_it(kept, ENTRY_TURNAROUND, selection.turnaround, row->fill);
        feet_row_lay(&selection, bar->meter, bar->bar, model_tempo(model), &model->limits,
                     &row->feet);
    }
}

/* ---- Time */

static bool begin(Model* const model)
{
    if (!model->shortlist) {
        model->shortlist = calloc(1, sizeof *model->shortlist);
        if (model->shortlist) {
            model->shortlist->judging = -1;
            varied_forget(&model->shortlist->varied);
        }
    }
    return model->shortlist;
}

void shortlist_free(Model* const model)
{
    free(model->shortlist);
    model->shortlist = NULL;
}

/* What was laid and judged of another bar, tempo, or list is forgotten. */
static void forget(Model* const model, const SeenBar* const bar)
{
    struct ShortlistDesk* const desk = model->shortlist;
    const double tempo = model_tempo(model);
    const bool other = desk->composed != model->composed || fabs(desk->tempo - tempo) > 0.5;
    if (other) {
        desk->composed = model->composed;
        desk->tempo = tempo;
        desk->judging = -1;
        varied_forget(&desk->varied); /* figures of another bank are gone */
        for (int slot = 0; slot < KEPT_MAX; ++slot) {
            model->view.shortlist.rows[slot].feet.verdict.playable = PLAYABLE_UNKNOWN;
        }
    }
    if (other || desk->laid_bar != bar->bar || !model_values_alike(desk->laid_for, model->ports)) {
        desk->laid_bar = bar->bar;
        memcpy(desk->laid_for, model->ports, sizeof desk->laid_for);
        memset(desk->is_laid, 0, sizeof desk->is_laid);
    }
}

/* The next of those seen that isn't known. */
static int next_to_judge(const Model* const model)
{
    const View* const view = &model->view;
    for (int slot = view->kept.lot; slot < view->kept.lot + KEPT_LOT; ++slot) {
        const Playable known = view->shortlist.rows[slot].feet.verdict.playable;
        if (view->kept.rows[slot].is_there && known == PLAYABLE_UNKNOWN) {
            return slot;
        }
    }
    return -1;
}

static void judge_some(Model* const model, const SeenBar* const bar)
{
    Selection selection;
    struct ShortlistDesk* const desk = model->shortlist;
    const int next = desk->judging < 0 ? next_to_judge(model) : -1;
    if (next >= 0 && select_slot(model, next, &selection)) {
        feet_row_begin(&selection, bar->meter, desk->tempo, &model->limits, &desk->play);
        desk->judging = next;
    }
    if (desk->judging >= 0 &&
        feet_row_judge(&desk->play, QUARTERS_A_TICK,
                       &model->view.shortlist.rows[desk->judging].feet.verdict)) {
        desk->judging = -1;
        model->is_dirty = true;
    }
}

void shortlist_tick(Model* const model)
{
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    if (view->panel != PANEL_SHORTLIST || view->reads || !bar || bar->bar < 0 || !begin(model)) {
        return;
    }
    forget(model, bar);
    for (int slot = view->kept.lot; slot < view->kept.lot + KEPT_LOT; ++slot) {
        if (!model->shortlist->is_laid[slot]) {
            lay(model, bar, slot);
        }
    }
    judge_some(model, bar);
}

/* ---- Walking */

static void stand_at(Model* const model, const int slot)
{
    View* const view = &model->view;
    view->shortlist.cursor = slot;
    view->kept.lot = slot / KEPT_LOT * KEPT_LOT;
    if (view->panel == PANEL_SHORTLIST) {
        model_focus(model, (TargetId){TARGET_KEPT, slot});
    }
    model->is_dirty = true;
}

void shortlist_go(Model* const model, const int slot)
{
    stand_at(model, slot);
    if ((int)model_kept(model) != slot + 1) { /* of an empty one it says so */
        kept_slots_play(model, slot + 1);
    }
}

void shortlist_stand(Model* const model)
{
    if (model->view.panel == PANEL_SHORTLIST && model_kept(model)) {
        stand_at(model, (int)model_kept(model) - 1);
    }
}

void shortlist_walk(Model* const model, const int by)
{
    const int to = model->view.shortlist.cursor + by;
    shortlist_go(model, to < 0 ? 0 : to >= KEPT_MAX ? KEPT_MAX - 1 : to);
}

void shortlist_turn(Model* const model, const int lot)
{
    const int slot = model->view.shortlist.cursor % KEPT_LOT;
    stand_at(model, lot * KEPT_LOT + slot);
}

void shortlist_follow(Model* const model)
{
    const int cursor = model->view.shortlist.cursor;
    if (model->view.panel == PANEL_SHORTLIST &&
        cursor / KEPT_LOT * KEPT_LOT != model->view.kept.lot) {
        stand_at(model, model->view.kept.lot + cursor % KEPT_LOT);
    }
}

void shortlist_open(Model* const model)
{
    View* const view = &model->view;
    model_stop_typing(model);
    if (view->panel == PANEL_SHORTLIST) {
        view->panel = view->page_before;
        return;
    }
    view->panel = PANEL_SHORTLIST;
    stand_at(model, model_kept(model) ? (int)model_kept(model) - 1 : view->kept.lot);
}
