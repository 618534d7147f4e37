// SPDX-License-Identifier: ISC
#include "editing.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double drag_a_level = 9.0; /* pixels */

/* ---- What is edited */

EntryKind editing_entry(const FigureKind kind)
{
    static const EntryKind kinds[FIGURE_KINDS] = {
        [FIGURE_HANDS] = ENTRY_HANDS,
        [FIGURE_FEET] = ENTRY_FEET,
        [FIGURE_TURNAROUND] = ENTRY_TURNAROUND,
    };
    return kinds[kind];
}

LV2_URID editing_property(const Desk* const desk, const FigureKind kind)
{
    const LV2_URID properties[FIGURE_KINDS] = {
        [FIGURE_HANDS] = desk->uris->fl_handsDraft,
        [FIGURE_FEET] = desk->uris->fl_feetDraft,
        [FIGURE_TURNAROUND] = desk->uris->fl_turnaroundDraft,
    };
    return properties[kind];
}

/* ---- The view of it */

void editing_show(Desk* const desk)
{
    Edit* const edit = &desk->view.edit;
    const Editor* const editor = &desk->editor;
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
    desk->is_dirty = true;
}

static bool put(Desk* const desk)
{
    Editor* const editor = &desk->editor;
    EntryInfo info = *editor->info;
    info.id = editor->buffer.now.id;
    const Figure figure = edit_buffer_figure(&editor->buffer);
    char* const text = write_figure(&figure, &info);
    const bool good = text && drafts_put(desk, figure.kind, text);
    free(text);
    if (good) {
        editor->info = &editor->drafts[figure.kind].single->info;
        editor->is_saving = false;
    }
    return good;
}

void editing_change(Desk* const desk)
{
    if (!put(desk)) {
        edit_buffer_take_back(&desk->editor.buffer);
        desk_say(desk, "Taken back: a figure is 16 lines at most, each of whole steps on one grid");
    }
    editing_show(desk);
}

void editing_send(Desk* const desk)
{
    if (!put(desk)) {
        desk_say(desk, "There is no memory to play this");
    }
    editing_show(desk);
}

/* ---- Beginning */

/* One draft of a kind plays at a time: it isn't to be lost for another. */
static bool is_free(Desk* const desk, const HitTest* const hit)
{
    const Draft* const draft = &desk->editor.drafts[hit->kind];
    if (!draft->single || draft->is_kept || draft->single->info.id == hit->id) {
        return true;
    }
    char words[MESSAGE_ROOM];
    const char* const label = draft->single->info.label;
    snprintf(words, sizeof words, "Save or drop the edit of \"%.80s\" first",
             *label ? label : "another figure");
    desk_say(desk, words);
    return false;
}

static const EntryInfo* info_of(const Desk* const desk, const HitTest* const hit)
{
    const Single* const draft = desk->editor.drafts[hit->kind].single;
    return draft && draft->info.id == hit->id ? &draft->info
           : desk->bank ? bank_info(desk->bank, editing_entry(hit->kind), hit->id)
                        : NULL;
}

static bool take_up(Desk* const desk, const HitTest* const hit)
{
    Editor* const editor = &desk->editor;
    const Figure* const figure = hit_test_figure(desk, hit);
    const EntryInfo* const info = info_of(desk, hit);
    if (!is_free(desk, hit)) {
        return false;
    }
    if (!figure || !info) {
        desk_say(desk, "This figure is not in the bank, so it can't be edited here");
        return false;
    }
    editor->info = info;
    edit_buffer_begin(&editor->buffer, figure);
    editor->is_open = true;
    editor->is_saving = false;
    editor->saved_id = 0;
    snprintf(desk->view.edit.name, TYPED_ROOM, "%.60s", info->label);
    desk->view.edit.note[0] = '\0';
    editing_show(desk);
    return true;
}

bool editing_begin(Desk* const desk, const HitTest* const hit)
{
    const EditFigure* const now = &desk->editor.buffer.now;
    if (hit_test_is_relaid(desk, hit)) {
        desk_say(desk,
                 "Put grid, cycle and shift of the Rhythm panel back to as written, then edit");
        return false;
    }
    return (desk->editor.is_open && now->kind == hit->kind && now->id == hit->id) ||
           take_up(desk, hit);
}

void editor_close(Desk* const desk)
{
    drafts_free(desk);
    desk->editor.is_open = false;
}

