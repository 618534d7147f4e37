// SPDX-License-Identifier: ISC
#include "edit_items.h"

#include "../../plugin/engine/groove/groove.h"
#include "asking.h"
#include "deleting.h"
#include "edit_parts.h"
#include "groove_saving.h"
#include "hit_test.h"
#include "saving.h"

static void drop(Model* const model)
{
    HitTest hit;
    Editor* const editor = &model->editor;
    const bool is_open = editor_piece(model)->is_open;
    const bool has_hit = hit_test_of(model, &hit);
    if (is_open || (has_hit && editor->drafts[hit.kind].single)) {
        drafts_put(model, is_open ? editor->kind : hit.kind, "");
        editor_piece(model)->is_open = false;
        editor_let_page_go(model);
        model_say(model, "The figure plays as it was written");
        editor_show(model);
    }
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
    EditPiece* const piece = editor_piece(model);
    switch (item) {
    case EDIT_PAIR:
    case EDIT_GRID:
    case EDIT_LENGTH:
    case EDIT_ROLLS:
        edit_items_step(model, item, 1);
        break;
    case EDIT_UNDO:
        if (piece->is_open && edit_buffer_undo(&piece->buffer)) {
            editor_send(model);
        }
        break;
    case EDIT_REDO:
        if (piece->is_open && edit_buffer_redo(&piece->buffer)) {
            editor_send(model);
        }
        break;
    case EDIT_SAVE:
        saving_begin(model, false);
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
    case EDIT_GROOVE:
        groove_saving_ask(model);
        break;
    case EDIT_DELETE:
        deleting_ask(model);
        break;
    case EDIT_NAME:
    case EDIT_ITEMS:
        break;
    }
}

static void step_grid(Model* const model, const int by)
{
    EditBuffer* const buffer = &editor_piece(model)->buffer;
    const int grid = (editor_piece(model)->is_open ? buffer->grid : model->view.edit.grid) + by;
    if (grid >= 1 && grid <= EDIT_BUFFER_GRID_MAX) {
        buffer->grid = grid;
        model->view.edit.grid = grid;
        editor_show(model);
    }
}

static void change_length(Model* const model, const int64_t cycle, const int64_t bars)
{
    EditBuffer* const buffer = &editor_piece(model)->buffer;
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
    const EditBuffer* const buffer = &editor_piece(model)->buffer;
    const int64_t bars = buffer->now.bars ? (int64_t)buffer->now.bars + by : 0;
    change_length(model, edit_buffer_next_length(buffer, by), bars);
}

static void step_rolls(Model* const model, const HitTest* const hit)
{
    EditBuffer* const buffer = &editor_piece(model)->buffer;
    if (buffer->now.bars) {
        change_length(model, buffer->now.cycle_ticks, 0);
    } else if (edit_buffer_to_bars(buffer, meter_bar_ticks(hit->bar->meter))) {
        editor_change(model);
    }
}

void edit_items_step(Model* const model, const EditItem item, const int by)
{
    Edit* const edit = &model->view.edit;
    HitTest hit;
    if (item == EDIT_PAIR) {
        edit_parts_next(model, by);
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
