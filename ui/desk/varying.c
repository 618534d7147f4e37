// SPDX-License-Identifier: ISC
#include "varying.h"

#include "../scene/vary_place.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- What rows are made of */

bool varying_selection(const Model* const model, Selection* const selection)
{
    float values[CONTROL_COUNT];
    const Library* const library = model_library(model);
    memcpy(values, model->view.values, sizeof values);
    values[CONTROL_VARIATION] = values[CONTROL_VARIATION_THEN] = values[CONTROL_GROW_EVERY] = 0.0f;
    const Settings settings = settings_from_controls(values);
    if (library) {
        *selection = selection_make(library, &settings, model_tempo(model));
    }
    return library && selection->groove;
}

bool varying_source(const Model* const model, VarySource* const source)
{
    Selection selection;
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    if (!bar || bar->bar < 0 || !varying_selection(model, &selection)) {
        return false;
    }
    const BarParts parts = groove_bar(&selection, bar->meter, bar->bar);
    *source =
        (VarySource){.composed = model->composed,
                     .feet = parts.feet,
                     .hands = parts.hands,
                     .meter = bar->meter,
                     .first = view->vary.is_deep ? (int32_t)view->values[CONTROL_VARIATION] : 0,
                     .regrid = selection.feet_regrid,
                     .realign = selection.realign,
                     .left_foot_leads = selection.left_foot_leads};
    return parts.feet;
}

static bool is_same(const VarySource* const a, const VarySource* const b)
{
    return a->composed == b->composed && a->feet == b->feet && a->hands == b->hands &&
           meter_equal(a->meter, b->meter) && a->first == b->first &&
           layout_regrid_equal(a->regrid, b->regrid) && a->realign == b->realign &&
           a->left_foot_leads == b->left_foot_leads;
}

/* What the page's variations are made of: the feet, or what the first makes of them. */
static const Figure* base_of(Model* const model, const VarySource* const source)
{
    struct Varying* const desk = model->vary;
    const Variation first = variation_make(source->feet, source->hands, source->meter,
                                           (uint32_t)source->first, desk->first);
    return first.figure ? first.figure : source->feet;
}

const Figure* varying_make(Model* const model, const VarySource* const source, const int number,
                           VariationRoom* const room)
{
    return variation_make(base_of(model, source), source->hands, source->meter, (uint32_t)number,
                          room)
        .figure;
}

/* ---- Rows of the page */

static void say_why(const VariationRow* const made, VaryRow* const row)
{
    row->why[0] = '\0';
    if (made->reason == VARY_AS_EARLIER) {
        snprintf(row->why, sizeof row->why, "the same as %s", variation_words(made->same_as));
    } else if (made->reason) {
        snprintf(row->why, sizeof row->why, "%s", variation_reason(made->reason));
    }
}

void varying_show_row(const VaryLooked* const looked, const int number, VaryPage* const page)
{
    VaryRow* const row = &page->rows[number];
    row->number = number;
    row->name = number || !page->is_deep ? variation_words((uint32_t)number) : "nothing more";
    row->help = variation_help((uint32_t)number);
    row->is_known = (uint32_t)number < looked->looked;
    row->why[0] = '\0';
    if (row->is_known) {
        say_why(&looked->rows[number], row);
    }
    row->feet.verdict = looked->verdicts[number];
}

static int offered_of(const VaryLooked* const looked)
{
    int offered = 0;
    for (uint32_t i = 1; i < looked->looked; ++i) {
        offered += !looked->rows[i].reason;
    }
    return offered;
}

static void show(Model* const model, const VaryLooked* const looked)
{
    VaryPage* const page = &model->view.vary;
    page->count = VARIATION_COUNT;
    page->first_made = looked->source.first;
    for (int number = 0; number < VARIATION_COUNT; ++number) {
        varying_show_row(looked, number, page);
        model->vary->is_laid[number] = false;
    }
    page->offered = offered_of(looked);
    model->vary->shown = looked;
    model->is_dirty = true;
}

void varying_look_on(Model* const model, VaryLooked* const looked)
{
    struct Varying* const desk = model->vary;
    const VarySource* const source = &looked->source;
    const uint32_t number = looked->looked;
    variation_offer(base_of(model, source), source->hands, source->meter, number, looked->rows,
                    &desk->rooms[0]);
    looked->looked = number + 1;
    varying_show_row(looked, (int)number, &model->view.vary);
    model->view.vary.offered = offered_of(looked);
    model->is_dirty = true;
}

/* ---- What was looked at */

VaryLooked* varying_letter(Model* const model, const VarySource* const source)
{
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    VaryLooked* const looked = &model->vary->letters[bar->part % PARTS_MAX];
    if (!is_same(&looked->source, source)) {
        memset(looked, 0, sizeof *looked);
        looked->source = *source;
        model->vary->shown = NULL;
    }
    if (looked != model->vary->shown) {
        model->vary->judging = -1;
        show(model, looked);
    }
    return looked;
}

bool varying_begin(Model* const model)
{
    if (!model->vary) {
        model->vary = calloc(1, sizeof *model->vary);
        if (model->vary) {
            model->vary->judging = -1;
            varied_forget(&model->vary->varied);
        }
    }
    return model->vary;
}

void varying_free(Model* const model)
{
    free(model->vary);
    model->vary = NULL;
}

void varying_look(Model* const model, const int row)
{
    VarySource source;
    if (varying_begin(model) && varying_source(model, &source)) {
        VaryLooked* const looked = varying_letter(model, &source);
        while (looked->looked < VARIATION_COUNT && looked->looked <= (uint32_t)row) {
            varying_look_on(model, looked);
        }
    }
}

int varying_rows_seen(const Model* const model)
{
    const Geometry g = geometry_of(&model->view);
    const int rows = vary_place_of(&g).rows;
    return rows > 1 ? rows : 1;
}
