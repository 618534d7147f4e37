// SPDX-License-Identifier: ISC
/* user_bank.h - the user's own figures, kit maps and grooves: each in a file of its own in the user's
   bank folder, such as feet-1005.ttl, whole or not at all.  A file is gone over only while
   it is as it was saved, and the older is kept as feet-1005.ttl.bak; one that a person
   wrote or changed is never written to.  Waits for the disk, for nobody else: never on the
   audio thread. */
#pragma once

#include "ids.h"

enum { USER_BANK_WHY_ROOM = 1024, USER_BANK_NAME_ROOM = 256 };

typedef struct {
    EntryKind kind;
    uint32_t id;                    /* 0: nothing was saved */
    char file[USER_BANK_NAME_ROOM]; /* its name in the folder */
} Saved;

/* Saves the one figure or kit map that a Turtle text describes; it needs a label.  A text
   with an own id goes over the entry of its kind that was saved under it, or becomes that
   entry if no file of the folder has the id.  Any other, and where the entry's file isn't
   as it was saved, gets a new id: one that no file of the folder has or ever had, and that
   isn't in use by `in_use`, which may be NULL.  `folder` is made if it isn't there; NULL
   means that none can be named.  With id 0 the reason and what to do are in `why`, and
   nothing changed. */
Saved user_bank_save(const char* folder, const char* text, size_t size, const OwnIds* in_use,
                     char why[USER_BANK_WHY_ROOM]);

/* The same for what may name others, such as a groove: those that the bank has. */
Saved user_bank_save_over(const Bank* bank, const char* folder, const char* text, size_t size,
                          const OwnIds* in_use, char why[USER_BANK_WHY_ROOM]);

/* True if a bank that was opened since has the saved entry from its file; else `why` says
   what left it out. */
bool user_bank_loaded(const Bank* bank, const Saved* saved, char why[USER_BANK_WHY_ROOM]);

/* Takes an own entry out: its file, which must hold nothing else, gets the name
   feet-1005.ttl.deleted, or .deleted-2 and so on, and whoever gives it back the old name has
   the entry again.  Its id isn't given to another.  False, with the reason in `why`, and nothing
   changed: also where a groove of the bank plays it.  `aside` is the file's new name. */
bool user_bank_delete(const Bank* bank, const char* folder, EntryKind kind, uint32_t id,
                      char aside[USER_BANK_NAME_ROOM], char why[USER_BANK_WHY_ROOM]);

/* A whole file of a bank, ended by a 0; NULL if it can't be read.  The caller frees. */
char* user_bank_load(const char* path, size_t* size);
