// SPDX-License-Identifier: ISC
/* roll.h - names of entries without what they play, as a session keeps them to
   say what is missing.  Inside the bank room. */
#pragma once

#include "bank.h"

enum { ROLL_MOST = 64 }; /* rows; a session plays five entries at a time */

typedef struct {
    EntryKind kind;
    uint32_t id;
    char* label;
    char* uri;
} RollRow;

typedef struct {
    int count;
    RollRow rows[ROLL_MOST]; /* texts owned */
} Roll;

/* Adds the rows of a text as roll_write makes it; what isn't readable there is
   left out. */
void roll_read(Roll* roll, const char* text);

/* Adds a row, unless there is one of the kind with this id. */
void roll_add(Roll* roll, EntryKind kind, uint32_t id, const char* label, const char* uri);

/* Takes the row of the kind with this id out, if there is one. */
void roll_drop(Roll* roll, EntryKind kind, uint32_t id);

/* "" for no rows; NULL if there is no memory.  The caller frees. */
char* roll_write(const Roll* roll);

void roll_clear(Roll* roll);

/* The class of a kind after fl: */
extern const char* const entry_class_names[ENTRY_KINDS];

/* A kind in words: "feet figure". */
extern const char* const entry_words[ENTRY_KINDS];
