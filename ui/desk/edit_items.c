// SPDX-License-Identifier: ISC
#include "edit_items.h"

#include "../../plugin/engine/groove/groove.h"
#include "../../plugin/bank/write_figure.h"
#include "asking.h"
#include "hit_test.h"
#include "typing.h"

#include <pango/pango.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void drop(Model* const model)
{
    HitTest hit;
    Editor* const editor = &model->editor;
    const bool has_hit = hit_test_of(model, &hit);
    if (editor->is_open || (has_hit && editor->drafts[hit.kind].single)) {
        drafts_put(model, editor->is_open ? editor->buffer.now.kind : hit.kind, "");
        editor->is_open = false;
        editor_let_page_go(model);
        model_say(model, "The figure plays as it was written");
        editor_show(model);
    }
}

/* What was saved from here, not written by hand into a file of the user's. */
static bool is_mine(const EntryInfo* const info)
{
    static const char mine[] = "urn:fourlimb:mine:";
    return info->is_users && !strncmp(info->uri, mine, sizeof mine - 1);
}

/* Under the name that it was saved under it goes over that entry; under another, and
   from a file that a person wrote, it becomes a new one. */
static EntryInfo info_to_save(const Model* const model)
{
    const Editor* const editor = &model->editor;
    const EntryKind kind = (EntryKind)editor->buffer.now.kind;
    const char* const name = model->view.edit.name;
    const EntryInfo* const saved = model->bank && editor->saved_id && !strcmp(editor->saved, name)
                                       ? bank_info(model->bank, kind, editor->saved_id)
                                       : NULL;
    EntryInfo info = saved ? *saved : *editor->info;
    if (!is_mine(&info) || strcmp(info.label, name) != 0) {
        info.id = 0;
        info.uri = "";
    }
    info.label = name;
    return info;
}

/* True if the factory has a figure of this kind and name, whatever its case. */
static bool is_factorys(const Model* const model, const EntryKind kind, const char* const name)
{
    char* const wanted = g_utf8_casefold(name, -1);
    bool is = false;
    for (uint32_t i = 0; !is && model->bank && i < bank_count(model->bank, kind); ++i) {
        const EntryInfo* const info = bank_entry(model->bank, kind, i);
        char* const label = g_utf8_casefold(info->label, -1);
        is = !info->is_users && !strcmp(label, wanted);
        g_free(label);
    }
    g_free(wanted);
    return is;
}

static void ask_for_a_name(Model* const model)
{
    View* const view = &model->view;
    typing_begin_name(model);
    snprintf(view->refused, sizeof view->refused,
             "\"%.60s\" is the factory's: give yours a name of its own, then save", view->typed);
}

static void save(Model* const model)
{
    Editor* const editor = &model->editor;
    const Edit* const edit = &model->view.edit;
    if (!editor->is_open || !*edit->name) {
        model_say(model, editor->is_open ? "Give it a name first" : "Nothing is being edited");
        return;
    }
    if (is_factorys(model, (EntryKind)editor->buffer.now.kind, edit->name)) {
        ask_for_a_name(model);
        return;
    }
    const EntryInfo info = info_to_save(model);
    const Figure figure = edit_buffer_figure(&editor->buffer);
    char* const text = write_figure(&figure, &info);
    if (text) {
        model->output.say(model->output.handle, model->uris->fl_saveFigure, text);
        memcpy(editor->saving, edit->name, TYPED_ROOM);
        editor->asked_id = info.id >= ID_FIRST_OWN ? info.id : 0;
        editor->is_saving = true;
        model_say(model, "Saving ...");
    } else {
        model_say(model, "There is no memory to save this");
    }
    free(text);
}

static void learn(Model* const model)
{
    Edit* const edit = &model->view.edit;
    const Library* const library = model_library(model);
    const Kit* const kit =
        library ? selection_kit(library, (uint32_t)model->view.values[CONTROL_KIT]) : NULL;
    edit->is_learning = !edit->is_learning && kit;
    if (edit->is_learning) {
        model->editor.lesson.kit = *kit;
        edit->learns = VOICE_KICK;
        model_say(
            model,
            "Play the pad for the kick; up and down choose another voice; click again to end");
    } else {
        model_say(model, "Learning ended");
    }
}

