// SPDX-License-Identifier: ISC
/* single.h - one figure or kit map from a Turtle text, such as a draft that a
   window sends or a session holds.  Allocates; not for the audio thread. */
#pragma once

#include "bank.h"

#include <stdatomic.h>

typedef struct {
    EntryKind kind; /* a figure's or ENTRY_KIT */
    EntryInfo info; /* id 0 and label "" if not stated */
    union {         /* as the kind is */
        Figure figure;
        Groove groove;
        Kit kit;
    };
    char* text; /* as it was read */
    atomic_uint holders;
} Single;

enum { SINGLE_WHY_ROOM = 512 };

/* Reads `size` bytes that describe exactly one figure or kit map.  `name` stands
   for the file in messages.  NULL, with the reason in `why`, if they don't. */
Single* single_read(const char* name, const char* text, size_t size, char why[SINGLE_WHY_ROOM]);

/* The same of any kind, over a bank: a groove's figures are the bank's, which must outlive
   it. */
Single* single_read_over(const Bank* bank, const char* name, const char* text, size_t size,
                         char why[SINGLE_WHY_ROOM]);

/* One more holder: it is freed when all have called single_free.  NULL is held by nobody. */
Single* single_hold(Single* single);

void single_free(Single* single);
