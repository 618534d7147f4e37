// SPDX-License-Identifier: ISC
/* vary_place.h - where rows of feet stand: under the staff, in its time, so that one compares by
   looking straight down.  Numbers stand behind the bar where the next one's beat leaves them
   room, else before it. */
#pragma once

#include "geometry.h"

/* Where the columns of a row stand, from the window's left. */
typedef struct {
    double sign; /* middle of what says that it plays, or comes */
    double name;
    double name_room; /* and of what is said behind it, which ends there */
    double right;     /* right end of the right foot's rate, */
    double left;      /*   and of the left's */
    double disc;      /* middle */
    double word;
    double word_room; /* 0: none */
    double from;      /* the bar's one, */
    double to;        /*   and its end */
    BarSpace space;
} RowPlaces;

RowPlaces vary_place_columns(const Geometry* geometry, const View* view);

/* The first variation, the second, and growing. */
enum { VARY_DIALS = 3 };

/* The page of variations. */
typedef struct {
    double head;           /* base line of the words over the rows */
    Box dials[VARY_DIALS]; /* beside each other over the bar */
    Box rows_box;
    double row_height;
    int rows; /* that there is room for */
} VaryPlaces;

VaryPlaces vary_place_of(const Geometry* geometry);

/* The line of a row, from the one on top. */
Box vary_place_row(const VaryPlaces* places, int line);
