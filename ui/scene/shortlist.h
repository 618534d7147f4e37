// SPDX-License-Identifier: ISC
/* shortlist.h - the state that shows what is kept, each as a row under the staff. */
#pragma once

#include "brush.h"
#include "vary_place.h"

typedef struct {
    double title; /* base line of the words over the rows */
    Box lots[2];
    double pair;  /* x */
    Box plays;    /* the dial that says which plays */
    double heads; /* base line of the columns' names */
    double rule;
    Box rows;
    double row_height;
    bool has_hands; /* under the names */
    double name_room;
    double marks; /* middle of the pair's triangles */
} ShortlistPlaces;

ShortlistPlaces shortlist_places(const Geometry* geometry, const View* view);

void shortlist_targets(const View* view, const Geometry* geometry, TargetList* list);
void shortlist_draw(const Brush* brush);

/* The row that sounds, as the playhead crosses it; false if it isn't seen. */
bool shortlist_sounds(const View* view, const Geometry* geometry, Box* box);

/* Where a small window says what is asked or answered: in the place of the columns' names; false
   if nothing is, or there is another line for it. */
bool shortlist_says(const View* view, const Geometry* geometry, Box* box);
