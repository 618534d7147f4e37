// SPDX-License-Identifier: ISC
#include "kept_told.h"

#include <stdlib.h>
#include <string.h>

/* Longer than any worker takes, shorter than a person waits. */
static const double answer_seconds = 2.0;

static const char* text_of(const Draft* const draft)
{
    return draft->single ? draft->single->text : "";
}

/* What is "" is answered only where there was a draft: it isn't waited for. */
static void send(Model* const model, const FigureKind kind)
{
    Draft* const draft = &model->editor.drafts[kind];
    const char* const text = text_of(draft);
    free(draft->sent);
    draft->sent = *text ? strdup(text) : NULL;
    draft->sent_at = model->now;
    draft->is_due = false;
    model->output.say(model->output.handle, model->uris->fl_drafts[kind], text);
}

static void answered(Model* const model, const FigureKind kind)
{
    Draft* const draft = &model->editor.drafts[kind];
    free(draft->sent);
    draft->sent = NULL;
    if (draft->is_due) {
        send(model, kind);
    }
}

/* The editor's texts may be the draft's: those of the new one are the same. */
static void replace(Model* const model, const FigureKind kind, Single* const single)
{
    Editor* const editor = &model->editor;
    Draft* const draft = &editor->drafts[kind];
    EditPiece* const piece = &editor->pieces[kind];
    if (draft->single && piece->info == &draft->single->info) {
        piece->info = single ? &single->info : NULL;
        piece->is_open = piece->is_open && single;
    }
    single_free(draft->single);
    draft->single = single;
    draft->is_kept = false;
    model->view.drafted[kind] = single ? (int32_t)single->figure.id : 0;
    if (!model_compose(model)) {
        model_say(model, "There is no memory to show the draft in lists and files");
    }
    kept_told_show(model);
}

bool drafts_put(Model* const model, const FigureKind kind, const char* const text)
{
    char why[SINGLE_WHY_ROOM];
    Draft* const draft = &model->editor.drafts[kind];
    const size_t length = strlen(text);
    Single* const single = length ? single_read("draft", text, length, why) : NULL;
    if (length && (!single || length >= DRAFT_BYTES_MAX)) {
        single_free(single);
        return false;
    }
    replace(model, kind, single);
    draft->is_due = true;
    if (!draft->sent) {
        send(model, kind);
    }
    return true;
}

bool drafts_told(Model* const model, const FigureKind kind, const char* const text,
                 const size_t length)
{
    char why[SINGLE_WHY_ROOM];
    Draft* const draft = &model->editor.drafts[kind];
    const char* const known = draft->sent ? draft->sent : text_of(draft);
    const bool is_known = strlen(known) == length && !memcmp(known, text, length);
    if (draft->sent) {
        if (is_known) {
            answered(model, kind);
        }
        return false; /* what was before is of no interest any more */
    }
    if (!is_known) {
        replace(model, kind, length ? single_read("draft", text, length, why) : NULL);
    }
    return !is_known;
}

void drafts_refused(Model* const model)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        answered(model, (FigureKind)kind);
    }
}

void drafts_tick(Model* const model)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const Draft* const draft = &model->editor.drafts[kind];
        if (draft->sent && model->now - draft->sent_at > answer_seconds) {
            answered(model, (FigureKind)kind);
        }
    }
}

void drafts_free(Model* const model)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        Draft* const draft = &model->editor.drafts[kind];
        single_free(draft->single);
        free(draft->sent);
        *draft = (Draft){.single = NULL};
    }
}
