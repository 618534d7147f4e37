// SPDX-License-Identifier: ISC
/* listing.h - the bank's entries as lines that people read: `fourlimb list`. */
#pragma once

#include "../find/wish.h"

typedef struct {
    const Wish* wish;
    int kind;       /* an EntryKind, or -1 for all of them */
    double minutes; /* for which a person is to play it */
} ListingAsked;

/* A status as in commands.h. */
int listing_print(const char* bundle, const ListingAsked* asked);
