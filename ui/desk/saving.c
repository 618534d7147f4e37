// SPDX-License-Identifier: ISC
#include "saving.h"

#include "../../plugin/bank/write_figure.h"
#include "typing.h"

#include <pango/pango.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool saving_is_factorys(const Model* const model, const EntryKind kind, const char* const name)
{
    char* const wanted = g_utf8_casefold(name, -1);
    bool is = false;
    for (uint32_t i = 0; !is && model->bank && i < bank_count(model->bank, kind); ++i) {
        const EntryInfo* const info = bank_entry(model->bank, kind, i);
        char* const label = g_utf8_casefold(info->label, -1);
        is = !info->is_users && !info->is_sessions && !strcmp(label, wanted);
        g_free(label);
    }
    g_free(wanted);
    return is;
}

/* What was saved from here, not written by hand into a file of the user's. */
static bool is_mine(const EntryInfo* const info)
{
    static const char mine[] = "urn:fourlimb:mine:";
    return info->is_users && !strncmp(info->uri, mine, sizeof mine - 1);
}

/* Under the name that it was saved under it goes over that entry; under another, and
   from a file that a person wrote, it becomes a new one. */
static EntryInfo info_to_save(const Model* const model)
{
    const EditPiece* const piece = editor_piece_seen(model);
    const EntryKind kind = (EntryKind)model->editor.kind;
    const bool is_again = piece->saved_id && !strcmp(piece->saved, piece->name);
    const EntryInfo* const saved =
        model->bank && is_again ? bank_info(model->bank, kind, piece->saved_id) : NULL;
    EntryInfo info = saved ? *saved : *piece->info;
    if (!is_mine(&info) || strcmp(info.label, piece->name) != 0) {
        info.id = 0;
        info.uri = "";
    }
    info.label = piece->name;
    return info;
}

static void stop(Model* const model)
{
    Saving* const saving = &model->editor.saving;
    memset(saving->wants, 0, sizeof saving->wants);
    saving->is_sent = saving->is_naming = false;
}

static void send(Model* const model)
{
    Saving* const saving = &model->editor.saving;
    const EditPiece* const piece = editor_piece(model);
    const EntryInfo info = info_to_save(model);
    const Figure figure = edit_buffer_figure(&piece->buffer);
    char* const text = write_figure(&figure, &info);
    if (!text) {
        stop(model);
        model_say(model, "There is no memory to save this");
        return;
    }
    saving->is_sent = true;
    saving->is_stale = false;
    saving->kind = model->editor.kind;
    saving->asked_id = info.id >= ID_FIRST_OWN ? info.id : 0;
    memcpy(saving->name, piece->name, TYPED_ROOM);
    model->output.say(model->output.handle, model->uris->fl_saveFigure, text);
    model_say(model, "Saving ...");
    free(text);
}

/* Its name is typed, and why is said meanwhile. */
static void ask_for_a_name(Model* const model, const char* const words)
{
    View* const view = &model->view;
    Saving* const saving = &model->editor.saving;
    if (!saving->is_naming) {
        saving->from = view->focus;
    }
    saving->is_naming = true;
    view->page = view->width < 860.0 || view->height < 530.0 ? 1 : view->page;
    typing_begin_name(model);
    snprintf(view->refused, sizeof view->refused, "%s: %s", kind_rows[model->editor.kind].title,
             words);
}

static bool is_known(const Model* const model)
{
    const EditPiece* const piece = editor_piece_seen(model);
    return (piece->saved_id && !strcmp(piece->saved, piece->name)) ||
           (is_mine(piece->info) && !strcmp(piece->info->label, piece->name));
}

/* The draft of a session that wasn't looked at yet. */
static bool open_piece(Model* const model, const FigureKind kind)
{
    const Single* const draft = model->editor.drafts[kind].single;
    if (!model->editor.pieces[kind].is_open && draft) {
        editor_open_draft(model, kind);
    }
    editor_go_to(model, kind);
    return editor_piece(model)->is_open;
}

