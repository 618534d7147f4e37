// SPDX-License-Identifier: ISC
/* variation_faults.h - whether a person can play what a variation makes.  Pure. */
#pragma once

#include "../varied/variation.h"
#include "playability.h"

/* What no person can do of a figure at a tempo, for so many minutes, or twice through it if
   that is longer: a
   set of PLAY_TOO_FAST and so on; 0: playable.  Rates are in `room` then. */
uint32_t variation_faults(const Figure* figure, double tempo, double minutes,
                          const PlayLimits* limits, Playability* room);
