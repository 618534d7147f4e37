// SPDX-License-Identifier: ISC
/* tap.h - a tempo from a key struck in time.  Plain values: times are handed in. */
#pragma once

#include <stdbool.h>

enum { TAP_INTERVALS = 8, TAP_LEAST = 20, TAP_MOST = 400 }; /* taps a minute */

typedef struct {
    int taps; /* of this series; 0: none */
    double last;
    int count; /* of intervals, no more than there is room for */
    int next;
    double intervals[TAP_INTERVALS]; /* seconds */
} Tap;

/* A tap at so many seconds of any clock that goes forward.  The taps a minute, from the third
   of a series on: 60 by the median of its last intervals, from TAP_LEAST to TAP_MOST; else 0.
   A pause begins another series, and so does what comes too soon, as a key that is held. */
double tap_at(Tap* tap, double seconds);
