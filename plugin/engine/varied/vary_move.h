// SPDX-License-Identifier: ISC
/* vary_move.h - variations that put the same strokes elsewhere.  VaryOperations. */
#pragma once

#include "vary.h"

/* All kicks a step earlier or later, round the cycle: the line pushes, or drags, against hands
   that stay.  Each takes back the other. */
VaryReason vary_move_earlier(VaryLine* line);
VaryReason vary_move_later(VaryLine* line);

/* Half a beat later: what was on the beat is between the beats. */
VaryReason vary_move_half(VaryLine* line);

/* A beat later: the figure begins on two. */
VaryReason vary_move_beat(VaryLine* line);

/* Backwards, but what is on the one stays there: a gallop becomes a reverse gallop. */
VaryReason vary_move_round(VaryLine* line);

/* Each bar's first half, then the same turned round as its answer; where that is what is played
   as it is, as in a run of singles, the answer is the other foot's. */
VaryReason vary_move_answer(VaryLine* line);

/* The same strokes in twice the time (the figure is twice as long), or in half of it. */
VaryReason vary_move_slow(VaryLine* line);
VaryReason vary_move_fast(VaryLine* line);

/* As many strokes, as even as the steps allow: a Euclidean rhythm.  Levels in their order. */
VaryReason vary_move_even(VaryLine* line);
