// SPDX-License-Identifier: ISC
/* What the plugin plays and the user's files haven't: its session's own entries.  With
   them the bank of the window is the plugin's. */
#include "moves.h"

#include "../../plugin/talk/decode.h"

#include <stdlib.h>
#include <string.h>

/* More than a session ever has; a host may hand over anything. */
enum { ENTRIES_MOST = 8 * 1024 * 1024 };

/* After so many seconds without a piece the rest isn't coming. */
static const double longest_wait = 1.0;

LV2_URID desk_asks(const Desk* const desk)
{
    const SessionEntries* const entries = &desk->entries_told;
    const bool lacks = !entries->is_whole && desk->now - entries->heard_at > longest_wait;
    return desk->view.edit.is_learning ? desk->uris->fl_noteIn
           : !desk->view.has_place     ? 0
           : lacks                     ? desk->uris->fl_sessionEntries
                                       : desk->uris->fl_place;
}

/* Another bank may be of the same entries: files have changed.  At first the window
   has read them later than the plugin. */
static void take_whole(Desk* const desk)
{
    SessionEntries* const entries = &desk->entries_told;
    const char* const known = entries->known ? entries->known : "";
    const bool is_same = !strcmp(known, entries->text) &&
                         (!entries->known || entries->known_bank == entries->last.which);
    free(entries->known);
    entries->known = entries->text;
    entries->known_bank = entries->last.which;
    entries->text = NULL;
    entries->is_whole = true;
    if (!is_same && desk->output.read_bank) {
        desk->output.read_bank(desk->output.handle, entries->known);
    }
}

static void begin(SessionEntries* const entries, const Piece* const piece)
{
    free(entries->text);
    entries->text = piece->whole <= ENTRIES_MOST ? calloc(1, (size_t)piece->whole + 1) : NULL;
    entries->last = (Piece){piece->which, 0, piece->whole, 0, NULL};
    entries->is_whole = false;
}

void entries_told(Desk* const desk, const LV2_Atom* const value)
{
    SessionEntries* const entries = &desk->entries_told;
    Piece piece;
    if (!decode_piece(value, desk->uris, &piece)) {
        return;
    }
    entries->heard_at = desk->now;
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
        take_whole(desk);
    }
}

void entries_close(Desk* const desk)
{
    free(desk->entries_told.text);
    free(desk->entries_told.known);
    desk->entries_told = (SessionEntries){.text = NULL};
}
