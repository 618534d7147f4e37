// SPDX-License-Identifier: ISC
/* The panel of the editor: lengths and grids, back and on, names and saving. */
#include "editing.h"

#include "../../plugin/bank/write_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void drop(Desk* const desk)
{
    HitTest hit;
    Editor* const editor = &desk->editor;
    const bool has_hit = hit_test_of(desk, &hit);
    if (editor->is_open || (has_hit && editor->drafts[hit.kind].single)) {
        drafts_put(desk, editor->is_open ? editor->buffer.now.kind : hit.kind, "");
        editor->is_open = false;
        desk_say(desk, "The figure plays as it was written");
        editing_show(desk);
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
static EntryInfo info_to_save(const Desk* const desk)
{
    const Editor* const editor = &desk->editor;
    const EntryKind kind = editing_entry(editor->buffer.now.kind);
    const char* const name = desk->view.edit.name;
    const EntryInfo* const saved = desk->bank && editor->saved_id && !strcmp(editor->saved, name)
                                       ? bank_info(desk->bank, kind, editor->saved_id)
                                       : NULL;
    EntryInfo info = saved ? *saved : *editor->info;
    if (!is_mine(&info) || strcmp(info.label, name) != 0) {
        info.id = 0;
        info.uri = "";
    }
    info.label = name;
    return info;
}

static void save(Desk* const desk)
{
    Editor* const editor = &desk->editor;
    const Edit* const edit = &desk->view.edit;
    if (!editor->is_open || !*edit->name) {
        desk_say(desk, editor->is_open ? "Give it a name first" : "Nothing is being edited");
        return;
    }
    const EntryInfo info = info_to_save(desk);
    const Figure figure = edit_buffer_figure(&editor->buffer);
    char* const text = write_figure(&figure, &info);
    if (text) {
        desk->output.say(desk->output.handle, desk->uris->fl_saveFigure, text);
        memcpy(editor->saving, edit->name, TYPED_ROOM);
        editor->asked_id = info.id >= ID_FIRST_OWN ? info.id : 0;
        editor->is_saving = true;
        desk_say(desk, "Saving ...");
    } else {
        desk_say(desk, "There is no memory to save this");
    }
    free(text);
}

void editor_name(Desk* const desk, const char* const name)
{
    snprintf(desk->view.edit.name, TYPED_ROOM, "%s", name);
    desk->is_dirty = true;
}

static void learn(Desk* const desk)
{
    Edit* const edit = &desk->view.edit;
    const Kit* const kit = desk->bank ? selection_kit(bank_library(desk->bank),
                                                      (uint32_t)desk->view.values[CONTROL_KIT])
                                      : NULL;
    edit->is_learning = !edit->is_learning && kit;
    if (edit->is_learning) {
        desk->editor.lesson.kit = *kit;
        edit->learns = VOICE_KICK;
        desk_say(desk,
                 "Play the pad for the kick; up and down choose another voice; click again to end");
    } else {
        desk_say(desk, "Learning ended");
    }
}

void editor_write(Desk* const desk, const bool straight)
{
    if (desk->output.write_file) {
        desk->output.write_file(desk->output.handle, straight);
    }
}

void editor_do(Desk* const desk, const EditItem item)
{
    Editor* const editor = &desk->editor;
    switch (item) {
    case EDIT_PAIR:
    case EDIT_GRID:
    case EDIT_LENGTH:
    case EDIT_ROLLS:
        editor_step(desk, item, 1);
        break;
    case EDIT_UNDO:
        if (editor->is_open && edit_buffer_undo(&editor->buffer)) {
            editing_send(desk);
        }
        break;
    case EDIT_REDO:
        if (editor->is_open && edit_buffer_redo(&editor->buffer)) {
            editing_send(desk);
        }
        break;
    case EDIT_SAVE:
        save(desk);
        break;
    case EDIT_DROP:
        drop(desk);
        break;
    case EDIT_FILE:
        editor_write(desk, false);
        break;
    case EDIT_LEARN:
        learn(desk);
        break;
    case EDIT_NAME:
    case EDIT_ITEMS:
        break;
    }
}

static void step_grid(Desk* const desk, const int by)
{
    EditBuffer* const buffer = &desk->editor.buffer;
    const int grid = (desk->editor.is_open ? buffer->grid : desk->view.edit.grid) + by;
    if (grid >= 1 && grid <= EDIT_BUFFER_GRID_MAX) {
        buffer->grid = grid;
        desk->view.edit.grid = grid;
        editing_show(desk);
    }
}

static void change_length(Desk* const desk, const int64_t cycle, const int64_t bars)
{
    EditBuffer* const buffer = &desk->editor.buffer;
    const int64_t most = EDIT_BUFFER_STEPS_MAX * (TICKS_PER_QUARTER / buffer->grid);
    if (cycle > buffer->now.cycle_ticks && (cycle > most || bars > EDIT_BUFFER_BARS_MAX)) {
        desk_say(desk, "It is as long as it can be on these steps: 64 of them, 16 bars");
    } else if (edit_buffer_length(buffer, cycle, (uint32_t)bars)) {
        editing_change(desk);
    } else if (cycle < buffer->now.cycle_ticks) {
        desk_say(desk, "Shorter it would have no stroke left");
    }
}

static void step_length(Desk* const desk, const int by)
{
    const EditBuffer* const buffer = &desk->editor.buffer;
    const int64_t bars = buffer->now.bars ? (int64_t)buffer->now.bars + by : 0;
    change_length(desk, edit_buffer_next_length(buffer, by), bars);
}

static void step_rolls(Desk* const desk, const HitTest* const hit)
{
    EditBuffer* const buffer = &desk->editor.buffer;
    if (buffer->now.bars) {
        change_length(desk, buffer->now.cycle_ticks, 0);
    } else if (edit_buffer_to_bars(buffer, meter_bar_ticks(hit->bar->meter))) {
        editing_change(desk);
    }
}

static void step_pair(Desk* const desk)
{
    Edit* const edit = &desk->view.edit;
    edit->pair = edit->pair == PAIR_HANDS ? PAIR_FEET : PAIR_HANDS;
    edit->hover_limb = -1;
    desk->editor.is_open = false; /* its draft plays on */
    edit->name[0] = '\0';
    editing_show(desk);
}

void editor_step(Desk* const desk, const EditItem item, const int by)
{
    Edit* const edit = &desk->view.edit;
    HitTest hit;
    if (item == EDIT_PAIR) {
        step_pair(desk);
    } else if (item == EDIT_GRID) {
        step_grid(desk, by);
    } else if (item == EDIT_LEARN && edit->is_learning) {
        edit->learns = (Voice)(((int)edit->learns + by + VOICE_COUNT) % VOICE_COUNT);
        desk->is_dirty = true;
    } else if ((item == EDIT_LENGTH || item == EDIT_ROLLS) && hit_test_of(desk, &hit) &&
               editing_begin(desk, &hit)) {
        if (item == EDIT_LENGTH) {
            step_length(desk, by);
        } else {
            step_rolls(desk, &hit);
        }
    }
}
