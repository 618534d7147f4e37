// SPDX-License-Identifier: ISC
#include "asking.h"

#include "../../plugin/bank/utf8.h"

#include <pango/pango.h>
#include <stdio.h>
#include <string.h>

static void open(Model* const model, const AskedWhat what)
{
    Asking* const asked = &model->view.asked;
    model_stop_typing(model);
    model->view.keys.is_open = model->view.reads = false; /* where it couldn't be read */
    model->view.edit.note[0] = asked->why[0] = asked->found[0] = '\0';
    asked->is_open = true;
    asked->what = what;
    model->is_dirty = true;
}

/* What letters go to; NULL: none is typed. */
static char* text_of(Asking* const asked, size_t* const room)
{
    *room = asked->what == ASKED_FOLDER ? FOLDER_ROOM : TYPED_ROOM;
    asked->why[0] = asked->found[0] = '\0';
    return asked->what == ASKED_FOLDER     ? asked->folder
           : asked->what == ASKED_DELETION ? NULL
                                           : asked->name;
}

/* What was asked for, into the folder that is known. */
static void write_it(Model* const model)
{
    const Asking* const asked = &model->view.asked;
    if (asked->is_handout) {
        model->output.write_handout(model->output.handle);
    } else {
        model->output.write_file(model->output.handle, asked->straight);
    }
}

static void write_or_ask(Model* const model)
{
    Asking* const asked = &model->view.asked;
    if (asked->is_known) {
        write_it(model);
        return;
    }
    if (!*asked->folder && model->output.file_folder) {
        model->output.file_folder(model->output.handle, asked->folder);
    }
    open(model, ASKED_FOLDER);
}

void asking_write(Model* const model, const bool straight)
{
    if (model->output.write_file) {
        model->view.asked.straight = straight;
        model->view.asked.is_handout = false;
        write_or_ask(model);
    }
}

void asking_hand_out(Model* const model)
{
    if (model->output.write_handout) {
        model->view.asked.is_handout = true;
        write_or_ask(model);
    }
}

void asking_groove(Model* const model, const char* const name)
{
    snprintf(model->view.asked.name, TYPED_ROOM, "%s", name);
    open(model, ASKED_GROOVE);
}

void asking_kept(Model* const model, const int slot, const char* const name)
{
    snprintf(model->view.asked.name, TYPED_ROOM, "%s", name);
    model->view.asked.id = slot;
    open(model, ASKED_KEPT);
}

void asking_delete(Model* const model, const EntryKind kind, const int32_t id,
                   const char* const label)
{
    Asking* const asked = &model->view.asked;
    snprintf(asked->name, TYPED_ROOM, "%.60s", label);
    utf8_repair(asked->name);
    asked->kind = kind;
    asked->id = id;
    open(model, ASKED_DELETION);
}

void asking_more(Model* const model, const uint32_t text)
{
    size_t room = 0;
    char* const typed = text_of(&model->view.asked, &room);
    char letter[8] = "";
    const size_t length = typed ? strlen(typed) : 0;
    const size_t bytes = (size_t)g_unichar_to_utf8(text, letter);
    if (typed && g_unichar_isprint(text) && length + bytes < room) {
        memcpy(typed + length, letter, bytes);
        typed[length + bytes] = '\0';
        model->is_dirty = true;
    }
}

void asking_complete(Model* const model)
{
    Asking* const asked = &model->view.asked;
    if (asked->what == ASKED_FOLDER && model->output.complete) {
        model->output.complete(model->output.handle, asked->folder, asked->found);
        model->is_dirty = true;
    }
}

void asking_dropped(Model* const model, const char* const path)
{
    Asking* const asked = &model->view.asked;
    char folder[FOLDER_ROOM] = "";
    const bool is_meant = asked->is_open && asked->what == ASKED_FOLDER;
    const bool is_known =
        model->output.folder_of && model->output.folder_of(model->output.handle, path, folder);
    if (is_meant && is_known) {
        memcpy(asked->folder, folder, sizeof asked->folder);
        asked->found[0] = '\0';
    } else if (is_meant) {
        snprintf(asked->found, FOLDERS_ROOM, "what was dropped is no file that can be named here");
    } else if (!asked->is_open) {
        model_say(model, "Drop a file or folder while W asks where to write; your own figures are "
                         "files in the folder that README names");
    }
    model->is_dirty = true;
}

void asking_less(Model* const model)
{
    size_t room = 0;
    char* const typed = text_of(&model->view.asked, &room);
    const size_t length = typed ? strlen(typed) : 0;
    if (typed) {
        typed[utf8_cut(typed, length, length ? length - 1 : 0)] = '\0';
        model->is_dirty = true;
    }
}

void asking_yes(Model* const model)
{
    Asking* const asked = &model->view.asked;
    asked->is_open = false;
    asked->is_known = true; /* unless it can't be written there */
    write_it(model);
    model->is_dirty = true;
}

void asking_no(Model* const model)
{
    if (model->view.asked.is_open) {
        model->view.asked.is_open = false;
        model_say(model, model->view.asked.what == ASKED_FOLDER     ? "Nothing is written"
                         : model->view.asked.what == ASKED_DELETION ? "Nothing is deleted"
                         : model->view.asked.what == ASKED_KEPT     ? "It is called as before"
                                                                    : "Nothing is saved");
    }
}
