// SPDX-License-Identifier: ISC
/* steps.h - a line's steps as written: one sign a step, spaces and | between. */
#pragma once

#include "../engine/figure.h"

/* The level of a sign, or -1 if it is none of . g o O */
int step_level(char sign);

/* Counts the steps; on a sign that isn't one, returns -1 and puts it in *wrong. */
int steps_count(const char* steps, char* wrong);

/* Appends the strokes of `steps`, `step` ticks apart from tick 0, while *count
   is below `room`; *count goes on counting beyond it.  `steps` must have passed
   steps_count. */
void steps_read(const char* steps, int64_t step, Limb limb, Voice voice, Stroke* strokes,
                uint32_t room, uint32_t* count);
