// SPDX-License-Identifier: ISC
/* limb_tally.h - one limb's strokes, told one by one: most in a second, the closest
   two.  The one place where a busiest second is counted.  Pure; any thread. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

enum { LIMB_TALLY_WINDOW = 256 }; /* strokes of one limb in a second */

/* Begins as zeros. */
typedef struct {
    int64_t recent[LIMB_TALLY_WINDOW]; /* ticks within the last second, a ring */
    uint32_t first;
    uint32_t count;   /* strokes in the second that ends with the last one, it included */
    uint32_t busiest; /* most strokes in a second */
    int64_t closest;  /* fewest ticks between two strokes; 0: none yet */
    int64_t last;
    bool struck;
} LimbTally;

/* Ticks in a second at quarter notes a minute. */
int64_t limb_tally_second(double tempo);

/* The next stroke, at or after the last; strokes a whole `second` of ticks apart aren't
   in one second. */
void limb_tally_strike(LimbTally* tally, int64_t tick, int64_t second);
