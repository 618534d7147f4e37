// SPDX-License-Identifier: ISC
/* export.h - what the window does with files. */
#pragma once

#include "../desk/model.h"

/* Writes the phrase as it plays, or `straight` on the grid, into the user's music
   folder, and says where, or why not. */
void export_write(Model* model, bool straight);
