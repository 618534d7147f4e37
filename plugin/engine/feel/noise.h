// SPDX-License-Identifier: ISC
/* noise.h - chance as a function of its place: the same take at the same place
   gives the same number, whatever was played before. */
#pragma once

#include <stdint.h>

/* Uniform, mean 0 and standard deviation 1, within +-1.74, from a take, a source
   that tells uses apart, and a place. */
double noise_white(uint32_t take, uint32_t source, int64_t place);

/* Long-range correlated (1/f), mean 0 and standard deviation 1, within +-4.25, at
   a tick: rows of white noise, the first holding its value for a quarter note,
   each other twice as long as the one before, up to 32.  Uses sources from
   `source` to source + 15. */
double noise_pink(uint32_t take, uint32_t source, int64_t tick);