/* The next that is wanted; asked for its name if it must have one. */
static void go_on(Model* const model, const bool asks)
{
    Saving* const saving = &model->editor.saving;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (!saving->wants[kind] || !open_piece(model, (FigureKind)kind)) {
            continue;
        }
        const char* const name = editor_piece(model)->name;
        if (!*name) {
            ask_for_a_name(model, "give it a name first");
        } else if (saving_is_factorys(model, (EntryKind)kind, name)) {
            ask_for_a_name(model, "that name is the factory's: give yours one of its own; Enter "
                                  "saves it");
        } else if (asks && !is_known(model)) {
            ask_for_a_name(model, "Enter saves it under this name into your own bank; Esc: not");
        } else {
            saving->wants[kind] = false;
            send(model);
        }
        return;
    }
}

void saving_begin(Model* const model, const bool asks)
{
    Saving* const saving = &model->editor.saving;
    bool any = false;
    if (saving->is_sent) {
        model_say(model, "Saving ...");
        return;
    }
    stop(model);
    saving->done[0] = '\0';
    saving->is_beside = false;
    saving->asks = asks;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const bool is_here = kind == (int)model->editor.kind && editor_piece(model)->is_open;
        saving->wants[kind] = is_here || editor_is_changed(model, (FigureKind)kind);
        any |= saving->wants[kind];
    }
    if (any) {
        go_on(model, asks);
    } else {
        model_say(model, "Nothing is being edited");
    }
}

static void give_back_the_keys(Model* const model)
{
    Saving* const saving = &model->editor.saving;
    if (saving->is_naming) {
        saving->is_naming = false;
        model_focus(model, saving->from);
    }
}

/* What Enter has taken is agreed to, but for a name that can't be. */
void saving_named(Model* const model)
{
    Saving* const saving = &model->editor.saving;
    if (!saving->is_naming || model->view.is_typing) {
        return;
    }
    const FigureKind kind = model->editor.kind;
    const char* const name = editor_piece(model)->name;
    if (!*name || saving_is_factorys(model, (EntryKind)kind, name)) {
        go_on(model, false);
        return;
    }
    give_back_the_keys(model);
    saving->wants[kind] = false;
    send(model);
}

void saving_leave(Model* const model)
{
    if (model->editor.saving.is_naming) {
        give_back_the_keys(model);
        stop(model);
        model_say(model, "Nothing is saved");
    }
}

/* The plugin never writes over a file that a person changed. */
static const char beside_words[] = ", as a new one: the older has been written by hand and stays";

/* Where the figure was picked by itself, the saved one is picked in its place and
   the draft is needed no more; in a groove's own bars the draft plays on. */
static void keep_saved(Model* const model, const uint32_t id)
{
    const Saving* const saving = &model->editor.saving;
    const FigureKind kind = saving->kind;
    EditPiece* const piece = &model->editor.pieces[kind];
    const EditFigure* const now = &piece->buffer.now;
    const bool is_picked = now->id && (uint32_t)model->view.values[kind_controls[kind]] == now->id;
    model->editor.drafts[kind].is_kept = true;
    piece->saved_id = id;
    piece->base = *now;
    memcpy(piece->saved, saving->name, TYPED_ROOM);
    if (is_picked) {
        piece->is_open = false;
        drafts_put(model, kind, "");
        model_nudge(model, kind_controls[kind], (float)id);
    }
    editor_show(model);
}

/* What was changed since it was sent is not saved, and plays on as a draft. */
bool saving_answered(Model* const model, const int64_t id)
{
    char words[MESSAGE_ROOM];
    Saving* const saving = &model->editor.saving;
    if (saving->is_sent && !saving->is_stale && model->editor.pieces[saving->kind].is_open) {
        keep_saved(model, (uint32_t)id);
    }
    const size_t length = strlen(saving->done);
    saving->is_beside |= saving->asked_id && id != (int64_t)saving->asked_id;
    snprintf(saving->done + length, sizeof saving->done - length, "%s\"%.60s\"",
             length ? " and " : "", saving->name);
    saving->is_sent = false;
    go_on(model, saving->asks);
    if (saving->is_sent || saving->is_naming) {
        return false;
    }
    snprintf(words, sizeof words, "Saved as %.150s in your own bank%s", saving->done,
             saving->is_beside ? beside_words : "");
    model_say(model, words);
    return true;
}

void saving_refused(Model* const model)
{
    stop(model);
}
