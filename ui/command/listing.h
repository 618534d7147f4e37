// SPDX-License-Identifier: ISC
/* listing.h - the bank's entries as lines that people read: `fourlimb list`. */
#pragma once

#include "request.h"

/* Of a kind, an EntryKind, or -1 for all of them.  A status as in commands.h. */
int listing_print(const char* bundle, const Request* request, int kind);
