// SPDX-License-Identifier: ISC
/* ids.h - which ids of the user's own entries are in use or once were.  One that was
   given is not given again while its record stands: in an old song it would play
   another figure.  Inside the bank room. */
#pragma once

#include "bank.h"

#include <stddef.h>

enum { OWN_IDS = ID_MOST - ID_FIRST_OWN + 1 };

typedef struct {
    bool has[OWN_IDS];
} OwnIds;

bool ids_has(const OwnIds* ids, uint32_t id);

/* Others than own ids are no matter. */
void ids_add(OwnIds* ids, uint32_t id);
void ids_add_all(OwnIds* ids, const OwnIds* more);

/* Adds what a bank file's text gives as ids, fl:id by whatever prefix, be the sentence
   readable or not, or a comment: a number in another place is none. */
void ids_see(OwnIds* ids, const char* text, size_t size);

/* The lowest that isn't there; 0 if all are. */
uint32_t ids_free(const OwnIds* ids);

#define IDS_RECORD "given-ids.txt" /* in the user's folder; people may delete it */

/* Adds the ids that a record's text has. */
void ids_recall(OwnIds* ids, const char* text, size_t size);

/* The lines that a record lacks; NULL if it lacks none or there is no memory.  The caller
   frees. */
char* ids_lines(const OwnIds* ids, const OwnIds* recorded, bool is_new);
