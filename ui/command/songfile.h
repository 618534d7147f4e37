// SPDX-License-Identifier: ISC
/* songfile.h - a song into a file whose kind its name's ending says. */
#pragma once

#include "reel.h"
#include "wav.h"

typedef enum { SONGFILE_NONE, SONGFILE_MIDI, SONGFILE_WAV } SongFile;

/* .wav; .mid, .midi or no ending is MIDI; NONE for any other. */
SongFile songfile_kind(const char* path);

/* Plays the song and writes it; says on standard output what was written.
   The form is of a WAV file, its soundfont as asked, or NULL.  `seconds`, if it isn't
   NULL, becomes the file's length.  False, with a message, if it can't be done. */
bool songfile_write(Reel* song, const char* path, bool force, const WavForm* form, double* seconds);
