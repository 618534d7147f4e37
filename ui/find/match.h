// SPDX-License-Identifier: ISC
/* match.h - whether an entry is what somebody looks for, and which comes first.  Pure: the same
   wish and entry, the same answer.

   Each word must stand somewhere, and counts where it stands first of these:
     1  it and the others are the name, and no more
     2  a word of the name
     3  the begin of a word of the name
     4  elsewhere in the name
     5  in the family
     6  the grid is its own
     7  the begin of a word of what is said of it
   An entry stands where its weakest word does; entries there come in this order:
     a  the places of its words together
     b  how far the tempo is from its range: 0 within, else the ratio of both; no range: last
     c  its id
   So a tempo keeps nothing out: what is made for it comes first. */
#pragma once

#include "asked.h"

typedef enum {
    MATCH_NAME = 1,
    MATCH_WORD,
    MATCH_BEGIN,
    MATCH_WITHIN,
    MATCH_FAMILY,
    MATCH_GRID,
    MATCH_COMMENT,
    MATCH_NOWHERE
} MatchPlace;

typedef struct {
    bool found;
    MatchPlace place; /* of its weakest word; MATCH_NAME without any */
    int places;       /* of all together */
    double off;       /* the tempo from its range: 0 within, or where none is said */
    int32_t id;
    int index; /* the caller's own */
} Match;

/* `tempo`: where the wish has none; 0: each at its own, a figure at the middle of its range.
   `room` is overwritten. */
Match match_entry(const Wish* wish, const AskedEntry* entry, double tempo, Playability* room);

/* The tempo at which it is looked at. */
double match_tempo(const Wish* wish, const AskedEntry* entry, double tempo);

/* In this order.  Where the wish has neither words nor tempo that of the list is left. */
void match_sort(const Wish* wish, Match* matches, int count);

/* What stands over those that come together: "in the name". */
const char* match_heading(const Wish* wish, const Match* match);
bool match_same_heading(const Wish* wish, const Match* a, const Match* b);
