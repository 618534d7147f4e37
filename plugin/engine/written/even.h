// SPDX-License-Identifier: ISC
/* even.h - strokes spread among steps as evenly as whole steps allow.  Pure. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

enum { EVEN_SPREAD_MAX = 512 };

/* Marks which of `count` steps are struck, the first among them: 1 <= strokes <= count <=
   EVEN_SPREAD_MAX.  Bjorklund's pairing, as described by Toussaint, "The Euclidean Algorithm
   Generates Traditional Musical Rhythms", BRIDGES 2005, pp. 47-56. */
void even_spread(uint32_t strokes, uint32_t count, bool* struck);
