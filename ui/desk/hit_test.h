// SPDX-License-Identifier: ISC
/* hit_test.h - from a place in the window to a step of the figure that plays there. */
#pragma once

#include "model.h"

/* The figure that the bar shown plays with the pair that is edited, in [begin, end) of it. */
struct HitTest {
    const SeenBar* bar;
    FigureKind kind;
    uint32_t id;
    const SeenTurns* turns; /* of both, where a fill takes over within the bar */
    int64_t begin;          /* ticks from the bar line */
    int64_t end;
};

/* What plays under x.  False if nothing is shown, or the pair rests there. */
bool hit_test_at(const Model* model, double x, HitTest* hit);

/* Likewise for who points nowhere: the fill where it has all of the bar, or some of it
   while a fill is edited. */
bool hit_test_of(const Model* model, HitTest* hit);

/* The figure, of the draft or the bank; NULL if neither has it. */
const Figure* hit_test_figure(const Model* model, const HitTest* hit);

/* True if the Rhythm panel lays it out otherwise than it is written. */
bool hit_test_is_relaid(const Model* model, const HitTest* hit);

/* The tick of the buffer's cycle under x, on a step, nothing outside the bar shown;
   -1: none. */
int64_t hit_test_tick(const Model* model, const HitTest* hit, double x);

/* The ticks of the bar shown at which a tick of the buffer's cycle is played, as they are
   written: how many, `room` at most. */
int hit_test_places(const Model* model, const HitTest* hit, int64_t tick, int32_t* ticks, int room);

/* The tick of the bar shown for the step under x, as it is written. */
int32_t hit_test_hover(const Model* model, const SeenBar* bar, double x);

/* x of a tick of the bar shown, as it is written: where its step is heard. */
double hit_test_x(const Model* model, const SeenBar* bar, int32_t tick);

/* How the bar shown is swung, which the grid of changes follows if it is binary. */
Swing hit_test_swing(const Model* model, int grid);