void editor_bank(Desk* const desk)
{
    Editor* const editor = &desk->editor;
    const FigureKind kind = editor->buffer.now.kind;
    const Single* const draft = editor->drafts[kind].single;
    if (editor->is_open && !(draft && editor->info == &draft->info)) {
        editor->info =
            desk->bank ? bank_info(desk->bank, editing_entry(kind), editor->buffer.now.id) : NULL;
        editor->is_open = editor->info;
        editing_show(desk);
    }
}

void editor_tick(Desk* const desk)
{
    Edit* const edit = &desk->view.edit;
    const Swing swing = hit_test_swing(desk, edit->grid);
    drafts_tick(desk);
    if (!swing_equal(swing, edit->swing)) {
        edit->swing = swing;
        desk->is_dirty = true;
    }
}

/* Feet that the lead foot swaps are edited where they are seen. */
static uint8_t limb_of(const Desk* const desk, const int limb)
{
    const Figure figure = edit_buffer_figure(&desk->editor.buffer);
    const bool is_swapped = desk->view.values[CONTROL_LEAD_FOOT] > 0.5f && !figure.plays_pedal &&
                            limb_is_foot((uint8_t)limb);
    return (uint8_t)(is_swapped ? RIGHT_FOOT + LEFT_FOOT - limb : limb);
}

/* ---- The mouse */

static void next_voice(Desk* const desk, const uint8_t limb, const int64_t tick, const int by)
{
    EditBuffer* const buffer = &desk->editor.buffer;
    if (edit_buffer_voice(buffer, limb, tick, by)) {
        const int index = edit_buffer_find(buffer, limb, tick);
        desk_say(desk, voice_word((Voice)buffer->now.strokes[index].voice));
        editing_change(desk);
    }
}

void editor_press(Desk* const desk, const int limb, const double x, const double y,
                  const int button, const bool shift)
{
    HitTest hit;
    Editor* const editor = &desk->editor;
    editor->hold.is_held = false;
    if (!hit_test_of(desk, &hit) || !editing_begin(desk, &hit)) {
        return;
    }
    const uint8_t own = limb_of(desk, limb);
    const int64_t tick = hit_test_tick(desk, &hit, x);
    if (tick < 0) {
        return;
    }
    if (button == 3) {
        next_voice(desk, own, tick, shift ? -1 : 1);
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
void editor_drag(Desk* const desk, const double y)
{
    EditBuffer* const buffer = &desk->editor.buffer;
    Hold* const hold = &desk->editor.hold;
    if (!hold->is_held || !desk->editor.is_open || hold->is_moving || hold->level == LEVEL_REST) {
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
        editing_change(desk);
    } else {
        editing_send(desk);
    }
}

static void drop_at(Desk* const desk, const double x)
{
    HitTest hit;
    EditBuffer* const buffer = &desk->editor.buffer;
    const Hold* const hold = &desk->editor.hold;
    if (!hit_test_of(desk, &hit) || hit.kind != buffer->now.kind || hit.id != buffer->now.id) {
        return; /* the song has gone on to another figure */
    }
    const int64_t to = hit_test_tick(desk, &hit, x);
    if (to >= 0 && edit_buffer_move(buffer, hold->limb, hold->tick, to)) {
        editing_change(desk);
    }
}

static void click(Desk* const desk)
{
    const Hold* const hold = &desk->editor.hold;
    if (edit_buffer_cycle(&desk->editor.buffer, hold->limb, hold->tick)) {
        editing_change(desk);
    } else {
        desk_say(desk, "The last stroke stays: a figure has one at least");
    }
}

void editor_release(Desk* const desk, const double x)
{
    Hold* const hold = &desk->editor.hold;
    const bool is_held = hold->is_held && desk->editor.is_open;
    hold->is_held = false;
    if (is_held && hold->is_moving) {
        drop_at(desk, x);
    } else if (is_held && !hold->is_dragged) {
        click(desk);
    }
}

void editor_hover(Desk* const desk, const int limb, const double x)
{
    Edit* const edit = &desk->view.edit;
    const SeenBar* const bar = view_bar(&desk->view, view_shown(&desk->view));
    const int32_t tick = bar ? hit_test_hover(desk, bar, x) : 0;
    if (limb != edit->hover_limb || tick != edit->hover_tick) {
        edit->hover_limb = limb;
        edit->hover_tick = tick;
        desk->is_dirty = true;
    }
}
