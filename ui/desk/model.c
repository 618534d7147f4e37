// SPDX-License-Identifier: ISC
#include "model.h"

#include "../../plugin/bank/utf8.h"
#include "../scene/dial.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void choose_palette(Model* const model)
{
    View* const view = &model->view;
    switch (view->theme) {
    case THEME_DARK:
        view->palette = palette_dark;
        break;
    case THEME_LIGHT:
        view->palette = palette_light;
        break;
    case THEME_HOST:
    case THEME_COUNT:
        view->palette = model->host;
        break;
    }
    model->is_dirty = true;
}

void model_begin(Model* const model, const Uris* const uris, const ModelOutput output)
{
    memset(model, 0, sizeof *model);
    model->uris = uris;
    model->limits = play_limits_default();
    model->output = output;
    model->host = palette_dark;
    model->is_triggered = false;
    model->told_at = -1.0;
    model->clicked_at = -1.0;
    model->width = FIRST_WIDTH;
    model->height = FIRST_HEIGHT;
    model->scale = model->view.text = 1.0;
    model->view.looked_at = -1;
    model->view.vary.grown[0] = model->view.vary.grown[1] = -1;
    model->view.list.selected = -1;
    model->view.edit.hover_limb = -1;
    model->view.edit.pair = PAIR_FEET;
    model->editor.kind = model->view.edit.kind = FIGURE_FEET;
    model->view.edit.grid = 4;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        model->view.values[i] = model->ports[i] = control_rows[i].normal;
    }
    choose_palette(model);
    model->view.focus = (TargetId){TARGET_CARD, ENTRY_FEET};
}

bool model_values_alike(const float a[CONTROL_COUNT], const float b[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (a[i] < b[i] || a[i] > b[i]) {
            return false;
        }
    }
    return true;
}

bool model_compose(Model* const model)
{
    Drafts drafts = {{NULL}};
    for (int kind = 0; model->bank && kind < FIGURE_KINDS; ++kind) {
        drafts.drafts[kind] = single_hold(model->editor.drafts[kind].single);
    }
    Snapshot* const made =
        model->bank ? snapshot_make(model->bank, drafts, model->kept, strdup("")) : NULL;
    if (model->bank && !made) {
        return false;
    }
    snapshot_free(model->snapshot);
    model->snapshot = made;
    ++model->composed;
    return true;
}

const Library* model_library(const Model* const model)
{
    return model->snapshot ? snapshot_library(model->snapshot) : NULL;
}

void model_say(Model* const model, const char* const words)
{
    snprintf(model->view.edit.note, sizeof model->view.edit.note, "%s", words);
    utf8_repair(model->view.edit.note); /* also where it was cut */
    model->is_dirty = true;
}

void model_host_colours(Model* const model, const Colour background, const Colour text)
{
    model->host = palette_around(background, text);
    choose_palette(model);
}

void model_theme(Model* const model, const Theme theme)
{
    model->view.theme = theme;
    choose_palette(model);
}

void model_fit(Model* const model)
{
    const double scale = model->scale * model->view.text;
    model->fit = geometry_fit(model->width > 0 ? model->width : 1,
                              model->height > 0 ? model->height : 1, scale);
    model->view.width = model->fit.width;
    model->view.height = model->fit.height;
    model->is_dirty = true;
}

/* ---- Values */

static void touch(const Model* const model, const Control control, const bool held)
{
    if (model->output.touch) {
        model->output.touch(model->output.handle, (uint32_t)(PORT_FIRST_CONTROL + control), held);
    }
}

static void write_port(Model* const model, const Control control, const float value)
{
    model->ports[control] = value;
    model->output.write(model->output.handle, (uint32_t)(PORT_FIRST_CONTROL + control), value);
    model->is_dirty = true;
}

uint32_t model_kept(const Model* const model)
{
    const uint32_t slot = (uint32_t)lrintf(model->ports[CONTROL_KEPT]);
    return kept_list_at(model->kept, slot) ? slot : 0;
}

void model_show_values(Model* const model)
{
    const KeptSelection* const kept = kept_list_at(model->kept, model_kept(model));
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        model->view.values[i] =
            kept && control_rows[i].is_selection ? kept->values[i] : model->ports[i];
    }
    model->is_dirty = true;
}

