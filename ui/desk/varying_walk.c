// SPDX-License-Identifier: ISC
/* Walking through the rows of the page of variations. */
#include "varying.h"

#include "../../plugin/bank/utf8.h"
#include "../../plugin/bank/write_figure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const Control asked[2] = {CONTROL_VARIATION, CONTROL_VARIATION_THEN};

/* The number that is asked for: of the page's rows. */
static int wanted(const Model* const model)
{
    const View* const view = &model->view;
    const int number = (int)view->values[asked[view->vary.is_deep]];
    return number < VARIATION_COUNT ? number : 0;
}

void varying_scroll(Model* const model, const int rows)
{
    VaryPage* const page = &model->view.vary;
    const int most = page->count - varying_rows_seen(model);
    const int first = page->first + rows > most ? most : page->first + rows;
    page->first = first < 0 ? 0 : first;
    model->is_dirty = true;
}

static void keep_in_sight(Model* const model)
{
    VaryPage* const page = &model->view.vary;
    const int seen = varying_rows_seen(model);
    if (page->cursor < page->first) {
        page->first = page->cursor;
    } else if (page->cursor >= page->first + seen) {
        page->first = page->cursor - seen + 1;
    }
    varying_scroll(model, 0);
}

static void stand_at(Model* const model, const int row)
{
    const bool has_keys = model->view.focus.kind == TARGET_VARY;
    model->view.vary.cursor = row;
    keep_in_sight(model);
    if (has_keys) {
        model_focus(model, (TargetId){TARGET_VARY, row});
    }
    model->is_dirty = true;
}

void varying_follow(Model* const model)
{
    struct Varying* const desk = model->vary;
    bool has_changed = false;
    for (int i = 0; i < 2; ++i) {
        const float value = model->view.values[asked[i]];
        has_changed = has_changed || fabsf(value - desk->seen[i]) > 0.5f;
        desk->seen[i] = value;
    }
    if (has_changed) {
        stand_at(model, wanted(model));
    }
}

/* ---- Walking */

void varying_go(Model* const model, const int row)
{
    const VaryPage* const page = &model->view.vary;
    if (row < 0 || row >= page->count) {
        return;
    }
    varying_look(model, row);
    model->view.edit.note[0] = '\0'; /* it says what the row is */
    stand_at(model, row);
    if (!*page->rows[row].why && model->vary) {
        const int level = page->is_deep;
        model->vary->seen[level] = (float)row;
        model_nudge(model, asked[level], (float)row);
    }
}

void varying_walk(Model* const model, const int by)
{
    const VaryPage* const page = &model->view.vary;
    const int last = page->count - 1;
    const int to = page->cursor + by;
    varying_go(model, to < 0 ? 0 : to > last ? last : to);
}

void varying_deepen(Model* const model, const bool deep)
{
    VaryPage* const page = &model->view.vary;
    if (page->is_deep != deep) {
        page->is_deep = deep;
        varying_look(model, VARIATION_COUNT - 1);
        stand_at(model, wanted(model));
    }
}

void varying_choose(Model* const model, const Control control)
{
    if (control == CONTROL_VARIATION || control == CONTROL_VARIATION_THEN) {
        varying_deepen(model, control == CONTROL_VARIATION_THEN);
    }
}

void varying_open(Model* const model)
{
    model_stop_typing(model);
    model->view.panel = PANEL_VARY;
    varying_look(model, 0);
    stand_at(model, wanted(model));
    model_focus(model, (TargetId){TARGET_VARY, model->view.vary.cursor});
}

void varying_leave(Model* const model)
{
    model->view.vary.is_deep = false;
    for (int i = 1; i >= 0; --i) {
        if (model->view.values[asked[i]] > 0.5f) {
            model_nudge(model, asked[i], 0.0f);
        }
    }
    stand_at(model, 0);
}

/* ---- Keeping */

/* "Gallop, in threes over the bar, then doubled" */
static void name_it(const Model* const model, const EntryInfo* const info, char name[TYPED_ROOM])
{
    char words[3 * TYPED_ROOM];
    const View* const view = &model->view;
    const int first = (int)view->values[CONTROL_VARIATION];
    const int second = (int)view->values[CONTROL_VARIATION_THEN];
    int length = snprintf(words, sizeof words, "%.60s", info->label);
    if (first) {
        length += snprintf(words + length, sizeof words - (size_t)length, ", %s",
                           variation_words((uint32_t)first));
    }
    if (second) {
        snprintf(words + length, sizeof words - (size_t)length, ", %s%s", first ? "then " : "",
                 variation_words((uint32_t)second));
    }
    snprintf(name, TYPED_ROOM, "%.60s", words);
    utf8_repair(name); /* also where it was cut */
}

static const EntryInfo* info_of(const Model* const model, const uint32_t id)
{
    const Single* const draft = model->editor.drafts[FIGURE_FEET].single;
    return draft && draft->info.id == id ? &draft->info
           : model->bank                 ? bank_info(model->bank, ENTRY_FEET, id)
                                         : NULL;
}

static void save(Model* const model, const Figure* const figure, const EntryInfo* const source)
{
    struct Varying* const desk = model->vary;
    name_it(model, source, desk->saving);
    const EntryInfo info = {.uri = "",
                            .label = desk->saving,
                            .comment = "",
                            .family_uri = source->family_uri,
                            .tempo_low = source->tempo_low,
                            .tempo_high = source->tempo_high};
    char* const text = write_figure(figure, &info);
    if (text && strlen(text) < DRAFT_BYTES_MAX) {
        model->output.say(model->output.handle, model->uris->fl_saveFigure, text);
        desk->is_saving = true;
        model_say(model, "Saving ...");
    } else {
        model_say(model, "It is too long to be written down as a figure");
    }
    free(text);
}

void varying_keep(Model* const model)
{
    VarySource source;
    const View* const view = &model->view;
    const int first = (int)view->values[CONTROL_VARIATION];
    const int second = (int)view->values[CONTROL_VARIATION_THEN];
    if (!model->vary || !varying_source(model, &source) || (!first && !second)) {
        model_say(model, "As chosen it is kept already: go to a row first");
        return;
    }
    const Variation made = variation_then(source.feet, source.hands, source.meter, (uint32_t)first,
                                          (uint32_t)second, (VariationRoom*)model->vary->rooms);
    const EntryInfo* const info = info_of(model, source.feet->id);
    if (made.figure && info) {
        save(model, made.figure, info);
    } else {
        model_say(model, made.figure ? "These feet have no name" : variation_reason(made.reason));
    }
}

bool varying_saved(Model* const model, const uint32_t id)
{
    char words[MESSAGE_ROOM];
    if (!model->vary || !model->vary->is_saving) {
        return false;
    }
    model->vary->is_saving = false;
    varying_leave(model);
    model_nudge(model, CONTROL_FEET, (float)id);
    snprintf(words, sizeof words, "Saved as \"%.60s\" in your own bank: it plays in every bar",
             model->vary->saving);
    model_say(model, words);
    return true;
}

void varying_refused(Model* const model)
{
    if (model->vary) {
        model->vary->is_saving = false;
    }
}
