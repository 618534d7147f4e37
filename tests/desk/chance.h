// SPDX-License-Identifier: ISC
/* chance.h - the same chance at every run: a linear congruential generator with the
   constants of Knuth's MMIX, as in The Art of Computer Programming 2, 3.3.4 (from
   memory; any constants would do). */
#pragma once

#include <stdint.h>

typedef struct {
    uint64_t state;
} Chance;

/* 0 to below - 1 */
static inline uint32_t chance(Chance* const chance, const uint32_t below)
{
    chance->state = chance->state * 6364136223846793005U + 1442695040888963407U;
    return (uint32_t)((chance->state >> 33) % below);
}