void model_say_kept(Model* const model, const LV2_URID property, const int slot,
                    const char* const name)
{
    const size_t length = utf8_cut(name, strlen(name), KEPT_NAME_ROOM - 1);
    const KeptWord word = {slot, (int32_t)length, name};
    if (model->output.say_kept) {
        model->output.say_kept(model->output.handle, property, &word);
    }
}

/* True if its ids alone don't play it: it has entries or drafts, or drafts are in its way. */
static bool needs_more_than_ids(const Model* const model, const KeptSelection* const kept)
{
    bool needs = *kept->own;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const int32_t drafted = model->view.drafted[kind];
        needs = needs || kept->plays.drafts.drafts[kind] ||
                (drafted > 0 && kept_selection_plays(kept, (FigureKind)kind, (uint32_t)drafted));
    }
    return needs;
}

void model_leave_kept(Model* const model)
{
    const uint32_t slot = model_kept(model);
    const KeptSelection* const kept = kept_list_at(model->kept, slot);
    if (!kept) {
        return;
    }
    if (needs_more_than_ids(model, kept)) {
        model_say_kept(model, model->uris->fl_useKept, (int)slot, "");
    }
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (control_rows[i].is_selection &&
            differs((double)model->ports[i], (double)kept->values[i])) {
            touch(model, (Control)i, true);
            write_port(model, (Control)i, kept->values[i]);
            touch(model, (Control)i, false);
        }
    }
    touch(model, CONTROL_KEPT, true);
    write_port(model, CONTROL_KEPT, 0.0f);
    touch(model, CONTROL_KEPT, false);
    model_show_values(model);
}

void model_set(Model* const model, const Control control, const float wanted)
{
    const float value = dial_fit(control, (double)wanted);
    if (!differs((double)model->view.values[control], (double)value)) {
        return;
    }
    if (control_rows[control].is_selection) {
        model_leave_kept(model);
    }
    model->view.values[control] = value;
    write_port(model, control, value);
    if (control == CONTROL_KEPT) {
        model_show_values(model);
    }
}

void model_nudge(Model* const model, const Control control, const float value)
{
    /* by a drag: told already */
    const bool is_held =
        view_target_same(model->view.pressed, (TargetId){TARGET_DIAL, (int)control});
    if (!is_held) {
        touch(model, control, true);
    }
    model_set(model, control, value);
    if (!is_held) {
        touch(model, control, false);
    }
}

void model_toggle(Model* const model, const Control control)
{
    const float on = control_rows[control].most;
    model_nudge(model, control,
                model->view.values[control] > on - 0.5f ? control_rows[control].least : on);
}

/* Longer than a block of 8192 frames at 44.1 kHz, in which a host would never see it. */
static const double trigger_seconds = 0.25;

void model_trigger(Model* const model, const Control control)
{
    model->is_triggered = true;
    model->triggered = control;
    model->triggered_at = model->now;
    model_nudge(model, control, control_rows[control].most);
}

void model_tick_trigger(Model* const model, const bool closes)
{
    if (model->is_triggered && (closes || model->now - model->triggered_at > trigger_seconds)) {
        model->is_triggered = false;
        model_nudge(model, model->triggered, control_rows[model->triggered].normal);
    }
}

void model_hold(Model* const model, const TargetId id)
{
    model->view.pressed = id;
    model->drag_from = model->drag_base = model->view.values[id.index];
    touch(model, (Control)id.index, true);
}

void model_let_go(Model* const model)
{
    if (model->view.pressed.kind == TARGET_DIAL) {
        touch(model, (Control)model->view.pressed.index, false);
        model->is_dirty = true;
    }
    model->view.pressed = (TargetId){TARGET_NONE, 0};
    model->view.is_dragged = false;
}

double model_tempo(const Model* const model)
{
    const double told = (double)model->view.readouts[READOUT_TEMPO_NOW];
    return told > 0.0 ? told : 120.0;
}

/* ---- The focus */

void model_stop_typing(Model* const model)
{
    model->is_dirty = model->is_dirty || model->view.is_typing;
    model->view.is_typing = false;
}

void model_focus(Model* const model, const TargetId id)
{
    if (!view_target_same(model->view.focus, id)) {
        model_stop_typing(model);
        model->view.focus = id;
        model->is_dirty = true;
    }
}

void model_targets(const Model* const model, TargetList* const targets)
{
    const Geometry g = geometry_of(&model->view);
    targets_of(&model->view, &g, targets);
}
