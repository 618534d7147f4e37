// SPDX-License-Identifier: ISC
/* hit_test.h - from a place in the window to a step of the figure that plays there. */
#pragma once

#include "moves.h"

/* The figure that the bar shown plays with the pair that is edited. */
typedef struct {
    const SeenBar* bar;
    FigureKind kind;
    uint32_t id;
    const SeenTurns* turns;
} HitTest;

/* False if nothing is shown, or the pair rests there. */
bool hit_test_of(const Desk* desk, HitTest* hit);

/* The figure, of the draft or the bank; NULL if neither has it. */
const Figure* hit_test_figure(const Desk* desk, const HitTest* hit);

/* True if the Rhythm panel lays it out otherwise than it is written. */
bool hit_test_is_relaid(const Desk* desk, const HitTest* hit);

/* The tick of the buffer's cycle under x, on a step, nothing outside the bar shown;
   -1: none. */
int64_t hit_test_tick(const Desk* desk, const HitTest* hit, double x);

/* The tick of the bar shown for the step under x, as it is written. */
int32_t hit_test_hover(const Desk* desk, const SeenBar* bar, double x);

/* How the bar shown is swung, which the grid of changes follows if it is binary. */
Swing hit_test_swing(const Desk* desk, int grid);
