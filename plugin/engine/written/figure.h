// SPDX-License-Identifier: ISC
/* figure.h - a short rhythm of one to four limbs, made of lines of steps.
   Plain values; a figure never changes after it was made. */
#pragma once

#include "kinds.h"
#include "stroke.h"

/* A figure's strokes stand in order of tick, then limb; every tick is in
   [0, cycle_ticks) and, like the cycle, a multiple of step_ticks. */
typedef struct {
    uint32_t id; /* permanent, from 1; 0 is no figure */
    FigureKind kind;
    int64_t cycle_ticks;   /* > 0 */
    int64_t step_ticks;    /* the finest grid that all its lines share, > 0 */
    uint32_t bars;         /* bars it is written for; 0 rolls over the bar line */
    uint32_t stroke_count; /* 1 to FIGURE_STROKES_MAX */
    const Stroke* strokes;
    bool plays_limb[LIMB_COUNT];
    bool plays_pedal;   /* a foot closes the hi-hat */
    uint8_t keeps_time; /* Voice: what ride_on.h moves; a kick, 0: nothing */
} Figure;

/* Notes what the strokes say of it: the limbs, the pedal, what keeps its time. */
void figure_note(Figure* figure);

/* Ticks in one step of a line with `grid` steps over `over` quarters, or 0 if
   either is out of 1 to 16 or the step isn't a whole number of ticks. */
int64_t figure_step_ticks(int grid, int over);

/* True if a line on this grid is bent by a shuffle: halves, quarters and so on
   of a quarter note, not tuplets. */
bool figure_grid_bends(int grid, int over);

/* True if the figure keeps every promise written above. */
bool figure_valid(const Figure* figure);

/* True if a foot plays in it. */
bool figure_has_feet(const Figure* figure);

/* The limb that plays what is written for a limb where the left foot leads: the feet are
   swapped, but for feet that close the hi-hat, which has its place under the left. */
uint8_t figure_mirrored(const Figure* figure, uint8_t limb);

/* Index of the first stroke at or after `tick`; stroke_count if none. */
uint32_t figure_first_from(const Figure* figure, int64_t tick);
