// SPDX-License-Identifier: ISC
/* What the plugin answers to edits: drafts in force, what was saved, what was
   refused, and the notes that a drummer's pads send. */
#include "editing.h"

#include "../../plugin/bank/write_figure.h"
#include "../scene/words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void editor_draft(Desk* const desk, const FigureKind kind, const char* const text,
                  const size_t size)
{
    char why[SINGLE_WHY_ROOM];
    Editor* const editor = &desk->editor;
    const size_t length = strnlen(text, size);
    Single* const draft = length ? single_read("draft", text, length, why) : NULL;
    const bool is_ours = editor->is_open && editor->sketch.now.kind == kind;
    const Single* const before = editor->drafts[kind];
    if (is_ours && before && editor->info == &before->info) {
        /* its texts go with it: those of the new one, which are the same, stay */
        editor->info = draft ? &draft->info : NULL;
    }
    const bool is_other = draft && draft->info.id != editor->sketch.now.id;
    if (is_ours && (!draft || is_other || !editor->info)) {
        editor->is_open = false;
        editing_show(desk);
    }
    single_free(editor->drafts[kind]);
    editor->drafts[kind] = draft;
    desk->is_dirty = true;
}

static Control control_of(const FigureKind kind)
{
    static const Control controls[FIGURE_KINDS] = {
        [FIGURE_HANDS] = CONTROL_HANDS,
        [FIGURE_FEET] = CONTROL_FEET,
        [FIGURE_TURNAROUND] = CONTROL_TURNAROUND,
    };
    return controls[kind];
}

/* Where the figure was picked by itself, the saved one is picked in its place and
   the draft is needed no more; in a groove's own bars the draft plays on. */
void editor_saved(Desk* const desk, const int64_t id)
{
    char words[MESSAGE_ROOM];
    Editor* const editor = &desk->editor;
    const SketchFigure* const now = &editor->sketch.now;
    if (id <= 0 || id > ID_MOST) {
        return;
    }
    snprintf(words, sizeof words, "Saved as \"%.60s\" in your own bank", desk->view.edit.name);
    editor->is_saved = true;
    const bool is_open = editor->is_open;
    const FigureKind kind = now->kind;
    const bool is_picked =
        is_open && (uint32_t)desk->view.values[control_of(kind)] == now->id && now->id;
    editor->is_open = false; /* the bank's texts are read anew */
    editing_show(desk);
    if (desk->output.read_bank) {
        desk->output.read_bank(desk->output.handle);
    }
    if (is_picked) {
        desk->output.say(desk->output.handle, editing_property(desk, kind), "");
        desk_nudge(desk, control_of(kind), (float)id);
    }
    desk_say(desk, words);
}

void editor_saved_kit(Desk* const desk, const int64_t id)
{
    if (id <= 0 || id > ID_MOST) {
        return;
    }
    if (desk->output.read_bank) {
        desk->output.read_bank(desk->output.handle);
    }
    desk->editor.kit.id = (uint32_t)id;
    desk_nudge(desk, CONTROL_KIT, (float)id);
}

void editor_refused(Desk* const desk, const char* const why, const size_t size)
{
    char words[MESSAGE_ROOM];
    snprintf(words, sizeof words, "%.*s", (int)strnlen(why, size), why);
    desk_say(desk, words);
}

/* A pad was played: the voice that is learned has its key, and the next one's is
   waited for. */
void editor_note(Desk* const desk, const int note)
{
    char words[MESSAGE_ROOM];
    Edit* const edit = &desk->view.edit;
    Kit* const kit = &desk->editor.kit;
    if (!edit->is_learning || note < 0 || note > 127) {
        return;
    }
    kit->notes[edit->learns] = (uint8_t)note;
    const EntryInfo* const info = desk->bank ? bank_info(desk->bank, ENTRY_KIT, kit->id) : NULL;
    EntryInfo named = {.label = "My pads", .uri = "", .comment = "", .family_uri = ""};
    if (info && info->is_users) {
        named = *info;
    }
    char* const text = write_kit(kit, &named);
    if (text) {
        desk->output.say(desk->output.handle, desk->uris->fl_saveKit, text);
    }
    free(text);
    snprintf(words, sizeof words, "%s is key %d; now the next voice", voice_word(edit->learns),
             note);
    edit->learns = (Voice)(((int)edit->learns + 1) % VOICE_COUNT);
    desk_say(desk, words);
}
