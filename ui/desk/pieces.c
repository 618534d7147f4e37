// SPDX-License-Identifier: ISC
#include "pieces.h"

#include <stdlib.h>
#include <string.h>

/* More than a session ever has; a host may hand over anything. */
enum { PIECES_MOST = 8 * 1024 * 1024 };

/* After so many seconds without a piece the rest isn't coming. */
static const double longest_wait = 1.0;

static void begin(Pieces* const pieces, const Piece* const piece)
{
    free(pieces->text);
    pieces->text = piece->whole <= PIECES_MOST ? calloc(1, (size_t)piece->whole + 1) : NULL;
    pieces->last = (Piece){piece->which, 0, piece->whole, 0, NULL};
    pieces->is_whole = false;
}

char* pieces_take(Pieces* const pieces, const Piece* const piece, const double now)
{
    pieces->heard_at = now;
    if (!piece->at) {
        begin(pieces, piece);
    }
    const Piece last = pieces->last;
    if (!pieces->text || piece->which != last.which || piece->whole != last.whole ||
        piece->at != last.at + last.length) {
        return NULL;
    }
    memcpy(pieces->text + piece->at, piece->text, (size_t)piece->length);
    pieces->last = *piece;
    if (piece->at + piece->length < piece->whole) {
        return NULL;
    }
    char* const whole = pieces->text;
    pieces->text = NULL;
    pieces->is_whole = true;
    return whole;
}

bool pieces_lack(const Pieces* const pieces, const double now)
{
    return !pieces->is_whole && now - pieces->heard_at > longest_wait;
}

void pieces_clear(Pieces* const pieces)
{
    free(pieces->text);
    *pieces = (Pieces){.text = NULL};
}
