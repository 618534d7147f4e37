// SPDX-License-Identifier: ISC
/* limb_lines.h - a figure as lines of steps again, as people write them.  What is read
   from the lines is the figure, stroke for stroke and tick for tick. */
#pragma once

#include "../engine/written/figure.h"

typedef struct {
    uint8_t limb;
    uint8_t voice;
    int grid;
    int over;
    char* steps; /* owned */
} LimbLine;

typedef struct {
    int count;
    LimbLine lines[LIMB_LINES_MAX];
} LimbLines;

/* Fills `lines`, which the caller frees.  False, with nothing to free, if there
   is no memory, or there are no lines that say the figure: which no figure that
   the bank has read can be.  Its id doesn't matter. */
bool limb_lines(const Figure* figure, LimbLines* lines);

void limb_lines_free(LimbLines* lines);
