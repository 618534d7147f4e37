// SPDX-License-Identifier: ISC
/* limb_staff.h - one bar on two pairs of lines, hands and feet: right limbs stand
   up from their line, left limbs hang down, stem height is the level. */
#pragma once

#include "ink.h"
#include "sheet.h"

/* Where a bar is drawn: its first beat at x, its end at x + width. */
typedef struct {
    double x;
    double y; /* of the count; everything else hangs below */
    double width;
} StaffBox;

/* How far below the count all stands, the same for every row of a sheet: a lane that no
   row needs isn't there. */
typedef struct {
    double line[LIMB_COUNT];
    double words[LIMB_COUNT]; /* base lines of the words for other voices */
    double bracket[2][2];     /* by pair, and for left limbs alone; a tuplet within another
                                 stands nearer to the lines */
    double letters;           /* which foot */
    double height;            /* with the space to the next */
} StaffLanes;

StaffLanes limb_staff_lanes(const Sheet* sheet);

/* Draws the bar, all limbs named.  `is_last`: a double bar. */
void limb_staff_draw(cairo_t* cairo, const Sheet* sheet, const SheetBar* bar,
                     const StaffLanes* lanes, StaffBox box, bool is_last);
