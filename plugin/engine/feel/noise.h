// SPDX-License-Identifier: ISC
/* noise.h - chance as a function of its place: the same take at the same place
   gives the same number, whatever was played before.  Whole numbers, and of doubles only
   what every machine rounds alike: no function of the C library. */
#pragma once

#include <stdint.h>

/* Uniform, mean 0 and standard deviation 1, within +-1.74, from a take, a source
   that tells uses apart, and a place. */
double noise_white(uint32_t take, uint32_t source, int64_t place);

/* Likewise, but most of it near 0: the sum of two, within +-2.45. */
double noise_bell(uint32_t take, uint32_t source, int64_t place);

/* Two of noise_white at once, which last through the take. */
typedef struct {
    double one;
    double other;
} TwoDraws;
TwoDraws noise_two(uint32_t take, uint32_t source);

/* A drift without end or step: rows of white noise at even places, straight lines between
   them.  The longest row has `longest` ticks from place to place, each other half as many
   as the row before and 1 / `growth` of its depth; `growth` 2^((b - 1) / 2) is a spectrum
   near 1 / f^b. */
typedef struct {
    uint32_t rows;
    int64_t longest;
    double growth;
} Drift;

/* The drift at a tick: mean 0, standard deviation 1. */
double noise_drift(const Drift* drift, uint32_t take, uint32_t source, int64_t tick);
