// SPDX-License-Identifier: ISC
#include "noise.h"

#include "../time/ticks.h"

enum { ROWS = 6 };

/* A permutation of 64-bit numbers without visible pattern: the finaliser of
   SplitMix64 (Steele, Lea, Flood, "Fast Splittable Pseudorandom Number
   Generators", OOPSLA 2014). */
static uint64_t scramble(uint64_t x)
{
    x += UINT64_C(0x9E3779B97F4A7C15);
    x = (x ^ (x >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94D049BB133111EB);
    return x ^ (x >> 31);
}

double noise_white(const uint32_t take, const uint32_t source, const int64_t place)
{
    const uint64_t who = (uint64_t)take << 32 | source;
    const uint64_t bits = scramble(scramble(who) ^ (uint64_t)place);
    const double unit = (double)(bits >> 11) / 9007199254740992.0; /* 2^53 */
    return (2.0 * unit - 1.0) * 1.7320508075688772;                /* square root of 3 */
}

/* Rows change half-way between the places where longer rows do, and never on a
   quarter note itself, so that no step changes all of them. */
double noise_pink(const uint32_t take, const uint32_t source, const int64_t tick)
{
    double sum = 0.0;
    for (uint32_t row = 0; row < ROWS; ++row) {
        const int64_t hold = TICKS_PER_QUARTER << row;
        sum += noise_white(take, source + row, floor_div(tick + hold / 2, hold));
    }
    return sum / 2.449489742783178; /* square root of ROWS */
}
