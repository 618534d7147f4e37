// SPDX-License-Identifier: ISC
/* far.h - bars of a long phrase that are told of in words: by letter, number, the fill's name,
   or that they are as the first of their letter. */
#pragma once

#include "brush.h"

/* True if the bar is written as the phrase's first with its letter, which it isn't itself:
   the same figures from the same places on, and no fill.  A crash on a line, and what a
   player's liberty adds or leaves out, make no difference. */
bool far_is_simile(const View* view, const SeenBar* bar);

void draw_far_bar(const Brush* brush, const Target* target, const SeenBar* bar);
