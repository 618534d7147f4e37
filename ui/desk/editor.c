// SPDX-License-Identifier: ISC
#include "hit_test.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/handed.h"
#include "../scene/words.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double drag_a_level = 9.0; /* pixels */

/* ---- The view of it */

void editor_show(Model* const model)
{
    Edit* const edit = &model->view.edit;
    const Editor* const editor = &model->editor;
    const EditFigure* const now = &editor->buffer.now;
    edit->is_open = editor->is_open;
    edit->undo = editor->is_open ? editor->buffer.undo : 0;
    edit->redo = editor->is_open ? editor->buffer.redo : 0;
    edit->grid = editor->is_open ? editor->buffer.grid : edit->grid > 0 ? edit->grid : 4;
    edit->steps = 0;
    if (editor->is_open) {
        edit->steps = (int)(now->cycle_ticks * editor->buffer.grid / TICKS_PER_QUARTER);
        edit->rolls = now->bars == 0;
    }
    model->is_dirty = true;
}

static bool put(Model* const model)
{
    Editor* const editor = &model->editor;
    EntryInfo info = *editor->info;
    info.id = editor->buffer.now.id;
    const Figure figure = edit_buffer_figure(&editor->buffer);
    char* const text = write_figure(&figure, &info);
    const bool good = text && drafts_put(model, figure.kind, text);
    free(text);
    if (good) {
        editor->info = &editor->drafts[figure.kind].single->info;
        editor->is_saving = false;
    }
    return good;
}

void editor_change(Model* const model)
{
    if (!put(model)) {
        edit_buffer_take_back(&model->editor.buffer);
        model_say(model,
                  "Taken back: a figure is 16 lines at most, each of whole steps on one grid");
    }
    editor_show(model);
}

void editor_send(Model* const model)
{
    if (!put(model)) {
        model_say(model, "There is no memory to play this");
    }
    editor_show(model);
}

/* ---- Beginning */

static void open_figure(Model* const model, const EntryInfo* const info, const Figure* const figure)
{
    Editor* const editor = &model->editor;
    editor->info = info;
    edit_buffer_begin(&editor->buffer, figure);
    editor->is_open = true;
    editor->is_saving = false;
    editor->saved_id = 0;
    snprintf(model->view.edit.name, TYPED_ROOM, "%.60s", info->label);
    model->view.edit.note[0] = '\0';
    editor_show(model);
}

/* One draft of a kind plays at a time: it isn't to be lost for another.  It is opened, as it
   may play nowhere any more, so that it can be saved or dropped. */
static bool is_free(Model* const model, const HitTest* const hit)
{
    const Draft* const draft = &model->editor.drafts[hit->kind];
    if (!draft->single || draft->is_kept || draft->single->info.id == hit->id) {
        return true;
    }
    char words[MESSAGE_ROOM];
    const char* const label = draft->single->info.label;
    open_figure(model, &draft->single->info, &draft->single->figure);
    snprintf(words, sizeof words, "Save or drop the edit of \"%.80s\" first: it is open now",
             *label ? label : "another figure");
    model_say(model, words);
    return false;
}

static const EntryInfo* info_of(const Model* const model, const HitTest* const hit)
{
    const Single* const draft = model->editor.drafts[hit->kind].single;
    return draft && draft->info.id == hit->id ? &draft->info
           : model->bank ? bank_info(model->bank, (EntryKind)hit->kind, hit->id)
                         : NULL;
}

static bool take_up(Model* const model, const HitTest* const hit)
{
    const Figure* const figure = hit_test_figure(model, hit);
    const EntryInfo* const info = info_of(model, hit);
    if (!is_free(model, hit)) {
        return false;
    }
    if (!figure || !info) {
        model_say(model, "This figure is not in the bank, so it can't be edited here");
        return false;
    }
    open_figure(model, info, figure);
    return true;
}

bool editor_begin(Model* const model, const HitTest* const hit)
{
    const EditFigure* const now = &model->editor.buffer.now;
    if (hit_test_is_relaid(model, hit)) {
        model_say(model,
                  "Put grid, cycle and shift of the Rhythm panel back to as written, then edit");
        return false;
    }
    return (model->editor.is_open && now->kind == hit->kind && now->id == hit->id) ||
           take_up(model, hit);
}

void editor_close(Model* const model)
{
    drafts_free(model);
    model->editor.is_open = false;
}

