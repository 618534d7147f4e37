// SPDX-License-Identifier: ISC
/* export.h - what the window does with files. */
#pragma once

#include "../desk/model.h"

/* For a desk's output, which need no handle: the folder that is meant where none was named;
   the one of a file that was dropped;
   the rest of a folder's name that is typed, with what there is to choose. */
void export_folder(void* handle, char folder[FOLDER_ROOM]);
bool export_folder_of(void* handle, const char* path, char folder[FOLDER_ROOM]);
void export_complete(void* handle, char folder[FOLDER_ROOM], char found[FOLDERS_ROOM]);

/* Writes the phrase as it plays, or `straight` on the grid, into the folder that was asked
   for, and says where, or why not: then it is asked for again. */
void export_write(Model* model, bool straight);

/* Writes what plays as a folder for a bandmate (paper/handout.h), likewise. */
void export_handout(Model* model);
