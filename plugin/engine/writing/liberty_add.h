// SPDX-License-Identifier: ISC
/* liberty_add.h - what is played besides what is written: the second half of liberty.h's
   rules.  Pure. */
#pragma once

#include "liberty_bar.h"

/* Adds what may come at a step of the bar's grid, ticks from the bar line as written. */
void liberty_add_at(const LibertyBar* bar, int64_t in_bar, StrokeList* list);
