// SPDX-License-Identifier: ISC
/* write_song.h - a song's plan as Turtle that a person can go on with, and that is read as the same
   song.  Allocates; not for the audio thread. */
#pragma once

#include "../engine/song/song.h"
#include "bank.h"

/* What it picks is named by its label in the bank, else by its id.  The caller frees; NULL if there
   is no memory. */
char* write_song(const Song* song, const Bank* bank);
