// SPDX-License-Identifier: ISC
/* alike.h - whether two figures are the same strokes under two names.  Pure. */
#pragma once

#include "../written/figure.h"

/* True if both strike the same sounds at the same times, each repeated until they meet:
   accents and sticking aside, and all cymbals taken for one, as both kicks are.  Fills, which
   are not repeated, only if they are as long. */
bool alike_figures(const Figure* a, const Figure* b);
