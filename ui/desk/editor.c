// SPDX-License-Identifier: ISC
#include "hit_test.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/handed.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- The view of it */

EditPiece* editor_piece(Model* const model)
{
    return &model->editor.pieces[model->editor.kind];
}

const EditPiece* editor_piece_seen(const Model* const model)
{
    return &model->editor.pieces[model->editor.kind];
}

void editor_show(Model* const model)
{
    Edit* const edit = &model->view.edit;
    const EditPiece* const piece = editor_piece(model);
    const EditFigure* const now = &piece->buffer.now;
    edit->kind = model->editor.kind;
    edit->is_open = piece->is_open;
    edit->undo = piece->is_open ? piece->buffer.undo : 0;
    edit->redo = piece->is_open ? piece->buffer.redo : 0;
    edit->grid = piece->is_open ? piece->buffer.grid : edit->grid > 0 ? edit->grid : 4;
    edit->steps = 0;
    if (piece->is_open) {
        edit->steps = (int)(now->cycle_ticks * piece->buffer.grid / TICKS_PER_QUARTER);
        edit->rolls = now->bars == 0;
    }
    memcpy(edit->name, piece->is_open ? piece->name : "", piece->is_open ? TYPED_ROOM : 1);
    model->is_dirty = true;
}

void editor_go_to(Model* const model, const FigureKind kind)
{
    model->editor.kind = kind;
    editor_show(model);
}

void editor_name(Model* const model, const char* const name)
{
    EditPiece* const piece = editor_piece(model);
    if (piece->is_open) {
        snprintf(piece->name, sizeof piece->name, "%s", name);
    }
    editor_show(model);
}

static bool put(Model* const model)
{
    Editor* const editor = &model->editor;
    EditPiece* const piece = editor_piece(model);
    EntryInfo info = *piece->info;
    info.id = piece->buffer.now.id;
    const Figure figure = edit_buffer_figure(&piece->buffer);
    char* const text = write_figure(&figure, &info);
    const bool good = text && drafts_put(model, figure.kind, text);
    free(text);
    if (good) {
        piece->info = &editor->drafts[figure.kind].single->info;
        editor->saving.is_stale |= editor->saving.kind == figure.kind;
    }
    return good;
}

void editor_change(Model* const model)
{
    if (!put(model)) {
        edit_buffer_take_back(&editor_piece(model)->buffer);
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

static void open_figure(Model* const model, const FigureKind kind, const EntryInfo* const info,
                        const Figure* const figure)
{
    EditPiece* const piece = &model->editor.pieces[kind];
    const Figure* const kept =
        model->bank ? library_figure(bank_library(model->bank), kind, figure->id) : NULL;
    piece->info = info;
    edit_buffer_begin(&piece->buffer, kept && kept->id == figure->id ? kept : figure);
    piece->base = piece->buffer.now;
    edit_buffer_begin(&piece->buffer, figure);
    piece->is_open = true;
    piece->saved_id = 0;
    model->editor.saving.is_stale |= model->editor.saving.kind == kind;
    snprintf(piece->name, sizeof piece->name, "%.60s", info->label);
    model->view.edit.note[0] = '\0';
    editor_go_to(model, kind);
}

void editor_open_draft(Model* const model, const FigureKind kind)
{
    const Single* const draft = model->editor.drafts[kind].single;
    open_figure(model, kind, &draft->info, &draft->figure);
}

bool editor_is_changed(const Model* const model, const FigureKind kind)
{
    const EditPiece* const piece = &model->editor.pieces[kind];
    const Draft* const draft = &model->editor.drafts[kind];
    return draft->single && !draft->is_kept &&
           !(piece->is_open && edit_buffer_alike(&piece->buffer.now, &piece->base));
}

/* One draft of a kind plays at a time: it isn't to be lost for another.  It is opened, as it
   may play nowhere any more, so that it can be saved or dropped. */
static bool is_free(Model* const model, const HitTest* const hit)
{
    const Draft* const draft = &model->editor.drafts[hit->kind];
    const EditPiece* const piece = &model->editor.pieces[hit->kind];
    if (!editor_is_changed(model, hit->kind) || draft->single->info.id == hit->id) {
        return true;
    }
    char words[MESSAGE_ROOM];
    const char* const label = draft->single->info.label;
    if (piece->is_open && piece->buffer.now.id == draft->single->info.id) {
        editor_go_to(model, hit->kind); /* with all that takes changes back */
    } else {
        editor_open_draft(model, hit->kind);
    }
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
    open_figure(model, hit->kind, info, figure);
    return true;
}

bool editor_begin(Model* const model, const HitTest* const hit)
{
    model_leave_kept(model); /* no draft gets into what is kept */
    const EditPiece* const piece = &model->editor.pieces[hit->kind];
    if (hit_test_is_relaid(model, hit)) {
        model_say(model,
                  "Put grid, cycle and shift of the Rhythm panel back to as written, then edit");
        return false;
    }
    if (piece->is_open && piece->buffer.now.id == hit->id) {
        if (model->editor.kind != hit->kind) {
            editor_go_to(model, hit->kind);
        }
        return true;
    }
    return take_up(model, hit);
}

void editor_close(Model* const model)
{
    drafts_free(model);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        model->editor.pieces[kind].is_open = false;
    }
}

void editor_bank(Model* const model)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        EditPiece* const piece = &model->editor.pieces[kind];
        const Single* const draft = model->editor.drafts[kind].single;
        if (piece->is_open && !(draft && piece->info == &draft->info)) {
            piece->info =
                model->bank ? bank_info(model->bank, (EntryKind)kind, piece->buffer.now.id) : NULL;
            piece->is_open = piece->info;
        }
    }
    editor_show(model);
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
    const Figure figure = edit_buffer_figure(&editor_piece_seen(model)->buffer);
    const bool left_foot_leads = model->view.values[CONTROL_LEAD_FOOT] > 0.5f;
    return left_foot_leads ? figure_mirrored(&figure, (uint8_t)limb) : (uint8_t)limb;
}

int editor_row(const Model* const model, const uint8_t limb)
{
    for (int row = 0; row < LIMB_COUNT; ++row) {
        if (limb_is_foot((uint8_t)row) == limb_is_foot(limb) && limb_of(model, row) == limb) {
            return row;
        }
    }
    return limb;
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
