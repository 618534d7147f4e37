// SPDX-License-Identifier: ISC
/* write_figure.h - entries as Turtle text in the bank's vocabulary, laid out by
   serd: a person can read it, and the bank reads the same values from it.
   Allocates; not for the audio thread. */
#pragma once

#include "bank.h"

/* A figure with its texts.  Of `info` count: uri (made up if ""), label, comment,
   family_uri, tempi; what is "" or 0 is left out, so is a NULL.
   The id is info's; 0 leaves it out.  The caller frees; NULL if there is no memory
   or the figure breaks the promises of figure.h. */
char* write_figure(const Figure* figure, const EntryInfo* info);

/* A value of any kind that names no other entry, likewise. */
char* write_entry(EntryKind kind, const void* value, const EntryInfo* info);

/* A value of any kind that names others of a bank, likewise. */
char* write_entry_of(const Bank* bank, EntryKind kind, const void* value, const EntryInfo* info);

/* One entry of a bank, to be named by what it is and its id. */
typedef struct {
    EntryKind kind;
    uint32_t id;
} EntryPick;

/* Those of the picks that the bank has, in one text, and of the user's own
   figures those that a picked groove plays.  "" if that is nothing. */
char* write_entries(const Bank* bank, const EntryPick* picks, size_t count);
