// SPDX-License-Identifier: ISC
/* edit_parts.h - from the feet to the hands to the fill and back, without leaving the editor:
   each keeps what was changed and what takes it back. */
#pragma once

#include "model.h"

/* Feet, hands, and where the phrase has a fill its hands and, if it has any, its feet. */
void edit_parts_next(Model* model, int by);
