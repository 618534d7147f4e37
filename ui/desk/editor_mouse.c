// SPDX-License-Identifier: ISC
/* The editor by the mouse: the second half of editor.h. */
#include "hit_test.h"

#include "../scene/words.h"

static const double drag_a_level = 9.0; /* pixels */

static void next_voice(Model* const model, const uint8_t limb, const int64_t tick, const int by)
{
    EditBuffer* const buffer = &editor_piece(model)->buffer;
    if (edit_buffer_voice(buffer, limb, tick, by)) {
        const int index = edit_buffer_find(buffer, limb, tick);
        model_say(model, words_voice((Voice)buffer->now.strokes[index].voice));
        editor_change(model);
    }
}

void editor_press(Model* const model, const int limb, const double x, const double y,
                  const int button, const bool shift)
{
    EditorPlace place;
    Editor* const editor = &model->editor;
    editor->hold.is_held = false;
    if (!editor_reach(model, limb, x, &place)) {
        return;
    }
    const uint8_t own = place.limb;
    const int64_t tick = place.tick;
    if (button == 3) {
        next_voice(model, own, tick, shift ? -1 : 1);
        return;
    }
    const int index = edit_buffer_find(&editor_piece(model)->buffer, own, tick);
    editor->hold =
        (Hold){.is_held = true,
               .is_moving = shift,
               .limb = own,
               .tick = tick,
               .y = y,
               .level = index < 0 ? LEVEL_REST
                                  : (Level)editor_piece(model)->buffer.now.strokes[index].level};
}

/* Up is louder, down softer, from ghost to accent; as it was where the drag began. */
static Level dragged_to(const Hold* const hold, const int up)
{
    const int from = hold->level > LEVEL_ACCENT ? LEVEL_ACCENT : (int)hold->level;
    const int to = from + up;
    return !up                 ? hold->level
           : to < LEVEL_GHOST  ? LEVEL_GHOST
           : to > LEVEL_ACCENT ? LEVEL_ACCENT
                               : (Level)to;
}

/* The whole drag is one change. */
void editor_drag(Model* const model, const double y)
{
    EditBuffer* const buffer = &editor_piece(model)->buffer;
    Hold* const hold = &model->editor.hold;
    if (!hold->is_held || !editor_piece(model)->is_open || hold->is_moving ||
        hold->level == LEVEL_REST) {
        return;
    }
    const int up = (int)((hold->y - y) / drag_a_level);
    const Level to = dragged_to(hold, up);
    const int index = edit_buffer_find(buffer, hold->limb, hold->tick);
    hold->is_dragged |= up != 0;
    if (index < 0 || buffer->now.strokes[index].level == (uint8_t)to) {
        return;
    }
    if (hold->has_changed) {
        edit_buffer_take_back(buffer);
    }
    hold->has_changed = edit_buffer_level(buffer, hold->limb, hold->tick, to);
    if (hold->has_changed) {
        editor_change(model);
    } else {
        editor_send(model);
    }
}

static void drop_at(Model* const model, const double x)
{
    HitTest hit;
    EditBuffer* const buffer = &editor_piece(model)->buffer;
    const Hold* const hold = &model->editor.hold;
    if (!hit_test_at(model, x, &hit) || hit.kind != buffer->now.kind || hit.id != buffer->now.id) {
        return; /* the song has gone on to another figure */
    }
    const int64_t to = hit_test_tick(model, &hit, x);
    if (to >= 0 && edit_buffer_move(buffer, hold->limb, hold->tick, to)) {
        editor_change(model);
    }
}

static void click(Model* const model)
{
    const Hold* const hold = &model->editor.hold;
    if (edit_buffer_cycle(&editor_piece(model)->buffer, hold->limb, hold->tick)) {
        editor_change(model);
    } else {
        model_say(model, "The last stroke stays: a figure has one at least");
    }
}

void editor_release(Model* const model, const double x)
{
    Hold* const hold = &model->editor.hold;
    const bool is_held = hold->is_held && editor_piece(model)->is_open;
    hold->is_held = false;
    if (is_held && hold->is_moving) {
        drop_at(model, x);
    } else if (is_held && !hold->is_dragged) {
        click(model);
    }
}

void editor_hover(Model* const model, const int limb, const double x)
{
    Edit* const edit = &model->view.edit;
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    const int32_t tick = bar ? hit_test_hover(model, bar, x) : 0;
    if (limb != edit->hover_limb || tick != edit->hover_tick) {
        edit->hover_limb = limb;
        edit->hover_tick = tick;
        model->is_dirty = true;
    }
}
