// SPDX-License-Identifier: ISC
/* road.h - the bars of a sheet with their repeats: which are written, and how often each
   stretch is played.  Pure. */
#pragma once

#include "../scene/sheet.h"

/* Bars in a row that are played `times` times; with an ending, the last of them is replaced
   in the second of two times by the bar `second`. */
typedef struct {
    int first; /* from 0 */
    int count;
    int times;
    int second; /* -1: none */
} RoadStretch;

typedef struct {
    int count;
    RoadStretch stretches[FORM_BARS_MAX];
} Road;

/* From the bars' rows alone: of what can be repeated from a bar on, what spares most. */
Road road_make(const Sheet* sheet);

/* The row of a bar, from 0. */
const SheetBar* road_bar(const Sheet* sheet, int bar);
