// SPDX-License-Identifier: ISC
/* list_fill.h - the lines of the open list: what is found of its shelf by what is typed
   (ui/find/wish.h), the best first under headings that say where; all of it by families, where
   what is typed tells nothing nearer from other. */
#pragma once

#include "../../plugin/engine/writing/playability.h"
#include "model.h"

void list_fill(Model* model);

/* True if the tempo decides which lines there are, and has become another. */
bool list_fill_is_old(const Model* model);

/* What a line of feet asks by itself, where a tempo or a limit is looked for, so that it is what
   the limit was held against; false where none is. */
bool list_fill_demand(const Model* model, int row, Playability* room, Demand* demand);
