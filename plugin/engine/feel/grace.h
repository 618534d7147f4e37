// SPDX-License-Identifier: ISC
/* grace.h - flams and drags: soft strokes just before a main one, by the other
   hand, closer at fast tempi so that they never reach the stroke before. */
#pragma once

#include "../written/stroke.h"

enum { GRACES_MAX = 2 };

typedef struct {
    uint32_t count;
    uint8_t limb;              /* the hand that plays them */
    int64_t leads[GRACES_MAX]; /* ticks before the main stroke, falling */
} Graces;

/* The grace strokes of a stroke; none if it has no ornament, or if the other
   hand plays with it.  `around` holds the strokes a quarter note around it. */
Graces grace_strokes(Stroke stroke, const StrokeList* around, double tempo);

/* How loud a grace stroke is. */
uint8_t grace_velocity(uint8_t main);