void edit_items_do(Model* const model, const EditItem item)
{
    Editor* const editor = &model->editor;
    switch (item) {
    case EDIT_PAIR:
    case EDIT_GRID:
    case EDIT_LENGTH:
    case EDIT_ROLLS:
        edit_items_step(model, item, 1);
        break;
    case EDIT_UNDO:
        if (editor->is_open && edit_buffer_undo(&editor->buffer)) {
            editor_send(model);
        }
        break;
    case EDIT_REDO:
        if (editor->is_open && edit_buffer_redo(&editor->buffer)) {
            editor_send(model);
        }
        break;
    case EDIT_SAVE:
        save(model);
        break;
    case EDIT_DROP:
        drop(model);
        break;
    case EDIT_FILE:
        asking_write(model, false);
        break;
    case EDIT_LEARN:
        learn(model);
        break;
    case EDIT_PAGE:
        if (model->view.held) {
            editor_let_page_go(model);
        } else {
            editor_hold_page(model);
        }
        break;
    case EDIT_NAME:
    case EDIT_ITEMS:
        break;
    }
}

static void step_grid(Model* const model, const int by)
{
    EditBuffer* const buffer = &model->editor.buffer;
    const int grid = (model->editor.is_open ? buffer->grid : model->view.edit.grid) + by;
    if (grid >= 1 && grid <= EDIT_BUFFER_GRID_MAX) {
        buffer->grid = grid;
        model->view.edit.grid = grid;
        editor_show(model);
    }
}

static void change_length(Model* const model, const int64_t cycle, const int64_t bars)
{
    EditBuffer* const buffer = &model->editor.buffer;
    const int64_t most = EDIT_BUFFER_STEPS_MAX * (TICKS_PER_QUARTER / buffer->grid);
    const int64_t bars_most = edit_buffer_bars_most(buffer);
    if (cycle > buffer->now.cycle_ticks && (cycle > most || bars > bars_most)) {
        model_say(model, bars_most == FILL_BARS_MAX
                             ? "It is as long as it can be on these steps: 64 of them, 4 bars"
                             : "It is as long as it can be on these steps: 64 of them, 16 bars");
    } else if (edit_buffer_length(buffer, cycle, (uint32_t)bars)) {
        editor_change(model);
    } else if (cycle < buffer->now.cycle_ticks) {
        model_say(model, "Shorter it would have no stroke left");
    }
}

static void step_length(Model* const model, const int by)
{
    const EditBuffer* const buffer = &model->editor.buffer;
    const int64_t bars = buffer->now.bars ? (int64_t)buffer->now.bars + by : 0;
    change_length(model, edit_buffer_next_length(buffer, by), bars);
}

static void step_rolls(Model* const model, const HitTest* const hit)
{
    EditBuffer* const buffer = &model->editor.buffer;
    if (buffer->now.bars) {
        change_length(model, buffer->now.cycle_ticks, 0);
    } else if (edit_buffer_to_bars(buffer, meter_bar_ticks(hit->bar->meter))) {
        editor_change(model);
    }
}

static void step_pair(Model* const model)
{
    Edit* const edit = &model->view.edit;
    edit->pair = edit->pair == PAIR_HANDS ? PAIR_FEET : PAIR_HANDS;
    edit->hover_limb = -1;
    model->editor.is_open = false; /* its draft plays on */
    edit->name[0] = '\0';
    editor_show(model);
}

void edit_items_step(Model* const model, const EditItem item, const int by)
{
    Edit* const edit = &model->view.edit;
    HitTest hit;
    if (item == EDIT_PAIR) {
        step_pair(model);
    } else if (item == EDIT_PAGE) {
        editor_turn_page(model, by);
    } else if (item == EDIT_GRID) {
        step_grid(model, by);
    } else if (item == EDIT_LEARN && edit->is_learning) {
        edit->learns = (Voice)(((int)edit->learns + by + VOICE_COUNT) % VOICE_COUNT);
        model->is_dirty = true;
    } else if ((item == EDIT_LENGTH || item == EDIT_ROLLS) && hit_test_of(model, &hit) &&
               editor_begin(model, &hit)) {
        if (item == EDIT_LENGTH) {
            step_length(model, by);
        } else {
            step_rolls(model, &hit);
        }
    }
}
