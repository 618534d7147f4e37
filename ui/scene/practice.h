// SPDX-License-Identifier: ISC
/* practice.h - the Practice page: the ladder as a staircase, a rung for each tempo, and beside
   it the dials.  The tempi are the engine's own. */
#pragma once

#include "target_list.h"

enum { RUNGS_MAX = 12 };

/* The rungs that have room, those around the one that plays. */
typedef struct {
    int count; /* 1: there is no ladder */
    int now;   /* of them; -1: none plays, for the clock is the host's */
    double tempo[RUNGS_MAX];
    double top;    /* where it ends */
    bool is_cut;   /* there are more before `top` */
    int64_t bars;  /* until the next; 0: it stays */
    bool has_more; /* there is a rung before the first */
} Rungs;

void practice_rungs(const View* view, int room, Rungs* rungs);

/* Where the staircase stands, and how many rungs have room. */
typedef struct {
    At title;
    At more; /* right end; in a small window left */
    Box stairs;
    int room;
} PracticePlaces;

PracticePlaces practice_places(const Geometry* geometry);

/* A dial by its place in dial.h's table; a small window has seven in a row, and shows one. */
Box practice_cell(const Geometry* geometry, int page, int column, int row);

/* The row of a small window that has a place of the table. */
int practice_page(int column, int row);

/* A rung: its line's left end, and how wide it is. */
typedef struct {
    At at;
    double wide;
} RungPlace;

RungPlace practice_rung(Box stairs, int rung, int count);

/* TargetsOf. */
void practice_targets(const View* view, const Geometry* geometry, TargetList* list);
