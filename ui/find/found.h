// SPDX-License-Identifier: ISC
/* found.h - a list looked through: what is found in it, the best first, and what to leave out of
   a wish that finds nothing. */
#pragma once

#include "match.h"

/* What is looked through, and how. */
typedef struct {
    const AskedEntry* entries; /* of one kind, in the order of the list */
    int count;
    double tempo; /* where the wish has none; 0: each at its own */
    Playability* room;
} FoundIn;

/* Matches of what is found, in order as match.h has it; each `index` is that of the entry.  How
   many; there is room for all. */
int found_list(const Wish* wish, const FoundIn* in, Match* matches);

/* The same without the matches. */
int found_count(const Wish* wish, const FoundIn* in);

/* Of a wish that finds nothing: how much each thing alone keeps out, such as
   "nothing: without gallop 12, without at most 7 a second 3". */
void found_loosen(const Wish* wish, const FoundIn* in, char said[WISH_SAID_ROOM]);
