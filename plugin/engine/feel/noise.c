// SPDX-License-Identifier: ISC
#include "noise.h"

#include "../time/ticks.h"

#include <math.h>

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

static uint64_t series_of(const uint32_t take, const uint32_t source)
{
    return scramble((uint64_t)take << 32 | source);
}

static double uniform(const uint64_t series, const int64_t place)
{
    const uint64_t bits = scramble(series ^ (uint64_t)place);
    const double unit = (double)(int64_t)(bits >> 11) / 9007199254740992.0; /* 2^53 */
    return (2.0 * unit - 1.0) * 1.7320508075688772;                         /* square root of 3 */
}

double noise_white(const uint32_t take, const uint32_t source, const int64_t place)
{
    return uniform(series_of(take, source), place);
}

double noise_bell(const uint32_t take, const uint32_t source, const int64_t place)
{
    const uint64_t series = series_of(take, source);
    return (uniform(series, place) + uniform(~series, place)) * 0.7071067811865476;
}

/* Each row begins elsewhere, so that no beat stands at all rows' places. */
static double row_at(const uint64_t series, const int64_t length, const int64_t tick)
{
    const int64_t from = tick + (int64_t)(series % (uint64_t)length);
    const int64_t place = floor_div(from, length);
    const double way = (double)(from - place * length) / (double)length;
    const double here = uniform(series, place);
    return here + way * (uniform(series, place + 1) - here);
}

double noise_drift(const Drift* const drift, const uint32_t take, const uint32_t source,
                   const int64_t tick)
{
    uint64_t series = series_of(take, source);
    int64_t length = drift->longest;
    double depth = 1.0, sum = 0.0, squares = 0.0;
    for (uint32_t row = 0; row < drift->rows; ++row) {
        series = scramble(series);
        sum += depth * row_at(series, length, tick);
        squares += depth * depth;
        depth /= drift->growth;
        length /= 2;
    }
    /* Half-way between two numbers a line has half their variance; 2/3 on average. */
    return sum / sqrt(squares * (2.0 / 3.0));
}
