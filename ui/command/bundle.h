// SPDX-License-Identifier: ISC
/* bundle.h - where the plugin's bundle is, and names of what its bank holds. */
#pragma once

#include "../../plugin/bank/bank.h"

#include <stdbool.h>

enum { BUNDLE_PATH_ROOM = 4096 };

/* Finds the bundle: `asked` if not NULL, beside this program, in the user's LV2
   folder, or wherever hosts look.  False, with a message, if there is none. */
bool bundle_find(const char* asked, char path[BUNDLE_PATH_ROOM]);

/* Opens the bundle's bank; its diagnostics go to standard error.  NULL, with a
   message, if it can't. */
Bank* bundle_bank(const char* bundle);

/* The entry that a person means: by its label (in any case), its name in the
   Turtle, or its id.  NULL, with a message that says what is near, if none. */
const EntryInfo* bundle_entry(const Bank* bank, EntryKind kind, const char* asked);
