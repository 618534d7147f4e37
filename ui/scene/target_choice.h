// SPDX-License-Identifier: ISC
/* target_choice.h - the words of a choice, side by side in its box. */
#pragma once

#include "target_list.h"

/* Which word of a choice is at x. */
int target_choice_at(const Target* target, Control control, double x);

/* Where the words of a choice stand: left of word i of n in the box; i = n is its
   right end. */
double target_choice_edge(Box box, Control control, int word);
int target_choice_words(Control control);
