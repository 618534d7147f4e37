// SPDX-License-Identifier: ISC
/* spot.h - from a place in the window to a step of the figure that plays there. */
#pragma once

#include "moves.h"

/* The figure that the bar shown plays with the pair that is edited. */
typedef struct {
    const SeenBar* bar;
    FigureKind kind;
    uint32_t id;
    const SeenTurns* turns;
} Spot;

/* False if nothing is shown, or the pair rests there. */
bool spot_of(const Desk* desk, Spot* spot);

/* The figure, of the draft or the bank; NULL if neither has it. */
const Figure* spot_figure(const Desk* desk, const Spot* spot);

/* True if the Rhythm panel lays it out otherwise than it is written. */
bool spot_is_relaid(const Desk* desk, const Spot* spot);

/* The tick of the sketch's cycle under x, on a step, nothing outside the bar shown;
   -1: none. */
int64_t spot_tick(const Desk* desk, const Spot* spot, double x);

/* The tick of the bar shown for the step under x, as it is written. */
int32_t spot_hover(const Desk* desk, const SeenBar* bar, double x);

/* How the bar shown is swung, which the grid of changes follows if it is binary. */
Swing spot_swing(const Desk* desk, int grid);
