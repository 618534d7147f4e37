// SPDX-License-Identifier: ISC
/* list.h - the open list: finding, walking and hearing.  And the list of keys, which is
   looked through alike. */
#pragma once

#include "model.h"

void list_open(Model* model, EntryKind shelf);

/* Whichever is open.  `keep`: what is chosen; else what played when it was opened plays
   again. */
void list_close(Model* model, bool keep);

/* The letters that names or families must have: one more, one less, none. */
void list_find_more(Model* model, uint32_t text);
void list_find_less(Model* model);
void list_find_all(Model* model);

/* Sorts by a column, or by one so many on; the other way round. */
void list_sort_at(Model* model, ListColumn column);
void list_sort_by(Model* model, int by);
void list_sort_round(Model* model);

/* Selects the entry so many lines on, and lets it be heard; or a line. */
void list_walk(Model* model, int by);
void list_choose(Model* model, int line);

/* What is open has other lines on top. */
void list_scroll(Model* model, int lines);
int list_rows_seen(const Model* model);

/* Fills in what the lines seen ask of the feet. */
void list_measure(Model* model);

/* The shelves are others: the open list has what is found in them now. */
void list_refresh(Model* model);
