// SPDX-License-Identifier: ISC
/* songs.h - the songs of a Turtle file or text, read over a bank that has the grooves and
   figures they name.  Allocates and reads files; not for the audio thread. */
#pragma once

#include "../engine/song/song.h"
#include "bank.h"

typedef struct {
    Song* songs; /* in the order of their places in the file; those that are right */
    uint32_t count;
    uint32_t met;            /* songs that there are, right or wrong */
    Diagnostics diagnostics; /* what is wrong, with file and line */
    bool failed;             /* memory ran out */
} Songs;

/* Whatever comes of it, songs_free is to be called. */
void songs_read(Songs* file, const Bank* bank, const char* path);

/* The same of a text; `name` stands for the file in messages. */
void songs_text(Songs* file, const Bank* bank, const char* name, const char* text, size_t size);

void songs_free(Songs* file);
