// SPDX-License-Identifier: ISC
/* export.h - what the window does with files. */
#pragma once

#include "../desk/model.h"

/* The folder that is meant where none was named. */
void export_folder(char folder[FOLDER_ROOM]);

/* Writes the phrase as it plays, or `straight` on the grid, into the folder that was asked
   for, and says where, or why not: then it is asked for again. */
void export_write(Model* model, bool straight);
