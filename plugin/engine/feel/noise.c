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

/* What tells a use of chance from another; odd numbers spread what counts by ones. */
static uint64_t series_of(const uint32_t take, const uint32_t source)
{
    return ((uint64_t)take << 32 | source) * UINT64_C(0xD6E8FEB86659FD93);
}

static uint64_t bits_at(const uint64_t series, const int64_t place)
{
    return scramble(series + (uint64_t)place * UINT64_C(0xA0761D6478BD642F));
}

/* Of 32 bits, uniform with standard deviation 1: the square root of 3 over 2^31. */
static double uniform(const uint64_t bits)
{
    return ((double)(int32_t)(uint32_t)bits + 0.5) * (1.7320508075688772 / 2147483648.0);
}

double noise_white(const uint32_t take, const uint32_t source, const int64_t place)
{
    return uniform(bits_at(series_of(take, source), place) >> 32);
}

double noise_bell(const uint32_t take, const uint32_t source, const int64_t place)
{
    const uint64_t bits = bits_at(series_of(take, source), place);
    return (uniform(bits) + uniform(bits >> 32)) * 0.7071067811865476;
}

TwoDraws noise_two(const uint32_t take, const uint32_t source)
{
    const uint64_t bits = scramble(series_of(take, source));
    return (TwoDraws){uniform(bits), uniform(bits >> 32)};
}

/* Neighbouring places of one row: half the work of scramble is enough to part them. */
static double node(const uint64_t series, const int64_t place)
{
    uint64_t x = series + (uint64_t)place * UINT64_C(0xA0761D6478BD642F);
    x = (x ^ (x >> 32)) * UINT64_C(0xBF58476D1CE4E5B9);
    return uniform((x ^ (x >> 29)) * UINT64_C(0x94D049BB133111EB) >> 32);
}

/* Half of it rounded down, so many times; a shift of a number below 0 is the compiler's choice. */
static int64_t halves(const int64_t number, const uint32_t times)
{
    return number >= 0 ? number >> times : ~(~number >> times);
}

/* The rows' places are laid over each other from somewhere in the longest row that the take
   draws, so that no beat is one of them by rule. */
double noise_drift(const Drift* const drift, const uint32_t take, const uint32_t source,
                   const int64_t tick)
{
    uint64_t series = series_of(take, source);
    const int64_t shortest = drift->longest >> (drift->rows - 1);
    const int64_t from = tick + (int64_t)(scramble(series) % (uint64_t)drift->longest);
    const int64_t step = floor_div(from, shortest);
    double way = (double)(from - step * shortest) / (double)shortest;
    double depth = 1.0, sum = 0.0, squares = 0.0;
    for (uint32_t row = 0; row < drift->rows; ++row) {
        const int64_t place = halves(step, row);
        const double here = node(series, place);
        sum += depth * (here + way * (node(series, place + 1) - here));
        squares += depth * depth;
        way = (way + (double)(place & 1)) * 0.5;
        depth *= drift->growth;
        series += UINT64_C(0xE7037ED1A0B428DB);
    }
    /* Half-way between two numbers a line has half their variance; 2/3 on average. */
    return sum / sqrt(squares * (2.0 / 3.0));
}
