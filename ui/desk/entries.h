// SPDX-License-Identifier: ISC
/* entries.h - what the plugin plays and the user's files haven't: its session's own
   entries.  With them the bank of the window is the plugin's. */
#pragma once

#include "pieces.h"

typedef struct Model Model;

/* The session's own entries, as the plugin tells them. */
typedef struct {
    Pieces pieces;
    char* known; /* what the bank was read with last; NULL: nothing yet */
    int32_t known_bank;
} SessionEntries;

/* A piece of them was told; what there is of them goes. */
void entries_told(Model* model, const LV2_Atom* value);
void entries_close(Model* model);
