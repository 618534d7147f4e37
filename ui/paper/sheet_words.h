// SPDX-License-Identifier: ISC
/* sheet_words.h - what a chart says besides its strokes: names of what each letter plays, and
   what the feet have to do. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "../../plugin/engine/groove/groove.h"
#include "../scene/sheet.h"

/* The label of what the bank has by that id; "" where it has none, or for no figure. */
const char* sheet_words_name(const Bank* bank, EntryKind kind, const Figure* figure);

/* Parts and fill by name, tempo, what the feet have to do at it, when all meet again.  The
   sheet has its meter already. */
void sheet_words_fill(Sheet* sheet, const Bank* bank, const Selection* selection, double tempo,
                      bool left_handed);
