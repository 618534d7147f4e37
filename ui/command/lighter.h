// SPDX-License-Identifier: ISC
/* lighter.h - a selection whose figures are lightened to so many strokes a second, and
   how it reads before and after. */
#pragma once

#include "../../plugin/engine/writing/playability.h"
#include "request.h"

#include <stdio.h>

/* Hands and feet of each part, those that are picked, and the turnaround. */
enum { LIGHTER_FIGURES = 2 * PARTS_MAX + 3 };

typedef struct {
    const Figure* written;
    Regrid regrid;
    Figure figure;
    Stroke strokes[FIGURE_STROKES_MAX];
    bool taken; /* fewer strokes than before */
} LighterFigure;

typedef struct {
    Selection before;
    Selection after; /* points into this */
    Groove groove;
    LighterFigure figures[LIGHTER_FIGURES];
    int count;
    Figure varied[PARTS_MAX]; /* feet of each letter, where they are varied */
    Stroke varied_strokes[PARTS_MAX][FIGURE_STROKES_MAX];
} Lighter;

/* What is played is what `before`, which must have a groove, plays with strokes left out.
   A figure is lightened by itself: where two meet, more may remain.  Feet that vary are lightened
   as they play; those that grow, as in the first phrase. */
void lighter_make(Lighter* lighter, const Selection* before, Meter meter, double tempo,
                  const PlayLimits* limits, const LightenWish* wish);

/* The phrase before and after, bar by bar, those that changed. */
void lighter_print(FILE* out, const Lighter* lighter, Meter meter);
