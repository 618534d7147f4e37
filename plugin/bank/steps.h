// SPDX-License-Identifier: ISC
/* steps.h - a line's steps as written: one sign a step, spaces and | between. */
#pragma once

#include "../engine/written/stroke.h"

/* The level of a sign, or -1 if it is none of . g o O f d */
int step_level(char sign);

/* Counts the steps; on a sign that isn't one, returns -1 and puts it in *wrong. */
int steps_count(const char* steps, char* wrong);

/* Appends a copy of `stroke` for each step that isn't a rest, `step` ticks apart
   from tick 0, at the step's level, while *count is below `room`; *count goes on
   counting beyond it.  `steps` must have passed steps_count. */
void steps_read(const char* steps, int64_t step, Stroke stroke, Stroke* strokes, uint32_t room,
                uint32_t* count);

enum { EVEN_STEPS_MAX = 64 };

/* Writes `count` steps of which `strokes` are struck, spread as evenly as whole
   steps allow, the first accented: 1 <= strokes <= count <= EVEN_STEPS_MAX.
   Bjorklund's pairing, as described by Toussaint, "The Euclidean Algorithm
   Generates Traditional Musical Rhythms", BRIDGES 2005, pp. 47-56. */
void steps_even(int strokes, int count, char steps[EVEN_STEPS_MAX + 1]);
