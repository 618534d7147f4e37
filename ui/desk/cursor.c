// SPDX-License-Identifier: ISC
#include "cursor.h"

#include "edit_items.h"
#include "hit_test.h"

static const SeenBar* bar_of(const Model* const model)
{
    return view_bar(&model->view, view_shown(&model->view));
}

static int32_t step_ticks(const Model* const model)
{
    const int grid = model->view.edit.grid;
    return (int32_t)(TICKS_PER_QUARTER / (grid > 0 ? grid : 4));
}

static double x_of(const Model* const model)
{
    const SeenBar* const bar = bar_of(model);
    return bar ? hit_test_x(model, bar, model->view.edit.cursor) : 0.0;
}

static int row_of(const Model* const model)
{
    return model->view.focus.index;
}

/* ---- Where it is */

void cursor_enter(Model* const model)
{
    View* const view = &model->view;
    const bool is_there = view->panel == PANEL_EDIT && view->focus.kind == TARGET_ROW;
    if (is_there) {
        edit_items_do(model, EDIT_PAIR);
    }
    view->panel = PANEL_EDIT;
    view->reads = false; /* nobody edits what isn't seen */
    editor_hold_page(model);
    model_focus(model, (TargetId){TARGET_ROW, 2 * (int)view->edit.pair});
}

void cursor_leave(Model* const model)
{
    editor_let_page_go(model);
    model_focus(model, (TargetId){TARGET_TAB, PANEL_EDIT});
}

static void go_to(Model* const model, const int64_t tick)
{
    const SeenBar* const bar = bar_of(model);
    const int32_t step = step_ticks(model);
    const int64_t last = bar ? (meter_bar_ticks(bar->meter) - 1) / step : 0;
    const int64_t wanted = floor_div(tick + step / 2, step);
    const int64_t kept = wanted < 0 ? 0 : wanted > last ? last : wanted;
    model->view.edit.cursor = (int32_t)(kept * step);
    model->is_dirty = true;
}

void cursor_step(Model* const model, const int by)
{
    go_to(model, (int64_t)model->view.edit.cursor + (int64_t)by * step_ticks(model));
}

void cursor_to_end(Model* const model, const bool last)
{
    go_to(model, last ? INT32_MAX : 0);
}

void cursor_page(Model* const model, const int by)
{
    editor_turn_page(model, by);
    go_to(model, model->view.edit.cursor); /* which a shorter bar may not have */
}

/* ---- What is done there */

static Level level_of(const Model* const model, const EditorPlace place)
{
    const EditBuffer* const buffer = &editor_piece_seen(model)->buffer;
    const int index = edit_buffer_find(buffer, place.limb, place.tick);
    return index < 0 ? LEVEL_REST : (Level)buffer->now.strokes[index].level;
}

static void set(Model* const model, const EditorPlace place, const Level level)
{
    if (edit_buffer_level(&editor_piece(model)->buffer, place.limb, place.tick, level)) {
        editor_change(model);
    } else if (level == LEVEL_REST && level_of(model, place) != LEVEL_REST) {
        model_say(model, "The last stroke stays: a figure has one at least");
    }
}

void cursor_louder(Model* const model, const int by)
{
    EditorPlace place;
    if (editor_reach(model, row_of(model), x_of(model), &place)) {
        const Level now = level_of(model, place);
        const int from = now > LEVEL_ACCENT ? LEVEL_ACCENT : (int)now;
        const int to = from + by;
        set(model, place,
            to < LEVEL_REST     ? LEVEL_REST
            : to > LEVEL_ACCENT ? LEVEL_ACCENT
                                : (Level)to);
    }
}

void cursor_level(Model* const model, const Level level)
{
    EditorPlace place;
    if (level > LEVEL_ACCENT && row_of(model) >= 2) {
        model_say(model, "Feet play neither flams nor drags");
    } else if (editor_reach(model, row_of(model), x_of(model), &place)) {
        set(model, place, level_of(model, place) == level ? LEVEL_NORMAL : level);
    }
}

void cursor_clear(Model* const model)
{
    EditorPlace place;
    if (editor_reach(model, row_of(model), x_of(model), &place)) {
        set(model, place, LEVEL_REST);
    }
}

void cursor_cycle(Model* const model)
{
    const double x = x_of(model);
    editor_press(model, row_of(model), x, 0.0, 1, false);
    editor_release(model, x);
}

void cursor_voice(Model* const model, const int by)
{
    editor_press(model, row_of(model), x_of(model), 0.0, 3, by < 0);
}

void cursor_move(Model* const model, const int by)
{
    editor_press(model, row_of(model), x_of(model), 0.0, 1, true);
    cursor_step(model, by);
    editor_release(model, x_of(model));
}
