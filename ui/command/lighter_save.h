// SPDX-License-Identifier: ISC
/* lighter_save.h - figures that were lightened become the user's own entries. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "lighter.h"

/* Saves each figure that has fewer strokes than before under this label, with a new id, in
   the user's folder, and says so; a second of one kind has a 2 behind it, and so on.  False,
   with a message, if one can't be saved; those before it are. */
bool lighter_save(const Lighter* lighter, const Bank* bank, const char* label);
