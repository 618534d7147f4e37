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
    const bool has_spot = editing_spot(desk, &spot);
    if (editor->is_open || (has_spot && editor->drafts[spot.kind])) {
        const FigureKind kind = editor->is_open ? editor->sketch.now.kind : spot.kind;
        desk->output.say(desk->output.handle, editing_property(desk, kind), "");
        editor->is_open = false;
        desk_say(desk, "The figure plays as it was written");
        editing_show(desk);
    }
}

static void save(Desk* const desk)
{
    Editor* const editor = &desk->editor;
    const Edit* const edit = &desk->view.edit;
    if (!editor->is_open || !*edit->name) {
        desk_say(desk, editor->is_open ? "Give it a name first" : "Nothing is being edited");
        return;
    }
    EntryInfo info = *editor->info;
    const bool is_same = info.is_users && !strcmp(info.label, edit->name);
    info.label = edit->name;
    if (!is_same) {
        info.id = 0;
        info.uri = "";
    }
    const Figure figure = sketch_figure(&editor->sketch);
    char* const text = write_figure(&figure, &info);
    if (text) {
        desk->output.say(desk->output.handle, desk->uris->fl_saveFigure, text);
        desk_say(desk, "Saving ...");
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
        desk->editor.kit = *kit;
        edit->learns = VOICE_KICK;
        desk_say(desk,
                 "Play the pad for the kick; up and down choose another voice; click again to end");
    } else {
        desk_say(desk, "Learning ended");
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
        if (desk->output.write_file) {
            desk->output.write_file(desk->output.handle);
        }
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

static void step_length(Desk* const desk, const int by)
{
    Sketch* const sketch = &desk->editor.sketch;
    const SketchFigure* const now = &sketch->now;
    const int64_t step = TICKS_PER_QUARTER / sketch->grid;
    const int64_t unit = now->bars ? now->cycle_ticks / now->bars : step; /* bars stay whole */
    const int64_t cycle = now->cycle_ticks + by * unit;
    const uint32_t bars = now->bars ? (uint32_t)((int)now->bars + by) : 0;
    if (cycle > 0 && cycle <= SKETCH_STEPS_MAX * step && sketch_length(sketch, cycle, bars)) {
        editing_send(desk);
    }
}

static void step_rolls(Desk* const desk)
{
    Spot spot;
    Sketch* const sketch = &desk->editor.sketch;
    if (!editing_spot(desk, &spot)) {
        return;
    }
    const int64_t bar = meter_bar_ticks(spot.bar->meter);
    const int64_t bars = (sketch->now.cycle_ticks + bar - 1) / bar;
    const bool changed = sketch->now.bars ? sketch_length(sketch, sketch->now.cycle_ticks, 0)
                                          : sketch_length(sketch, bars * bar, (uint32_t)bars);
    if (changed) {
        editing_send(desk);
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
    } else if ((item == EDIT_LENGTH || item == EDIT_ROLLS) && editing_spot(desk, &spot) &&
               editing_begin(desk, &spot)) {
        if (item == EDIT_LENGTH) {
            step_length(desk, by);
        } else {
            step_rolls(desk);
        }
    }
}
