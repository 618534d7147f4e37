// SPDX-License-Identifier: ISC
/* ticks.h - musical time as whole ticks.  Pure; any thread. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

/* 2^5 * 3^2 * 5 * 7 * 11 * 13: every tuplet up to 16 notes a quarter, and each
   of them halved, falls on a whole tick.  No beat is ever a fraction. */
#define TICKS_PER_QUARTER INT64_C(1441440)

/* A time signature.  Beats may be fractional where a host says so. */
typedef struct {
    double beats_per_bar; /* > 0, in beat units */
    int32_t beat_unit;    /* the lower number: 1, 2, 4, 8, 16 or 32 */
} Meter;

/* Ticks in one beat unit of `meter`. */
int64_t meter_beat_ticks(Meter meter);

/* Ticks in one bar of `meter`, rounded, at least 1. */
int64_t meter_bar_ticks(Meter meter);

/* True if its beats are of three units, dotted notes: two, three or four of them, 6, 9 and 12
   over 8 or 16 (compound duple, triple and quadruple; M. Gotham et al., Open Music Theory,
   chapter on compound meter; from memory).  15/8 is counted in units: here it is a sum, as of
   8/8 and 7/8, more often than five dotted quarters (the bank's three grooves in it all are). */
bool meter_is_compound(Meter meter);

/* True if `a` and `b` are the same signature. */
static inline bool meter_equal(const Meter a, const Meter b)
{
    return a.beat_unit == b.beat_unit && !(a.beats_per_bar < b.beats_per_bar) &&
           !(a.beats_per_bar > b.beats_per_bar);
}

/* The whole number that a double is, cut toward zero.  Beyond what ticks and frames
   can be, and sums of two of them: the last that is, which is 2 to the 62nd.  Not a
   number: 0. */
static inline int64_t whole_number(const double value)
{
    const double most = 4611686018427387904.0; /* exact in a double, and two just fit */
    return value > -most && value < most ? (int64_t)value
           : value > 0.0                 ? INT64_MAX / 2
           : value < 0.0                 ? INT64_MIN / 2
                                         : 0;
}

/* True if one is larger; not a number differs from nothing. */
static inline bool differs(const double a, const double b)
{
    return a < b || a > b;
}

/* The greatest common divisor; b may be 0. */
int64_t common_divisor(int64_t a, int64_t b);

/* The least common multiple of two lengths above 0; 0 where one isn't. */
int64_t common_multiple(int64_t a, int64_t b);

/* a / b and a mod b with the quotient rounded toward minus infinity; b > 0. */
int64_t floor_div(int64_t a, int64_t b);
int64_t floor_mod(int64_t a, int64_t b);
