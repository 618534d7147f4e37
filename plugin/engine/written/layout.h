// SPDX-License-Identifier: ISC
/* layout.h - a figure on another grid, cut or repeated to another cycle, and
   displaced: the order of its strokes stays, their spacing follows. */
#pragma once

#include "figure.h"

/* What is asked of a figure; zeros leave it as written. */
typedef struct {
    int32_t grid;  /* steps in a quarter, 1 to 12 */
    int32_t cycle; /* steps, 1 to 64 */
    int32_t shift; /* steps later, negative earlier, wrapping in the cycle */
} Regrid;

/* True if both ask the same. */
bool layout_regrid_equal(Regrid a, Regrid b);

/* The figure's steps in a new order and spacing: step k of the cycle is the
   figure's step (k - shift) mod cycle, counted round in its written steps. */
typedef struct {
    const Figure* figure;
    int64_t step;    /* ticks from step to step */
    int64_t written; /* steps in the figure as written */
    int64_t cycle;   /* steps until it starts again */
    int64_t shift;   /* 0 to cycle - 1 */
    uint32_t bars;   /* bars it keeps to; 0 rolls over the bar line */
    bool regridded;
    bool bends; /* where regridded: the new grid is binary */
} Layout;

Layout layout_make(const Figure* figure, Regrid regrid);

/* Ticks until it starts again. */
int64_t layout_ticks(const Layout* layout);

/* Appends the strokes with from <= tick < to, 0 <= from, to <= layout_ticks, with
   `offset` added to each tick. */
void layout_strokes(const Layout* layout, int64_t from, int64_t to, int64_t offset,
                    StrokeList* list);
