// SPDX-License-Identifier: ISC
/* sticking.h - what feet play, as drummers write a sticking: a letter a stroke, beat by beat. */
#pragma once

#include "../../plugin/engine/groove/groove.h"

#include <stdio.h>

/* What the letters are, a line of text. */
extern const char sticking_key[];

/* A figure's kicks as it is played from bar 0 on: a bar, and the second where that is another,
   between bar lines; then how many bars it takes to come round.  Each beat has as many letters as
   steps in it: four are sixteenths, three triplets; one grid for all where eight are enough.
   A foot on the hat has a line of its own. */
void sticking_print(FILE* out, const Figure* feet, Meter meter);
