// SPDX-License-Identifier: ISC
#include "editing.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/words.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double drag_a_level = 9.0; /* pixels */

/* ---- What is edited */

bool editing_spot(const Desk* const desk, Spot* const spot)
{
    const View* const view = &desk->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const bool is_feet = view->edit.pair == PAIR_FEET;
    if (!bar) {
        return false;
    }
    spot->bar = bar;
    spot->id = is_feet ? bar->feet : bar->hands;
    spot->turns = is_feet ? &bar->feet_turns : &bar->hands_turns;
    const bool is_turn = bar->turns && (!is_feet || bar->feet == bar->hands);
    spot->kind = is_turn ? FIGURE_TURNAROUND : is_feet ? FIGURE_FEET : FIGURE_HANDS;
    return spot->id > 0;
}

static EntryKind entry_kind(const FigureKind kind)
{
    static const EntryKind kinds[FIGURE_KINDS] = {
        [FIGURE_HANDS] = ENTRY_HANDS,
        [FIGURE_FEET] = ENTRY_FEET,
        [FIGURE_TURNAROUND] = ENTRY_TURNAROUND,
    };
    return kinds[kind];
}

static bool is_relaid(const View* const view)
{
    const bool is_feet = view->edit.pair == PAIR_FEET;
    const float* const values = view->values;
    const float sum = is_feet
                          ? fabsf(values[CONTROL_FEET_GRID]) + fabsf(values[CONTROL_FEET_CYCLE]) +
                                fabsf(values[CONTROL_FEET_SHIFT])
                          : fabsf(values[CONTROL_HANDS_GRID]) + fabsf(values[CONTROL_HANDS_CYCLE]) +
                                fabsf(values[CONTROL_HANDS_SHIFT]);
    return sum > 0.5f;
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
    const SketchFigure* const now = &editor->sketch.now;
    edit->is_open = editor->is_open;
    edit->undo = editor->is_open ? editor->sketch.undo : 0;
    edit->redo = editor->is_open ? editor->sketch.redo : 0;
    edit->grid = editor->is_open ? editor->sketch.grid : edit->grid > 0 ? edit->grid : 4;
    edit->steps = 0;
    if (editor->is_open) {
        edit->steps = (int)(now->cycle_ticks * editor->sketch.grid / TICKS_PER_QUARTER);
        edit->rolls = now->bars == 0;
    }
    desk->is_dirty = true;
}

void editing_send(Desk* const desk)
{
    Editor* const editor = &desk->editor;
    EntryInfo info = *editor->info;
    info.id = editor->sketch.now.id;
    const Figure figure = sketch_figure(&editor->sketch);
    char* const text = write_figure(&figure, &info);
    editor->is_saved = false;
    if (text) {
        desk->output.say(desk->output.handle, editing_property(desk, figure.kind), text);
    } else {
        desk_say(desk, "This can't be written as lines of steps: take it back with Undo");
    }
    free(text);
    editing_show(desk);
}

/* ---- Beginning */

static const Figure* figure_of(Desk* const desk, const Spot* const spot)
{
    Editor* const editor = &desk->editor;
    const Single* const draft = editor->drafts[spot->kind];
    if (draft && draft->info.id == spot->id) {
        editor->info = &draft->info;
        return &draft->figure;
    }
    if (draft && !editor->is_saved) {
        char words[MESSAGE_ROOM];
        snprintf(words, sizeof words, "Save or drop the edit of \"%.80s\" first",
                 draft->info.label);
        desk_say(desk, words);
        return NULL;
    }
    editor->info = desk->bank ? bank_info(desk->bank, entry_kind(spot->kind), spot->id) : NULL;
    if (!editor->info) {
        desk_say(desk, "This figure is not in the bank, so it can't be edited here");
        return NULL;
    }
    return library_figure(bank_library(desk->bank), spot->kind, spot->id);
}

/* Takes up the figure of the bar shown, if it isn't already. */
bool editing_begin(Desk* const desk, const Spot* const spot)
{
    Editor* const editor = &desk->editor;
    const SketchFigure* const now = &editor->sketch.now;
    if (editor->is_open && now->kind == spot->kind && now->id == spot->id) {
        return true;
    }
    if (is_relaid(&desk->view)) {
        desk_say(desk,
                 "Put grid, cycle and shift of the Rhythm panel back to as written, then edit");
        return false;
    }
    const Figure* const figure = figure_of(desk, spot);
    if (!figure) {
        return false;
    }
    sketch_begin(&editor->sketch, figure);
    editor->is_open = true;
    editor->is_saved = true; /* as it was found */
    snprintf(desk->view.edit.name, TYPED_ROOM, "%.60s", editor->info->label);
    desk->view.edit.note[0] = '\0';
    editing_show(desk);
    return true;
}

void editor_close(Desk* const desk)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        single_free(desk->editor.drafts[kind]);
        desk->editor.drafts[kind] = NULL;
    }
    desk->editor.is_open = false;
}

/* ---- From the bar to the figure */

