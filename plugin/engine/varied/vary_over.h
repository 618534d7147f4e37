// SPDX-License-Identifier: ISC
/* vary_over.h - variations on another beat than the bar's, and the classics of double bass put
   in a line's place.  VaryOperations.  From memory of how drummers play them, no source, but
   for the stickings (rudiments). */
#pragma once

#include "vary.h"

/* The line's first three (five, seven) steps, from its first stroke on, again and again over
   the bar line, each time with an accent on the first; if all of them are struck the last is
   left out, so that the groups are heard. */
VaryReason vary_over_threes(VaryLine* line);
VaryReason vary_over_fives(VaryLine* line);
VaryReason vary_over_sevens(VaryLine* line);

/* Each stroke to the triplet of its beat that is nearest, the half beat to the last, as a
   shuffle has it: a gallop becomes the shuffled one, sixteenths full triplets. */
VaryReason vary_over_triplets(VaryLine* line);

/* In each quarter that has a stroke, beat, and, a: R R L; its accent stays on the beat. */
VaryReason vary_over_gallops(VaryLine* line);

/* Likewise beat, e, and: R L R. */
VaryReason vary_over_reverse(VaryLine* line);

/* Instead of each bar's last quarter four sixteenths that land on the next one: R L R L R.  Where
   these run as it is (four strokes or more in each last quarter), four thirty-seconds instead of
   its last eighth. */
VaryReason vary_over_burst(VaryLine* line);

/* Instead of its last beat six strokes, R L R L R L. */
VaryReason vary_over_sextuplets(VaryLine* line);
