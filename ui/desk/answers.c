// SPDX-License-Identifier: ISC
#include "answers.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/words.h"
#include "deleting.h"
#include "saving.h"
#include "varying.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A draft that isn't ours, such as a session's that is opened: it is what counts. */
void answers_draft(Model* const model, const FigureKind kind, const char* const text,
                   const size_t size)
{
    Editor* const editor = &model->editor;
    if (drafts_told(model, kind, text, strnlen(text, size))) {
        editor->pieces[kind].is_open = false;
        editor_show(model);
    }
    model->is_dirty = true;
}

/* The plugin never writes over a file that a person changed. */
static const char beside_words[] = ", as a new one: the older has been written by hand and stays";

static bool is_beside(const uint32_t asked, const int64_t id)
{
    return asked && id != (int64_t)asked;
}

void answers_saved(Model* const model, const int64_t id)
{
    if (id > 0 && id <= ID_MOST && !varying_saved(model, (uint32_t)id) &&
        !groove_saving_figure(model, id)) {
        saving_answered(model, id);
    }
}

void answers_saved_groove(Model* const model, const int64_t id)
{
    groove_saving_done(model, id);
}

void answers_deleted(Model* const model, const int64_t id)
{
    deleting_done(model, id);
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
    saving_refused(model);
    groove_saving_refused(model);
    model->editor.lesson.is_sent = false;
    drafts_refused(model);
    varying_refused(model);
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
