// SPDX-License-Identifier: ISC
/* vary_stick.h - variations that keep every stroke in its place: which foot plays it, and how
   loud.  VaryOperations. */
#pragma once

#include "vary.h"

/* Feet swapped, to even them out, or to come out of a fill on the left.  Takes itself back. */
VaryReason vary_stick_swap(VaryLine* line);

/* All by the foot that leads: for who has one pedal, or for stamina. */
VaryReason vary_stick_one(VaryLine* line);

/* R R L L all along, heel and toe: faster than singles for who can. */
VaryReason vary_stick_doubles(VaryLine* line);

/* R L R R L R L L all along (single paradiddle: PAS rudiment 16). */
VaryReason vary_stick_paradiddles(VaryLine* line);

/* A run stays as it is, but every third, or fifth, stroke is the accented one: the bar is
   heard in another meter. */
VaryReason vary_stick_threes(VaryLine* line);
VaryReason vary_stick_fives(VaryLine* line);
