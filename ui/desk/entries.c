// SPDX-License-Identifier: ISC
#include "model.h"

#include "../../plugin/talk/decode.h"

#include <stdlib.h>
#include <string.h>

/* Another bank may be of the same entries: files have changed.  At first the window
   has read them later than the plugin. */
static void take_whole(Model* const model, char* const text)
{
    SessionEntries* const entries = &model->entries_told;
    const char* const known = entries->known ? entries->known : "";
    const int32_t bank = entries->pieces.last.which;
    const bool is_same = !strcmp(known, text) && (!entries->known || entries->known_bank == bank);
    free(entries->known);
    entries->known = text;
    entries->known_bank = bank;
    if (!is_same && model->output.read_bank) {
        model->output.read_bank(model->output.handle, entries->known);
    }
}

void entries_told(Model* const model, const LV2_Atom* const value)
{
    Piece piece;
    if (decode_piece(value, model->uris, &piece)) {
        char* const text = pieces_take(&model->entries_told.pieces, &piece, model->now);
        if (text) {
            take_whole(model, text);
        }
    }
}

void entries_close(Model* const model)
{
    pieces_clear(&model->entries_told.pieces);
    free(model->entries_told.known);
    model->entries_told.known = NULL;
}
