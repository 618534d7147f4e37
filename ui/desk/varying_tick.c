// SPDX-License-Identifier: ISC
/* Time on the page of variations: some rows more in each tick. */
#include "varying.h"

#include <math.h>
#include <string.h>

enum { LOOKS_A_TICK = 3, QUARTERS_A_TICK = 400, LAYS_A_TICK = 16 };

/* ---- Strokes of the rows that are seen */

static bool is_seen(const VaryPage* const page, const int row, const int seen)
{
    return row >= page->first && row < page->first + seen;
}

static void forget_laid(Model* const model, const int64_t bar)
{
    struct Varying* const desk = model->vary;
    const double tempo = model_tempo(model);
    const bool same = desk->laid_bar == bar && fabs(desk->laid_tempo - tempo) < 0.5 &&
                      model_values_alike(desk->laid_for, model->view.values);
    if (!same) {
        memcpy(desk->laid_for, model->view.values, sizeof desk->laid_for);
        memset(desk->is_laid, 0, sizeof desk->is_laid);
        desk->laid_bar = bar;
        desk->laid_tempo = tempo;
    }
}

static void lay(Model* const model, const VaryLooked* const looked, const int number)
{
    Selection selection;
    struct Varying* const desk = model->vary;
    FeetRow* const row = &model->view.vary.rows[number].feet;
    const Figure* const made = varying_make(model, &looked->source, number, &desk->rooms[0]);
    row->count = row->spans = 0;
    if (made && varying_selection(model, &selection)) {
        selection.feet = made;
        feet_row_lay(&selection, looked->source.meter, desk->laid_bar, desk->laid_tempo,
                     &model->limits, row);
    }
    desk->is_laid[number] = true;
    model->is_dirty = true;
}

static void lay_some(Model* const model, const VaryLooked* const looked, const int seen)
{
    VaryPage* const page = &model->view.vary;
    int laid = 0;
    for (int row = page->first; row < page->count && is_seen(page, row, seen); ++row) {
        const bool is_offered = (uint32_t)row < looked->looked && !looked->rows[row].reason;
        if (is_offered && !model->vary->is_laid[row] && laid++ < LAYS_A_TICK) {
            lay(model, looked, row);
        }
    }
}

/* ---- Whether they can be played */

/* The next that isn't known: of those seen first. */
static int next_to_judge(const VaryLooked* const looked, const VaryPage* const page)
{
    for (int i = 0; i < page->count; ++i) {
        const int row = (page->first + i) % page->count;
        if ((uint32_t)row < looked->looked && !looked->rows[row].reason &&
            looked->verdicts[row].playable == PLAYABLE_UNKNOWN) {
            return row;
        }
    }
    return -1;
}

/* The figure by itself, on the grid and in the cycle that are asked for. */
static void begin_judging(Model* const model, const VaryLooked* const looked, const int row)
{
    struct Varying* const desk = model->vary;
    const VarySource* const source = &looked->source;
    desk->alone = (Groove){.id = 1, .meter = source->meter, .form_bars = FORM_BARS_MAX};
    desk->alone.parts[0].feet = varying_make(model, source, row, &desk->judged);
    Selection selection = selection_of_groove(&desk->alone);
    selection.feet_regrid = source->regrid;
    selection.realign = source->realign;
    selection.left_foot_leads = source->left_foot_leads;
    feet_row_begin(&selection, source->meter, looked->tempo, &model->limits, &desk->play);
    desk->judging = row;
}

static void judge_some(Model* const model, VaryLooked* const looked)
{
    struct Varying* const desk = model->vary;
    if (desk->judging < 0) {
        const int row = next_to_judge(looked, &model->view.vary);
        if (row >= 0) {
            begin_judging(model, looked, row);
        }
    }
    if (desk->judging >= 0 &&
        feet_row_judge(&desk->play, QUARTERS_A_TICK, &looked->verdicts[desk->judging])) {
        varying_show_row(looked, desk->judging, &model->view.vary);
        desk->judging = -1;
        model->is_dirty = true;
    }
}

/* At another tempo something else can be played. */
static void begin_tempo(Model* const model, VaryLooked* const looked)
{
    if (fabs(looked->tempo - model_tempo(model)) < 0.5) {
        return;
    }
    looked->tempo = model_tempo(model);
    model->vary->judging = -1;
    for (int row = 0; row < VARIATION_COUNT; ++row) {
        looked->verdicts[row].playable = PLAYABLE_UNKNOWN;
    }
}

/* ---- Growing */

/* Which row the feet have grown to by the bar shown: of the first variations where none is asked
   for, of the second where one is. */
static void note_grown(Model* const model)
{
    struct Varying* const desk = model->vary;
    VaryPage* const page = &model->view.vary;
    const float* const values = model->view.values;
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    const int level = values[CONTROL_VARIATION] > 0.5f;
    Selection selection;
    int grown[2] = {-1, -1};
    if (values[CONTROL_GROW_EVERY] > 0.5f && bar && varying_selection(model, &selection)) {
        if (desk->grew != model->composed) {
            varied_forget(&desk->varied);
            desk->grew = model->composed;
        }
        selection.varied = &desk->varied;
        selection.variation = (uint32_t)values[CONTROL_VARIATION];
        selection.variation_then = (uint32_t)values[CONTROL_VARIATION_THEN];
        selection.grow_every = (uint32_t)values[CONTROL_GROW_EVERY];
        const BarParts parts = groove_bar(&selection, bar->meter, bar->bar);
        grown[1] = VARY_ROWS_MAX;
        if (!selection.variation_then) {
            grown[level] = parts.varied.numbers[2];
        }
        grown[0] = level ? page->playing[0] : grown[0];
    }
    if (memcmp(page->grown, grown, sizeof grown) != 0) {
        memcpy(page->grown, grown, sizeof grown);
        model->is_dirty = true;
    }
}

/* ---- All of it */

static void show_nothing(Model* const model)
{
    if (model->view.vary.count) {
        model->view.vary.count = 0;
        model->vary->shown = NULL;
        model->is_dirty = true;
    }
}

/* What the user can do may be read after the page is open. */
static void note_limits(Model* const model)
{
    const double* const rate = &model->limits.rate[RIGHT_FOOT];
    double* const limits = model->view.vary.limits;
    for (int foot = 0; foot < 2; ++foot) {
        if (limits[foot] < rate[foot] || limits[foot] > rate[foot]) {
            limits[foot] = rate[foot];
            model->is_dirty = true;
        }
    }
}

void varying_tick(Model* const model)
{
    VarySource source;
    const View* const view = &model->view;
    if (view->panel != PANEL_VARY || view->reads || !varying_begin(model)) {
        return;
    }
    note_limits(model);
    varying_follow(model);
    note_grown(model);
    if (!varying_source(model, &source)) {
        show_nothing(model);
        return;
    }
    VaryLooked* const looked = varying_letter(model, &source);
    begin_tempo(model, looked);
    forget_laid(model, view_shown(view));
    for (int i = 0; i < LOOKS_A_TICK && looked->looked < VARIATION_COUNT; ++i) {
        varying_look_on(model, looked);
    }
    lay_some(model, looked, varying_rows_seen(model));
    judge_some(model, looked);
}
