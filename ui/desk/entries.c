// SPDX-License-Identifier: ISC
#include "model.h"

#include "../../plugin/talk/decode.h"

#include <stdlib.h>
#include <string.h>

/* More than a session ever has; a host may hand over anything. */
enum { ENTRIES_MOST = 8 * 1024 * 1024 };

/* Another bank may be of the same entries: files have changed.  At first the window
   has read them later than the plugin. */
static void take_whole(Model* const model)
{
    SessionEntries* const entries = &model->entries_told;
    const char* const known = entries->known ? entries->known : "";
    const bool is_same = !strcmp(known, entries->text) &&
                         (!entries->known || entries->known_bank == entries->last.which);
    free(entries->known);
    entries->known = entries->text;
    entries->known_bank = entries->last.which;
    entries->text = NULL;
    entries->is_whole = true;
    if (!is_same && model->output.read_bank) {
        model->output.read_bank(model->output.handle, entries->known);
    }
}

static void begin(SessionEntries* const entries, const Piece* const piece)
{
    free(entries->text);
    entries->text = piece->whole <= ENTRIES_MOST ? calloc(1, (size_t)piece->whole + 1) : NULL;
    entries->last = (Piece){piece->which, 0, piece->whole, 0, NULL};
    entries->is_whole = false;
}

void entries_told(Model* const model, const LV2_Atom* const value)
{
    SessionEntries* const entries = &model->entries_told;
    Piece piece;
    if (!decode_piece(value, model->uris, &piece)) {
        return;
    }
    entries->heard_at = model->now;
    if (!piece.at) {
        begin(entries, &piece);
    }
    const Piece last = entries->last;
    const bool follows = entries->text && piece.which == last.which && piece.whole == last.whole &&
                         piece.at == last.at + last.length;
    if (!follows) {
        return; /* something was lost on the way */
    }
    memcpy(entries->text + piece.at, piece.text, (size_t)piece.length);
    entries->last = piece;
    if (piece.at + piece.length == piece.whole) {
        take_whole(model);
    }
}

void entries_close(Model* const model)
{
    free(model->entries_told.text);
    free(model->entries_told.known);
    model->entries_told = (SessionEntries){.text = NULL};
}
