// SPDX-License-Identifier: ISC
#include "deleting.h"

#include "asking.h"
#include "hit_test.h"

#include <stdio.h>

/* What is meant; false if nothing is. */
static bool which(const Model* const model, EntryKind* const kind, int32_t* const id)
{
    HitTest hit;
    const List* const list = &model->view.list;
    const EditPiece* const piece = &model->editor.pieces[model->editor.kind];
    if (list->is_open) {
        *kind = list->shelf;
        *id = list->selected < 0
                  ? 0
                  : model->view.shelves[*kind].entries[list->rows[list->selected].entry].id;
        return list->selected >= 0;
    }
    *kind = (EntryKind)model->editor.kind;
    *id = piece->is_open ? (int32_t)piece->buffer.now.id : 0;
    if (!piece->is_open && hit_test_of(model, &hit)) {
        *kind = (EntryKind)hit.kind;
        *id = (int32_t)hit.id;
    }
    return *id > 0;
}

void deleting_ask(Model* const model)
{
    EntryKind kind = ENTRY_KINDS;
    int32_t id = 0;
    char words[MESSAGE_ROOM];
    const bool is_any = which(model, &kind, &id);
    const EntryInfo* const info =
        is_any && id > 0 && model->bank ? bank_info(model->bank, kind, (uint32_t)id) : NULL;
    if (!info || !info->is_users || info->is_sessions || info->id != (uint32_t)id) {
        snprintf(words, sizeof words, "%s%.60s%s: only your own can be deleted", info ? "\"" : "",
                 info ? info->label : "Nothing of yours is chosen",
                 !info               ? ""
                 : info->is_sessions ? "\" came with this session"
                                     : "\" is the factory's");
        model_say(model, words);
        return;
    }
    asking_delete(model, kind, id, info->label);
}

void deleting_yes(Model* const model)
{
    char text[48];
    const Asking* const asked = &model->view.asked;
    snprintf(text, sizeof text, "%s %d", kind_rows[asked->kind].name, (int)asked->id);
    model->output.say(model->output.handle, model->uris->fl_deleteEntry, text);
    model_say(model, "Deleting ...");
}

/* What plays in its place where it was picked: what played when the list was opened, else what
   the groove has, or the first. */
static float instead_of(const Model* const model, const EntryKind kind, const int32_t id)
{
    const List* const list = &model->view.list;
    const bool has_before = list->is_open && list->shelf == kind && list->began_with != id;
    return has_before ? (float)list->began_with : control_rows[kind_controls[kind]].normal;
}

void deleting_done(Model* const model, const int64_t id)
{
    char words[MESSAGE_ROOM];
    Asking* const asked = &model->view.asked;
    if (id != asked->id) {
        return;
    }
    if (asked->kind < (EntryKind)FIGURE_KINDS) {
        const FigureKind kind = (FigureKind)asked->kind;
        const Single* const draft = model->editor.drafts[kind].single;
        if (draft && draft->info.id == (uint32_t)id) {
            drafts_put(model, kind, "");
        }
        if (model->editor.pieces[kind].buffer.now.id == (uint32_t)id) {
            model->editor.pieces[kind].is_open = false;
        }
        editor_show(model);
    }
    if ((int64_t)model->view.values[kind_controls[asked->kind]] == id) {
        model_nudge(model, kind_controls[asked->kind], instead_of(model, asked->kind, (int32_t)id));
    }
    if (model->view.list.is_open && model->view.list.began_with == (int32_t)id) {
        model->view.list.began_with = (int32_t)control_rows[kind_controls[asked->kind]].normal;
    }
    snprintf(words, sizeof words,
             "Deleted \"%.60s\"; its file stays in your folder, its name ending in .deleted",
             asked->name);
    asked->id = 0;
    model_say(model, words);
}
