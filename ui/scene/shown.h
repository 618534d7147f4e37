// SPDX-License-Identifier: ISC
/* shown.h - a bar as it is drawn large in the staff: the one now playing, or the
   first beat of the next. */
#pragma once

#include "brush.h"

/* One of the two bars that are seen, and how it is drawn. */
typedef struct {
    const SeenBar* bar;
    double from; /* x of its bar line */
    double to;   /* nothing is drawn from here on */
    BarSpace space;
    bool is_next;
} Shown;

double shown_x(const Shown* shown, double tick);

/* Right limbs stand up from their line. */
bool shown_points_up(int limb);

/* Words where a limb changes to another voice than the label beside its row names. */
void shown_words(const Brush* brush, const Shown* shown, int limb);
