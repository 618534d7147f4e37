// SPDX-License-Identifier: ISC
/* noise.h - chance as a function of its place: the same take at the same place
   gives the same number, whatever was played before.  Whole numbers, and of doubles only
   what every machine rounds alike: no function of the C library.  In a header so that a
   stroke, which asks it ten times, doesn't pay for the calls. */
#pragma once

#include <math.h>
#include <stdint.h>

/* A permutation of 64-bit numbers without visible pattern: the finaliser of
   SplitMix64 (Steele, Lea, Flood, "Fast Splittable Pseudorandom Number
   Generators", OOPSLA 2014). */
static inline uint64_t noise_scramble(uint64_t x)
{
    x += UINT64_C(0x9E3779B97F4A7C15);
    x = (x ^ (x >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94D049BB133111EB);
    return x ^ (x >> 31);
}

/* What tells a use of chance from another; odd numbers spread what counts by ones. */
static inline uint64_t noise_series(const uint32_t take, const uint32_t source)
{
    return ((uint64_t)take << 32 | source) * UINT64_C(0xD6E8FEB86659FD93);
}

static inline uint64_t noise_bits(const uint32_t take, const uint32_t source, const int64_t place)
{
    const uint64_t series = noise_series(take, source);
    return noise_scramble(series + (uint64_t)place * UINT64_C(0xA0761D6478BD642F));
}

/* Of the low 32 or 16 bits, uniform with standard deviation 1: the square root of 3 over
   half of what they count to. */
static inline double noise_uniform(const uint64_t bits)
{
    return (double)(int32_t)(uint32_t)bits * (1.7320508075688772 / 2147483648.0);
}

static inline double noise_short(const uint64_t bits)
{
    return (double)(int16_t)(uint16_t)bits * (1.7320508075688772 / 32768.0);
}

/* Of both halves together, over the square root of 2. */
static inline double noise_halves(const uint64_t bits)
{
    const int64_t sum = (int64_t)(int32_t)(uint32_t)bits + (int32_t)(uint32_t)(bits >> 32);
    return (double)sum * (1.2247448713915890 / 2147483648.0);
}

/* Uniform, mean 0 and standard deviation 1, within +-1.74, from a take, a source
   that tells uses apart, and a place. */
static inline double noise_white(const uint32_t take, const uint32_t source, const int64_t place)
{
    return noise_uniform(noise_bits(take, source, place) >> 32);
}

/* Likewise, but most of it near 0: the sum of two, within +-2.45. */
static inline double noise_bell(const uint32_t take, const uint32_t source, const int64_t place)
{
    return noise_halves(noise_bits(take, source, place));
}

/* Three of noise_white at once, of 16 bits each. */
typedef struct {
    double of[3];
} Draws;

static inline Draws noise_draws(const uint32_t take, const uint32_t source, const int64_t place)
{
    const uint64_t bits = noise_bits(take, source, place);
    return (Draws){{noise_short(bits >> 16), noise_short(bits >> 32), noise_short(bits >> 48)}};
}

/* A drift without end or step: rows of noise_bell at even places, straight lines between
   them.  The longest row has `longest` ticks from place to place, each other half as many
   as the row before and 1 / `growth` of its depth; `growth` 2^((b - 1) / 2) is a spectrum
   near 1 / f^b. */
typedef struct {
    uint32_t rows;
    int64_t longest;
    double growth;
} Drift;

/* Neighbouring places of one row: half the work of noise_scramble is enough to part them. */
static inline double noise_node(const uint64_t series, const uint64_t place)
{
    uint64_t x = series + place * UINT64_C(0xA0761D6478BD642F);
    x = (x ^ (x >> 32)) * UINT64_C(0xBF58476D1CE4E5B9);
    return noise_halves((x ^ (x >> 29)) * UINT64_C(0x94D049BB133111EB));
}

/* The drift at a tick: mean 0, standard deviation 1.  The rows' places are laid over each
   other from somewhere in the longest row that the take draws, so that no beat is one of
   them by rule; counted from a tick that no transport comes before. */
static inline double noise_drift(const Drift drift, const uint32_t take, const uint32_t source,
                                 const int64_t tick)
{
    uint64_t series = noise_series(take, source);
    const uint64_t shortest = (uint64_t)drift.longest >> (drift.rows - 1);
    const uint64_t shift = noise_scramble(series) % (uint64_t)drift.longest;
    const uint64_t from = (uint64_t)(tick - INT64_MIN / 4) + shift;
    uint64_t place = from / shortest;
    double way = (double)(int64_t)(from % shortest) / (double)(int64_t)shortest;
    double depth = 1.0, sum = 0.0, squares = 0.0;
    for (uint32_t row = 0; row < drift.rows; ++row) {
        const double here = noise_node(series, place);
        sum += depth * (here + way * (noise_node(series, place + 1) - here));
        squares += depth * depth;
        way = (way + (double)(int32_t)(place & 1)) * 0.5;
        place >>= 1;
        depth *= drift.growth;
        series += UINT64_C(0xE7037ED1A0B428DB);
    }
    /* Half-way between two numbers a line has half their variance; 2/3 on average. */
    return sum / sqrt(squares * (2.0 / 3.0));
}
