// SPDX-License-Identifier: ISC
/* noise.h - chance as a function of its place: the same take at the same place
   gives the same number, whatever was played before. */
#pragma once

#include <stdint.h>

/* Uniform, mean 0 and standard deviation 1, within +-1.732, from what is asked
   (take, a source that tells uses apart) and where (a step of any grid). */
double noise_white(uint32_t take, uint32_t source, int64_t place);

/* Long-range correlated (1/f), mean 0 and standard deviation 1: rows of white
   noise, each holding its value twice as long as the one before, from 1 step to
   32.  Within +-4.25. */
double noise_pink(uint32_t take, uint32_t source, int64_t step);
