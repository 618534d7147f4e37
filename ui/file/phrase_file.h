// SPDX-License-Identifier: ISC
/* phrase_file.h - a phrase as it plays, written as a MIDI
   file: the way into a track that will be edited by hand.  Waits for the disk:
   for a window's thread, never the audio thread. */
#pragma once

#include "../../plugin/engine/play/engine.h"

enum { PHRASE_PATH_ROOM = 4096, PHRASE_WHY_ROOM = 1024, PHRASE_NAME_ROOM = 256 };

typedef struct {
    const Library* library;
    const Settings* settings; /* the clock is the file's own, whatever it says */
    Meter meter;
    double tempo;       /* quarter notes a minute, 1 to 2000 */
    int bars;           /* from bar 0 */
    const char* name;   /* UTF-8; what the file and its track are called */
    bool straight;      /* without feel: on the grid, each level at one loudness */
    const char* folder; /* where to; "~/" is the home folder; NULL: that of phrase_folder */
} Phrase;

/* The music folder of the XDG user directories, or the home folder where none is named. */
const char* phrase_folder(void);

/* A name that can be a file's: cut to what one can have, no slashes, no dot in front. */
void phrase_file_name(const char* name, char plain[PHRASE_NAME_ROOM]);

/* The folder that a wish names: "~/" is the home folder, NULL or "" that of phrase_folder. */
void phrase_file_place(const char* wanted, char folder[PHRASE_PATH_ROOM]);

/* Writes NAME.mid ("NAME, straight.mid"), or "NAME 2.mid" and so on, never over a file that is there, into
   its folder.  Fills `path`; false, with the reason and what to do in `why`, if that
   failed. */
bool phrase_file(const Phrase* phrase, char path[PHRASE_PATH_ROOM], char why[PHRASE_WHY_ROOM]);