void editor_bank(Model* const model)
{
    Editor* const editor = &model->editor;
    const FigureKind kind = editor->buffer.now.kind;
    const Single* const draft = editor->drafts[kind].single;
    if (editor->is_open && !(draft && editor->info == &draft->info)) {
        editor->info =
            model->bank ? bank_info(model->bank, (EntryKind)kind, editor->buffer.now.id) : NULL;
        editor->is_open = editor->info;
        editor_show(model);
    }
}

void editor_tick(Model* const model)
{
    Edit* const edit = &model->view.edit;
    const Swing swing = hit_test_swing(model, edit->grid);
    drafts_tick(model);
    if (!swing_equal(swing, edit->swing)) {
        edit->swing = swing;
        model->is_dirty = true;
    }
}

/* Feet that the lead foot swaps are edited where they are seen. */
static uint8_t limb_of(const Model* const model, const int row)
{
    const int limb = handed_limb(&model->view, row);
    const Figure figure = edit_buffer_figure(&model->editor.buffer);
    const bool left_foot_leads = model->view.values[CONTROL_LEAD_FOOT] > 0.5f;
    return left_foot_leads ? figure_mirrored(&figure, (uint8_t)limb) : (uint8_t)limb;
}

/* ---- The page */

void editor_hold_page(Model* const model)
{
    View* const view = &model->view;
    const int64_t bar = view_shown(view) - view_phrase(view);
    if (!view->held && bar >= 0 && bar < view_phrase_bars(view)) {
        view->held = true;
        view->looked_at = (int)bar;
        model->is_dirty = true;
    }
}

/* A bar may have several pages: true if it has another that way.  From a bar's last page one
   comes to the next one's first. */
static bool turn_within(Model* const model, const int by)
{
    View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    if (!bar) {
        return false;
    }
    const Geometry g = geometry_of(view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double to = space.first + by * space.seen;
    const double last = (ceil(space.beats / space.seen) - 1.0) * space.seen;
    const bool is_there = to > -0.1 && to < last + 0.1;
    if (space.seen < space.beats) {
        view->edit.cursor = (int32_t)((is_there ? to : by < 0 ? last : 0.0) * space.ticks);
    }
    return is_there && space.seen < space.beats;
}

void editor_turn_page(Model* const model, const int by)
{
    View* const view = &model->view;
    const int last = view_phrase_bars(view) - 1;
    editor_hold_page(model);
    if (view->held && !turn_within(model, by)) {
        const int wanted = view->looked_at + by;
        view->looked_at = wanted < 0 ? 0 : wanted > last ? last : wanted;
    }
    model->is_dirty = true;
}

void editor_let_page_go(Model* const model)
{
    View* const view = &model->view;
    if (view->held) {
        view->held = false;
        view->looked_at = view->place.rolling ? -1 : view->looked_at;
        model->is_dirty = true;
    }
}

/* ---- The mouse */

static void next_voice(Model* const model, const uint8_t limb, const int64_t tick, const int by)
{
    EditBuffer* const buffer = &model->editor.buffer;
    if (edit_buffer_voice(buffer, limb, tick, by)) {
        const int index = edit_buffer_find(buffer, limb, tick);
        model_say(model, words_voice((Voice)buffer->now.strokes[index].voice));
        editor_change(model);
    }
}

bool editor_reach(Model* const model, const int row, const double x, EditorPlace* const place)
{
    HitTest hit;
    if (!hit_test_at(model, x, &hit) || !editor_begin(model, &hit)) {
        return false;
    }
    editor_hold_page(model);
    place->limb = limb_of(model, row);
    place->tick = hit_test_tick(model, &hit, x);
    return place->tick >= 0;
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
    const int index = edit_buffer_find(&editor->buffer, own, tick);
    editor->hold =
        (Hold){.is_held = true,
               .is_moving = shift,
               .limb = own,
               .tick = tick,
               .y = y,
               .level = index < 0 ? LEVEL_REST : (Level)editor->buffer.now.strokes[index].level};
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
    EditBuffer* const buffer = &model->editor.buffer;
    Hold* const hold = &model->editor.hold;
    if (!hold->is_held || !model->editor.is_open || hold->is_moving || hold->level == LEVEL_REST) {
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
    EditBuffer* const buffer = &model->editor.buffer;
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
    if (edit_buffer_cycle(&model->editor.buffer, hold->limb, hold->tick)) {
        editor_change(model);
    } else {
        model_say(model, "The last stroke stays: a figure has one at least");
    }
}

void editor_release(Model* const model, const double x)
{
    Hold* const hold = &model->editor.hold;
    const bool is_held = hold->is_held && model->editor.is_open;
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
