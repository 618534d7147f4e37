// SPDX-License-Identifier: ISC
/* kept_list.h - what a session keeps: up to KEPT_MAX selections, each in a slot that doesn't
   move, and the one that stood where another stands now, to be taken back.  As a Turtle text
   it is what a host keeps and what a window is told.  Made whole, then only read: any thread
   may hold it; made and freed away from the audio thread. */
#pragma once

#include "kept_selection.h"

typedef struct KeptList KeptList;

enum { KEPT_WHY_ROOM = 256 };

/* Reads a text, over the factory's bank that `beside` has too; "" is an empty list.  What is damaged, foreign or too much is left out and
   told by kept_list_said; the rest is there.  NULL if there is no memory. */
KeptList* kept_list_read(Bank* beside, const char* text);

/* The list with `kept` in a slot, 1 to KEPT_MAX; NULL empties it.  Holds `kept`.  NULL, with
   the reason in `why`, if that would be more than a host can keep, or there is no memory. */
KeptList* kept_list_with(const KeptList* list, uint32_t slot, KeptSelection* kept,
                         char why[KEPT_WHY_ROOM]);

/* The list as it was before its last change of a slot; the same if there was none.  NULL
   likewise. */
KeptList* kept_list_back(const KeptList* list, char why[KEPT_WHY_ROOM]);

/* What is kept in a slot, 1 to KEPT_MAX; NULL: nothing, or no slot, or no list. */
const KeptSelection* kept_list_at(const KeptList* list, uint32_t slot);

/* The first empty slot, 0 if all are full. */
uint32_t kept_list_free_slot(const KeptList* list);

/* The text, "" if nothing is kept, and its bytes. */
const char* kept_list_text(const KeptList* list, size_t* length);

/* What was wrong with the text that it was read from, a line each; "" if nothing was. */
const char* kept_list_said(const KeptList* list);

/* Puts the libraries of what is kept in their places.  What a slot that is empty held before
   stays there, for who still plays it.  Without a list nothing is done. */
void kept_list_lay(const KeptList* list, Library* library);

/* One more holder. */
KeptList* kept_list_hold(KeptList* list);
void kept_list_free(KeptList* list);
