// SPDX-License-Identifier: ISC
/* limb_staff.h - one bar on two pairs of lines, hands and feet: right limbs stand
   up from their line, left limbs hang down, stem height is the level. */
#pragma once

#include "ink.h"
#include "sheet.h"

/* Where a bar is drawn: its first beat at x, its bar line at x + width. */
typedef struct {
    double x;
    double y; /* of the count; everything else hangs below */
    double width;
} StaffBox;

/* Draws the bar.  `voices` holds what each limb struck last, VOICE_COUNT at first:
   a word stands over the first stroke after a change.  `is_last`: a double bar. */
void limb_staff_draw(cairo_t* cairo, const SheetBar* bar, Meter meter, StaffBox box,
                     uint8_t voices[LIMB_COUNT], bool is_last);
