// SPDX-License-Identifier: ISC
/* entry_names.h - names of entries without what they play, as a session keeps them to
   say what is missing.  Inside the bank room. */
#pragma once

#include "bank.h"

enum { ENTRY_NAMES_MOST = 64 }; /* rows; a session plays five entries at a time */

typedef struct {
    EntryKind kind;
    uint32_t id;
    char* label;
    char* uri;
} EntryName;

typedef struct {
    int count;
    EntryName rows[ENTRY_NAMES_MOST]; /* texts owned */
    bool failed;                      /* there was no memory for one: they aren't all */
} EntryNames;

/* Adds the rows of a text as entry_names_write makes it; what isn't readable there is
   left out. */
void entry_names_read(EntryNames* entry_names, const char* text);

/* Adds a row, unless there is one of the kind with this id. */
void entry_names_add(EntryNames* entry_names, EntryKind kind, uint32_t id, const char* label,
                     const char* uri);

/* Takes the row of the kind with this id out, if there is one. */
void entry_names_drop(EntryNames* entry_names, EntryKind kind, uint32_t id);

/* "" for no rows; NULL if there is no memory, or was none for a row.  The caller frees. */
char* entry_names_write(const EntryNames* entry_names);

void entry_names_clear(EntryNames* entry_names);
