// SPDX-License-Identifier: ISC
/* vary_foot.h - which foot plays which kick of a variation, so that a person can play it.
   From memory of how double bass is taught, no source:
   - A run is strokes that are less than an eighth apart, from the first to the last.
   - A kick keeps the foot that it had, but in a run that has new kicks the feet alternate, and
     so they do in a run in which a foot would play closer strokes than it did before.
   - In such a run the foot of its strongest kick (the one, a beat, an eighth) stays, or is the
     leading one: R R L of a
     gallop, L R of a pair that ends on the beat, R L R L of a herta.
   - Strokes that stand alone, an eighth or more from the next, are the leading foot's.
   - What was played by one foot stays with it if it asks for no closer strokes and no longer
     run (of three or more) than before.
   - A foot beside one that closes the hat plays all kicks.
   No tempo is asked, so that a variation is the same at each; whether a person can play it at
   one, variation_faults says. */
#pragma once

#include "vary.h"

/* Notes what the source asks of the feet. */
void vary_foot_note(VaryLine* line);

/* Gives a foot to each kick that has none.  A run that never ends and is odd is repeated, so
   that its feet come out even. */
VaryReason vary_foot_give(VaryLine* line);
