// SPDX-License-Identifier: ISC
/* count.h - what a drummer says between the beats.  Long used in teaching: common
   practice, no source; thirty-seconds have no syllable of their own between the
   sixteenths, and fives, sevens and other groups are counted. */
#pragma once

enum { COUNT_STEPS_MAX = 12 };

typedef struct {
    int steps;                              /* in a beat */
    const char* syllables[COUNT_STEPS_MAX]; /* of the second step and on; "" a dot */
} CountGrid;

/* The grids that written music is counted on, the coarsest first. */
enum { COUNT_COARSE = 6 };
extern const CountGrid count_coarse[COUNT_COARSE];

/* The grid with so many steps in a beat; NULL if it has numbers alone. */
const CountGrid* count_grid(int steps);
