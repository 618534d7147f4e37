// SPDX-License-Identifier: ISC
/* shown.h - a bar as the staff shows it, for the files that draw its parts. */
#pragma once

#include "brush.h"

/* One of the two bars that are seen, and how it is drawn. */
typedef struct {
    const SeenBar* bar;
    double from; /* x of its bar line */
    double to;   /* nothing is drawn from here on */
    BarSpace space;
    bool is_next;
} Shown;

/* The steps of a pair's figure, of the letter's and then of the fill's where there is one. */
typedef struct {
    int32_t step; /* ticks; 0: none */
    double begin; /* in effect from here to `end`: ticks from the bar line */
    double end;
    double origin; /* a tick that a step stands on */
} ShownGrid;

/* How many there are, 1 or 2. */
int lanes_grids(const Shown* shown, bool is_feet, ShownGrid grids[2]);

/* x of a tick of the bar. */
double lanes_x(const Shown* shown, double tick);

/* Numbers and syllables over the hands, or over the feet. */
void draw_count(const Brush* brush, const Shown* shown, bool is_feet);

/* Where figures start again, and the click. */
void draw_turns(const Brush* brush, const Shown* shown);
void draw_clicks(const Brush* brush, const Shown* shown);

/* Of the bar after the one shown: its name, its meter where that is another, what comes in. */
void draw_next_bar(const Brush* brush, const Shown* shown, bool is_other_meter);

/* Lines of bar and beats, and where a change comes in; the line behind a bar that no other is
   shown after. */
void draw_grid(const Brush* brush, const Shown* shown);
void draw_end_line(const Brush* brush, double x);
