// SPDX-License-Identifier: ISC
/* songfile.h - a song into a file whose kind its name's ending says. */
#pragma once

#include "song.h"
#include "wav.h"

typedef enum { SONGFILE_NONE, SONGFILE_MIDI, SONGFILE_WAV } SongFile;

/* .wav; .mid, .midi or no ending is MIDI; NONE for any other. */
SongFile songfile_kind(const char* path);

/* Ends the song and writes it; says on standard output what was written.
   `soundfont` (as asked, or NULL), rate and bits are of a WAV file.  False, with
   a message, if it can't be done. */
bool songfile_write(Song* song, const char* path, bool force, const WavForm* form);
