// SPDX-License-Identifier: ISC
/* shelves.h - the bank as shelves: entries of a family side by side, families in the order
   in which they first come; and walking along them. */
#pragma once

#include "model.h"

/* The model's bank and shelves are this one's.  False, with all as it was, if memory ran
   out. */
bool shelves_fill(Model* model, Bank* bank);
void shelves_free(Model* model);

/* The entry before or after the one picked, `by` entries on; or at the ends. */
void shelves_walk(Model* model, EntryKind shelf, int by);

/* The first entry of the family before or after. */
void shelves_walk_family(Model* model, EntryKind shelf, int by);

/* Hands, feet or fill as the groove has it; of ENTRY_KINDS all three. */
void shelves_put_back(Model* model, EntryKind kind);
