// SPDX-License-Identifier: ISC
/* entry_asked.h - entries of a bank by what a person types for them. */
#pragma once

#include "bank.h"

/* By its label (in any case), its name in the Turtle with or without its prefix, or its id;
   NULL if there is none. */
const EntryInfo* entry_asked(const Bank* bank, EntryKind kind, const char* asked);

/* The labels of some that are called nearly so, in quotes: "; near it: ..." or "". */
void entry_asked_near(const Bank* bank, EntryKind kind, const char* asked, char* text, size_t room);
