// SPDX-License-Identifier: ISC
/* asking.h - nothing is written to disk without a word first: the first key that would write a
   phrase asks into which folder, and names the one it would take; the next ones are quick. */
#pragma once

#include "model.h"

/* The phrase as a MIDI file, with feel or exactly on the grid; or asks where. */
void asking_write(Model* model, bool straight);

/* What plays as a folder for a bandmate, or asks where. */
void asking_hand_out(Model* model);

/* Another name for what is kept, the older to begin with. */
void asking_kept(Model* model, int slot, const char* name);

/* A name for a groove, to begin with; whether an entry is to be deleted. */
void asking_groove(Model* model, const char* name);
void asking_delete(Model* model, EntryKind kind, int32_t id, const char* label);

/* Letters of the folder or the name. */
void asking_more(Model* model, uint32_t text);
void asking_less(Model* model);

/* A file was dropped on the window, "" for what is none: where a folder is asked for it is the
   file's, or itself; else what can be done is said. */
void asking_dropped(Model* model, const char* path);

/* The rest of a folder's name, as far as the disk leaves no choice. */
void asking_complete(Model* model);

/* Writes into the folder; nothing is done.  What else was asked is for who asked it. */
void asking_yes(Model* model);
void asking_no(Model* model);
