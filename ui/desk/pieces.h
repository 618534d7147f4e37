// SPDX-License-Identifier: ISC
/* pieces.h - a long text that the plugin tells piece by piece, put together. */
#pragma once

#include "../../plugin/talk/encode.h"

typedef struct {
    char* text; /* so far; owned */
    Piece last; /* its text isn't looked at */
    double heard_at;
    bool is_whole;
} Pieces;

/* A piece was told, at a time in seconds: the text, which the caller owns from now on, if that
   was its last; NULL if not, or something was lost on the way. */
char* pieces_take(Pieces* pieces, const Piece* piece, double now);

/* True if the rest isn't coming: it is asked for again. */
bool pieces_lack(const Pieces* pieces, double now);

void pieces_clear(Pieces* pieces);
