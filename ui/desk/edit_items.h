// SPDX-License-Identifier: ISC
/* edit_items.h - the panel of the editor: lengths and grids, back and on, names and
   saving, and the phrase as a file. */
#pragma once

#include "model.h"

/* A click or a key at an item of the panel; `by` steps up or down. */
void edit_items_do(Model* model, EditItem item);
void edit_items_step(Model* model, EditItem item, int by);
