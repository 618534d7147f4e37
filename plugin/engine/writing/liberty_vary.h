// SPDX-License-Identifier: ISC
/* liberty_vary.h - what becomes of a written stroke: the first half of liberty.h's rules.
   Pure. */
#pragma once

#include "liberty_bar.h"

/* True if it is played, maybe on another voice or as loud as another. */
bool liberty_vary_stroke(const LibertyBar* bar, Stroke* stroke);
