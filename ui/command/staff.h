// SPDX-License-Identifier: ISC
/* staff.h - a bar of strokes as text: a row for each limb and voice, a column
   for each step of the finest grid that the bar needs. */
#pragma once

#include "../../plugin/engine/groove/groove.h"

#include <stdio.h>

/* Columns in a beat unit that put every stroke of the list on one: the smallest
   such number from 2 to 48; 0 if there is none. */
int staff_columns(const StrokeList* strokes, int64_t bar_begin, Meter meter);

/* Ticks of a beat as people count it: three eighths in compound meters. */
int64_t staff_beat_ticks(Meter meter);

/* Prints the bar's count and rows. */
void staff_print(FILE* out, const StrokeList* strokes, int64_t bar_begin, Meter meter);
