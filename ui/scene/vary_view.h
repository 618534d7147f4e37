// SPDX-License-Identifier: ISC
/* vary_view.h - feet as a row under the staff, in its time; and the page of variations, a row
   for each.  Plain values, a part of the view. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

enum {
    FEET_ROW_STROKES = 160, /* of a bar: two feet at the closest that is made, 6 quarters */
    FEET_ROW_SPANS = 32,
    VARY_ROWS_MAX = 64, /* as many numbers as the port has */
    VARY_WHY_ROOM = 96,
};

/* By the limits that the plugin goes by: hard is ours, from 7 strokes of a foot a second over
   three, or two within 120 ms. */
typedef enum { PLAYABLE_UNKNOWN, PLAYABLE_YES, PLAYABLE_HARD, PLAYABLE_NO } Playable;

typedef struct {
    int32_t tick; /* from the bar line, bent as the staff's are */
    uint8_t limb; /* Limb: a foot */
    uint8_t level;
} RowStroke;

typedef struct {
    int32_t from; /* ticks from the bar line */
    int32_t to;
} RowSpan;

/* What is asked of the feet. */
typedef struct {
    double rates[2]; /* right, left: strokes in the busiest second */
    Playable playable;
} FeetVerdict;

/* What the feet do in the bar shown. */
typedef struct {
    FeetVerdict verdict;
    uint32_t count;
    RowStroke strokes[FEET_ROW_STROKES];
    uint32_t spans;
    RowSpan beyond[FEET_ROW_SPANS]; /* where nobody could */
} FeetRow;

typedef struct {
    int number;              /* of the operation; 0: as chosen */
    const char* name;        /* what a drummer would say */
    const char* help;        /* a sentence */
    bool is_known;           /* it was looked at */
    char why[VARY_WHY_ROOM]; /* it isn't offered, as it says; "": it is */
    FeetRow feet;            /* of what is offered; its strokes where the row is seen */
} VaryRow;

typedef struct {
    bool is_deep;     /* the rows are made of what the first variation makes */
    int first_made;   /* its number */
    int count;        /* of rows */
    int offered;      /* of those looked at, the first row not counted */
    int first;        /* row on top */
    int cursor;       /* row */
    double limits[2]; /* strokes a second that rows are judged by: of the right foot, the left */
    int playing[2];   /* numbers that sound while others wait */
    int grown[2];     /* the rows that feet which grow have come to, in place of those: by level,
                       -1 where they don't grow; VARY_ROWS_MAX: to none of the level's */
    VaryRow rows[VARY_ROWS_MAX];
} VaryPage;
