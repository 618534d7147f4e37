// SPDX-License-Identifier: ISC
/* The panel of the editor: lengths and grids, back and on, names and saving. */
#include "editing.h"

#include "../../plugin/bank/write_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void drop(Desk* const desk)
{
    Spot spot;
    Editor* const editor = &desk->editor;
    const bool has_spot = spot_of(desk, &spot);
    if (editor->is_open || (has_spot && editor->drafts[spot.kind].single)) {
        drafts_put(desk, editor->is_open ? editor->sketch.now.kind : spot.kind, "");
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
    const EntryKind kind = editing_entry(editor->sketch.now.kind);
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
    const Figure figure = sketch_figure(&editor->sketch);
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
    const Kit* const kit =
        desk->bank ? choice_kit(bank_library(desk->bank), (uint32_t)desk->view.values[CONTROL_KIT])
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
        if (editor->is_open && sketch_undo(&editor->sketch)) {
            editing_send(desk);
        }
        break;
    case EDIT_REDO:
        if (editor->is_open && sketch_redo(&editor->sketch)) {
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
    Sketch* const sketch = &desk->editor.sketch;
    const int grid = (desk->editor.is_open ? sketch->grid : desk->view.edit.grid) + by;
    if (grid >= 1 && grid <= SKETCH_GRID_MAX) {
        sketch->grid = grid;
        desk->view.edit.grid = grid;
        editing_show(desk);
    }
}

static void change_length(Desk* const desk, const int64_t cycle, const int64_t bars)
{
    Sketch* const sketch = &desk->editor.sketch;
    const int64_t most = SKETCH_STEPS_MAX * (TICKS_PER_QUARTER / sketch->grid);
    if (cycle > sketch->now.cycle_ticks && (cycle > most || bars > SKETCH_BARS_MAX)) {
        desk_say(desk, "It is as long as it can be on these steps: 64 of them, 16 bars");
    } else if (sketch_length(sketch, cycle, (uint32_t)bars)) {
        editing_change(desk);
    } else if (cycle < sketch->now.cycle_ticks) {
        desk_say(desk, "Shorter it would have no stroke left");
    }
}

static void step_length(Desk* const desk, const int by)
{
    const Sketch* const sketch = &desk->editor.sketch;
    const int64_t bars = sketch->now.bars ? (int64_t)sketch->now.bars + by : 0;
    change_length(desk, sketch_next_length(sketch, by), bars);
}

static void step_rolls(Desk* const desk, const Spot* const spot)
{
    Sketch* const sketch = &desk->editor.sketch;
    if (sketch->now.bars) {
        change_length(desk, sketch->now.cycle_ticks, 0);
    } else if (sketch_to_bars(sketch, meter_bar_ticks(spot->bar->meter))) {
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
    Spot spot;
    if (item == EDIT_PAIR) {
        step_pair(desk);
    } else if (item == EDIT_GRID) {
        step_grid(desk, by);
    } else if (item == EDIT_LEARN && edit->is_learning) {
        edit->learns = (Voice)(((int)edit->learns + by + VOICE_COUNT) % VOICE_COUNT);
        desk->is_dirty = true;
    } else if ((item == EDIT_LENGTH || item == EDIT_ROLLS) && spot_of(desk, &spot) &&
               editing_begin(desk, &spot)) {
        if (item == EDIT_LENGTH) {
            step_length(desk, by);
        } else {
            step_rolls(desk, &spot);
        }
    }
}
