// SPDX-License-Identifier: ISC
/* vary_thin.h - variations with fewer strokes: what stays is as it was.  VaryOperations. */
#pragma once

#include "vary.h"

/* Every second step only: running sixteenths become eighths, a gallop loses the stroke that
   makes it one.  For verses, and for a tempo that has become too fast. */
VaryReason vary_thin_steps(VaryLine* line);

/* Every second stroke only, whatever lies between: half the work, the same shape. */
VaryReason vary_thin_seconds(VaryLine* line);

/* Accented strokes only: what the line is about.  Where none is accented, what is on a beat. */
VaryReason vary_thin_accents(VaryLine* line);

/* Nothing on the first beat of each bar: the guitar or a crash has it alone. */
VaryReason vary_thin_one(VaryLine* line);

/* One foot's part, to learn it, or to hear what it is that it does. */
VaryReason vary_thin_right(VaryLine* line);
VaryReason vary_thin_left(VaryLine* line);

/* A bar of feet, then a bar without: room for a voice, or for the legs. */
VaryReason vary_thin_bars(VaryLine* line);

/* The same within the bar: its first half, of which a bar of odd beats has the longer. */
VaryReason vary_thin_halves(VaryLine* line);
