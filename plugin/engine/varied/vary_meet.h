// SPDX-License-Identifier: ISC
/* vary_meet.h - variations that go by the hands.  VaryOperations.  Where hands or feet roll
   over the bar line, both are laid out until they meet again. */
#pragma once

#include "vary.h"

/* No kick where a hand plays the snare, ghosts aside: the backbeat speaks alone. */
VaryReason vary_meet_snare(VaryLine* line);

/* No kick where any hand plays: linear, feet in the holes. */
VaryReason vary_meet_linear(VaryLine* line);

/* A kick, accented, under each accent of the hands; the line's others stay. */
VaryReason vary_meet_accents(VaryLine* line);

/* Those kicks alone: the whole kit as one, for stops and breakdowns. */
VaryReason vary_meet_shots(VaryLine* line);

/* A kick under each stroke of the hat or cymbal that keeps the time, and none else: the
   blast's cymbal and foot as one. */
VaryReason vary_meet_cymbal(VaryLine* line);
