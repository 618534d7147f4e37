// SPDX-License-Identifier: ISC
#include "asking.h"

#include "../../plugin/bank/utf8.h"

#include <pango/pango.h>
#include <string.h>

void asking_write(Model* const model, const bool straight)
{
    Asking* const asked = &model->view.asked;
    if (!model->output.write_file) {
        return;
    }
    if (asked->is_known) {
        model->output.write_file(model->output.handle, straight);
        return;
    }
    if (!*asked->folder && model->output.file_folder) {
        model->output.file_folder(model->output.handle, asked->folder);
    }
    model_stop_typing(model);
    model->view.keys.is_open = model->view.reads = false; /* where it couldn't be read */
    model->view.edit.note[0] = '\0';
    asked->is_open = true;
    asked->straight = straight;
    model->is_dirty = true;
}

void asking_more(Model* const model, const uint32_t text)
{
    char* const folder = model->view.asked.folder;
    char letter[8] = "";
    const size_t length = strlen(folder);
    const size_t bytes = (size_t)g_unichar_to_utf8(text, letter);
    if (g_unichar_isprint(text) && length + bytes < FOLDER_ROOM) {
        memcpy(folder + length, letter, bytes);
        folder[length + bytes] = '\0';
        model->is_dirty = true;
    }
}

void asking_less(Model* const model)
{
    char* const folder = model->view.asked.folder;
    const size_t length = strlen(folder);
    folder[utf8_cut(folder, length, length ? length - 1 : 0)] = '\0';
    model->is_dirty = true;
}

void asking_yes(Model* const model)
{
    Asking* const asked = &model->view.asked;
    asked->is_open = false;
    asked->is_known = true; /* unless it can't be written there */
    model->output.write_file(model->output.handle, asked->straight);
    model->is_dirty = true;
}

void asking_no(Model* const model)
{
    if (model->view.asked.is_open) {
        model->view.asked.is_open = false;
        model_say(model, "Nothing is written");
    }
}