static double tick_at(const Desk* const desk, const SeenBar* const bar, const double x)
{
    const Geometry g = geometry_of(&desk->view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    return (x - g.beat_1) / space.beat * space.ticks;
}

/* The tick of the cycle under x, on a step; -1: none. */
static int64_t figure_tick(Desk* const desk, const Spot* const spot, const double x)
{
    const SketchFigure* const now = &desk->editor.sketch.now;
    const double tick = tick_at(desk, spot->bar, x);
    const double ticks =
        spot->bar->meter.beats_per_bar * (double)meter_beat_ticks(spot->bar->meter);
    double from = 0.0;
    if (tick >= ticks) {
        return -1;
    }
    if (now->bars) {
        from = (double)(spot->bar->in_phrase % now->bars) * (double)now->cycle_ticks / now->bars;
    } else if (spot->turns->count) {
        from = -(double)spot->turns->ticks[0];
    } else {
        desk_say(desk,
                 "Edit this one in a bar where it starts: look for the bracket under the feet");
        return -1;
    }
    const double at = from + (tick > 0.0 ? tick : 0.0);
    return sketch_step(&desk->editor.sketch, at < 0.0 ? at + (double)now->cycle_ticks : at);
}

/* Feet that the lead foot swaps are edited where they are seen. */
static uint8_t limb_of(const Desk* const desk, const int limb)
{
    const Figure figure = sketch_figure(&desk->editor.sketch);
    const bool is_swapped = desk->view.values[CONTROL_LEAD_FOOT] > 0.5f && !figure.plays_pedal &&
                            limb_is_foot((uint8_t)limb);
    return (uint8_t)(is_swapped ? RIGHT_FOOT + LEFT_FOOT - limb : limb);
}

/* ---- The mouse */

void editor_press(Desk* const desk, const int limb, const double x, const double y,
                  const int button, const bool shift)
{
    Spot spot;
    Editor* const editor = &desk->editor;
    if (!editing_spot(desk, &spot) || !editing_begin(desk, &spot)) {
        return;
    }
    editor->limb = limb_of(desk, limb);
    editor->tick = figure_tick(desk, &spot, x);
    if (editor->tick < 0) {
        return;
    }
    if (button == 3) {
        if (sketch_voice(&editor->sketch, editor->limb, editor->tick, shift ? -1 : 1)) {
            const int index = sketch_find(&editor->sketch, editor->limb, editor->tick);
            desk_say(desk, voice_word((Voice)editor->sketch.now.strokes[index].voice));
            editing_send(desk);
        }
        return;
    }
    const int index = sketch_find(&editor->sketch, editor->limb, editor->tick);
    editor->level = index < 0 ? LEVEL_REST : (Level)editor->sketch.now.strokes[index].level;
    editor->is_held = true;
    editor->is_moving = shift;
    editor->has_changed = false;
    editor->y = y;
}

/* Up is louder; the whole drag is one change. */
void editor_drag(Desk* const desk, const double y)
{
    Editor* const editor = &desk->editor;
    if (!editor->is_held || editor->is_moving || editor->level == LEVEL_REST) {
        return;
    }
    const int up = (int)((editor->y - y) / drag_a_level);
    const int from = editor->level > LEVEL_ACCENT ? LEVEL_ACCENT : (int)editor->level;
    const int to = from + up < LEVEL_GHOST    ? LEVEL_GHOST
                   : from + up > LEVEL_ACCENT ? LEVEL_ACCENT
                                              : from + up;
    const int index = sketch_find(&editor->sketch, editor->limb, editor->tick);
    if (!up || index < 0 || editor->sketch.now.strokes[index].level == to) {
        return;
    }
    if (editor->has_changed) {
        sketch_undo(&editor->sketch);
    }
    editor->has_changed = true;
    sketch_level(&editor->sketch, editor->limb, editor->tick, (Level)to);
    editing_send(desk);
}

void editor_release(Desk* const desk, const double x)
{
    Spot spot;
    Editor* const editor = &desk->editor;
    if (!editor->is_held) {
        return;
    }
    editor->is_held = false;
    if (editor->has_changed || !editing_spot(desk, &spot)) {
        return;
    }
    const int64_t to = figure_tick(desk, &spot, x);
    const bool changed =
        editor->is_moving ? to >= 0 && sketch_move(&editor->sketch, editor->limb, editor->tick, to)
                          : sketch_cycle(&editor->sketch, editor->limb, editor->tick);
    if (changed) {
        editing_send(desk);
    } else if (!editor->is_moving) {
        desk_say(desk, "The last stroke stays: a figure has one at least");
    }
}

void editor_hover(Desk* const desk, const int limb, const double x)
{
    Edit* const edit = &desk->view.edit;
    const SeenBar* const bar = view_bar(&desk->view, view_shown(&desk->view));
    const int grid = edit->grid > 0 ? edit->grid : 4;
    const double step = (double)TICKS_PER_QUARTER / grid;
    const int32_t tick = bar ? (int32_t)(floor(tick_at(desk, bar, x) / step + 0.5) * step) : 0;
    if (limb != edit->hover_limb || tick != edit->hover_tick) {
        edit->hover_limb = limb;
        edit->hover_tick = tick;
        edit->grid = grid;
        desk->is_dirty = true;
    }
}
