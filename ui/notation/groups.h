// SPDX-License-Identifier: ISC
/* groups.h - how the beats of a bar of five, seven or eleven are grouped: in twos and threes,
   each begun by what is struck hardest.  Read off the strokes, as a drummer who writes a groove
   down does, since neither meter nor Turtle say it.  Pure. */
#pragma once

#include "../scene/sheet.h"

/* Fills groups and group_count of the sheet from its bars.  None, where beats are quarters or
   longer, where there are fewer than five, and where all groups are threes or all twos: those
   are beats of their own. */
void groups_find(Sheet* sheet);
