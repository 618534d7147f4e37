// SPDX-License-Identifier: ISC
/* shortlist_view.h - what is kept, as rows under the staff, beside kept_shown.h.  Plain values,
   a part of the view. */
#pragma once

#include "kept_shown.h"
#include "vary_view.h"

/* A slot's; names are "" where they aren't known. */
typedef struct {
    char hands[KEPT_SHOWN_ROOM]; /* of the bar shown; UTF-8 */
    char fill[KEPT_SHOWN_ROOM];  /* of the phrase */
    FeetRow feet;                /* strokes where the row is seen */
} ShortlistRow;

typedef struct {
    int cursor; /* slot from 0 */
    ShortlistRow rows[KEPT_MAX];
} Shortlist;
