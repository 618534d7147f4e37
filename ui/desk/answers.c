// SPDX-License-Identifier: ISC
#include "answers.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A draft that isn't ours, such as a session's that is opened: it is what counts. */
void answers_draft(Model* const model, const FigureKind kind, const char* const text,
                   const size_t size)
{
    Editor* const editor = &model->editor;
    if (drafts_told(model, kind, text, strnlen(text, size)) && editor->buffer.now.kind == kind) {
        editor->is_open = false;
        editor_show(model);
    }
    model->is_dirty = true;
}

/* Where the figure was picked by itself, the saved one is picked in its place and
   the draft is needed no more; in a groove's own bars the draft plays on. */
static void keep_saved(Model* const model, const uint32_t id)
{
    Editor* const editor = &model->editor;
    const EditFigure* const now = &editor->buffer.now;
    const FigureKind kind = now->kind;
    const bool is_picked = now->id && (uint32_t)model->view.values[kind_controls[kind]] == now->id;
    editor->drafts[kind].is_kept = true;
    editor->saved_id = id;
    memcpy(editor->saved, editor->saving, TYPED_ROOM);
    if (is_picked) {
        editor->is_open = false;
        drafts_put(model, kind, "");
        model_nudge(model, kind_controls[kind], (float)id);
        editor_show(model);
    }
}

/* The plugin never writes over a file that a person changed. */
static const char beside_words[] = ", as a new one: the older has been written by hand and stays";

static bool is_beside(const uint32_t asked, const int64_t id)
{
    return asked && id != (int64_t)asked;
}

/* What was changed since it was sent is not saved, and plays on as a draft. */
void answers_saved(Model* const model, const int64_t id)
{
    char words[MESSAGE_ROOM];
    Editor* const editor = &model->editor;
    if (id <= 0 || id > ID_MOST) {
        return;
    }
    if (editor->is_saving && editor->is_open) {
        keep_saved(model, (uint32_t)id);
    }
    editor->is_saving = false;
    snprintf(words, sizeof words, "Saved as \"%.60s\" in your own bank%s", editor->saving,
             is_beside(editor->asked_id, id) ? beside_words : "");
    model_say(model, words);
}

/* ---- Keys learned from pads */

static void send_kit(Model* const model)
{
    Lesson* const lesson = &model->editor.lesson;
    const EntryInfo* const info =
        model->bank ? bank_info(model->bank, ENTRY_KIT, lesson->kit.id) : NULL;
    EntryInfo named = {.label = "My pads", .uri = "", .comment = "", .family_uri = ""};
    if (info && info->is_users) {
        named = *info;
    }
    char* const text = write_entry(ENTRY_KIT, &lesson->kit, &named);
    if (text) {
        lesson->is_sent = true;
        lesson->asked_id = named.id;
        lesson->is_due = false;
        model->output.say(model->output.handle, model->uris->fl_saveKit, text);
    }
    free(text);
}

void answers_saved_kit(Model* const model, const int64_t id)
{
    Lesson* const lesson = &model->editor.lesson;
    if (id <= 0 || id > ID_MOST) {
        return;
    }
    if (is_beside(lesson->asked_id, id)) {
        char words[MESSAGE_ROOM];
        snprintf(words, sizeof words, "Keys are learned%s", beside_words);
        model_say(model, words);
    }
    lesson->kit.id = (uint32_t)id;
    lesson->is_sent = false;
    model_nudge(model, CONTROL_KIT, (float)id);
    if (lesson->is_due) {
        send_kit(model);
    }
}

/* Nothing is lost: the figure stays in the editor, the keys with the next note. */
void answers_refused(Model* const model, const char* const why, const size_t size)
{
    char words[MESSAGE_ROOM];
    model->editor.is_saving = false;
    model->editor.lesson.is_sent = false;
    drafts_refused(model);
    snprintf(words, sizeof words, "%.*s", (int)strnlen(why, size), why);
    model_say(model, words);
}

/* A pad was played: the voice that is learned has its key, and the next one's is
   waited for. */
void answers_note(Model* const model, const int note)
{
    char words[MESSAGE_ROOM];
    Edit* const edit = &model->view.edit;
    Lesson* const lesson = &model->editor.lesson;
    if (!edit->is_learning || note < 0 || note > 127) {
        return;
    }
    lesson->kit.notes[edit->learns] = (uint8_t)note;
    snprintf(words, sizeof words, "%s is key %d; now the next voice", words_voice(edit->learns),
             note);
    edit->learns = (Voice)(((int)edit->learns + 1) % VOICE_COUNT);
    model_say(model, words);
    if (lesson->is_sent) {
        lesson->is_due = true;
    } else {
        send_kit(model);
    }
}
