// SPDX-License-Identifier: ISC
/* vary_fill.h - variations with more strokes: all that was there stays.  VaryOperations. */
#pragma once

#include "vary.h"

/* Every hole of two steps or more is filled: an unbroken run, out of which the line's own
   accents stand.  The chorus of a gallop is running sixteenths. */
VaryReason vary_fill_gaps(VaryLine* line);

/* Behind each stroke another, half a step later: eighths become sixteenths, and sixteenths
   thirty-seconds for who has the feet. */
VaryReason vary_fill_doubled(VaryLine* line);

/* Behind each stroke that has three steps of room another, a step later: pairs where there
   were single kicks, with air round them. */
VaryReason vary_fill_pairs(VaryLine* line);

/* Before each stroke that has room a soft start from a sixteenth (or a step, if that is less)
   before it: the kick is pushed into. */
VaryReason vary_fill_pickups(VaryLine* line);

/* Runs in threes whose first is doubled, R L R L: hertas.  Strokes behind the last three of a
   run stay as they are. */
VaryReason vary_fill_hertas(VaryLine* line);
