// SPDX-License-Identifier: ISC
/* list_sort.h - the lines of the open list in the order of a column, kept for each kind while
   the window is open.  Without one they stand under their headings. */
#pragma once

#include "model.h"

/* The column after the one that sorts, so many on, among those that the list has. */
ListColumn list_sort_next(const Model* model, int by);

/* Sorts by a column; by the same once more the other way round, then by none. */
void list_sort_choose(Model* model, ListColumn column);

/* The other way round. */
void list_sort_turn(Model* model);

/* Puts the lines in order, without headings; nothing where no column sorts.  `rates`, of each
   line as it stands before, is asked for by columns of strokes a second alone.  Lines that are
   alike stay in their order. */
void list_sort(Model* model, const double* rates);
