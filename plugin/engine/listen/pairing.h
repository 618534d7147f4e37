// SPDX-License-Identifier: ISC
/* pairing.h - which played stroke was meant for which written one: the cheapest way to set both
   rows side by side in their order.  A pair costs how far apart its strokes are, a stroke that
   stays alone PAIRING_ALONE_MS; so nothing is paired twice, or across another pair.  A pair is at
   most PAIRING_APART_MS apart, and never as far as the neighbouring written stroke.  Pure; work
   and memory are bounded: written strokes times PAIRING_BAND. */
#pragma once

#include <stdint.h>

/* Untrained people tapping to a click spread by 29 ms (median; Baath & Madison, ICMPC 2012,
   82-85): twice this is four of those. */
#define PAIRING_ALONE_MS 60.0
#define PAIRING_APART_MS (2.0 * PAIRING_ALONE_MS)

enum {
    PAIRING_STROKES_MAX = 1024, /* of a limb in a phrase: 64 bars of sixteenths */
    PAIRING_BAND = 31, /* played strokes in the 240 ms around a written one that are looked at */
    PAIRING_NONE = -1
};

/* Where it is worked out. */
typedef struct {
    uint64_t choices[PAIRING_STROKES_MAX]; /* two bits for each state of a row */
    uint32_t low[PAIRING_STROKES_MAX];     /* played strokes before the row's first state, */
    uint32_t source[PAIRING_STROKES_MAX];  /*   which came from so many of the row before */
    double costs[PAIRING_BAND + 1];
    double before[PAIRING_BAND + 1];
} PairingRoom;

/* Times in ms, rising; equal ones may follow each other.  found[i]: the index of the played
   stroke that belongs to written stroke i, or PAIRING_NONE.  Written strokes beyond
   PAIRING_STROKES_MAX have none. */
void pairing_find(const double* written, uint32_t written_count, const double* played,
                  uint32_t played_count, int32_t* found, PairingRoom* room);

/* How far a pair may be apart at most for this written stroke, before it and behind it. */
void pairing_window(const double* written, uint32_t count, uint32_t index, double* before,
                    double* after);
