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

/* x of a tick of the bar. */
double lanes_x(const Shown* shown, double tick);

/* Numbers and syllables over the hands, or over the feet. */
void draw_count(const Brush* brush, const Shown* shown, bool is_feet);

/* Where figures start again, and the click. */
void draw_turns(const Brush* brush, const Shown* shown);
void draw_clicks(const Brush* brush, const Shown* shown);
