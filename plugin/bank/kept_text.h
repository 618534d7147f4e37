// SPDX-License-Identifier: ISC
/* kept_text.h - kept selections as Turtle: an fl:KeptSelection each, with its slot, its name, its
   values by the symbols of their controls, and its entries as texts inside, since two may
   have another figure each under the same name.  Inside the bank room. */
#pragma once

#include "kept_selection.h"

/* "" if all slots are empty; NULL if there is no memory.  The caller frees. */
char* kept_text_write(KeptSelection* const slots[KEPT_MAX]);

/* Fills slots that are empty.  Says what is wrong, a line each; false if there is no
   memory. */
bool kept_text_read(Bank* beside, const char* text, KeptSelection* slots[KEPT_MAX],
                    Messages* messages);
