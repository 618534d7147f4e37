// SPDX-License-Identifier: ISC
/* facts.h - what a song that was rendered holds, read from its messages: what is said
   of a file is taken from it, never from what was asked for. */
#pragma once

#include "reel.h"

#include <stdio.h>

typedef struct {
    int count_in;       /* bars before the first */
    int clicks_counted; /* clicks in them */
    int bars;           /* after them */
    int clicked;        /* of these, with a click */
    int per_bar;        /* clicks in each bar that has some; 0 where they differ */
    int play;           /* bars with a click, then bars without, again and again; */
    int rest;           /* 0 where there is no such turn */
} ClickFacts;

/* Of a song of this one section, its click on `channel` (0 to 15). */
ClickFacts facts_click(const Reel* song, const ReelSection* section, int channel);

/* "1 bar counted in, then 4 clicks a bar: 2 bars with, 2 without". */
void facts_print_click(FILE* out, const ClickFacts* facts);

/* How far strokes stray from where they are written, gathered over songs. */
typedef struct {
    double squares; /* of milliseconds off, less the key's mean in that song */
    double count;
} Stray;

/* Adds a song, `exact` being the same on the grid.  Strokes are matched by key, in
   order. */
void facts_stray(Stray* stray, const Reel* song, const Reel* exact, const ReelSection* section);

/* Standard deviation, ms; 0 if there are no strokes. */
double facts_stray_ms(const Stray* stray);
