// SPDX-License-Identifier: ISC
/* page.h - a bank file's text with one entry put in: everything else in it, read
   or unreadable, stays byte for byte.  Inside the bank room; opens no files. */
#pragma once

#include "bank.h"

#include <stddef.h>

enum { PAGE_WHY_ROOM = 512 };

typedef struct {
    EntryKind kind;
    uint32_t id;
    char* uri; /* owned */
} PageEntry;

/* The entry of a kind with this id in a text; false if there is none.  Fills
   *entry, whose uri the caller frees. */
bool page_find(const char* text, size_t size, EntryKind kind, uint32_t id, PageEntry* entry);

/* The text with `written`, as write_figure makes it, in place of what describes
   its subject, or at the end, of *put_size bytes.  It was read again, and holds all it held before
   and the entry; the caller frees.  NULL, with the reason in `why`, if no such
   text can be made. */
char* page_put(const char* text, size_t size, const char* written, const PageEntry* entry,
               size_t* put_size, char why[PAGE_WHY_ROOM]);

enum { PAGE_IDS = ID_MOST - ID_FIRST_OWN + 1 }; /* the user's own */

/* Marks the numbers from ID_FIRST_OWN to ID_MOST that stand anywhere in a text: ids, be they
   readable as such or not. */
void page_see_ids(const char* text, size_t size, bool seen[PAGE_IDS]);
