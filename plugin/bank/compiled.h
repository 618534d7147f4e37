// SPDX-License-Identifier: ISC
/* compiled.h - the factory's bank as the build has read it (ttl/compile.c), so that no
   instance waits for that.  Inside the bank room. */
#pragma once

#include "described.h"
#include "entries.h"

typedef struct {
    uint64_t contents; /* of the folder it was made from, see stamp.h */
    DescribedList described;
    Entries entries[ENTRY_KINDS];
} Compiled;

/* What of a bank is compiled. */
const Entries* bank_entries(const Bank* bank, EntryKind kind);
const DescribedList* bank_described(const Bank* bank);

extern const Compiled compiled_factory;
