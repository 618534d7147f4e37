// SPDX-License-Identifier: ISC
/* feet_row.h - what a selection's feet do, as a row under the staff: their strokes in one bar,
   and whether a person can play them for minutes on end.  Pure, in the caller's memory. */
#pragma once

#include "../../plugin/engine/writing/playability.h"
#include "../scene/vary_view.h"

/* Strokes of the feet in this bar of the song, and where nobody could play them. */
void feet_row_lay(const Selection* selection, Meter meter, int64_t bar, double tempo,
                  const PlayLimits* limits, FeetRow* row);

/* Begins to look through four minutes of it, or a phrase of 16 bars if that is longer. */
void feet_row_begin(const Selection* selection, Meter meter, double tempo, const PlayLimits* limits,
                    Playability* room);

/* Looks through some more quarter notes; true once it is done, with what was found in the
   verdict. */
bool feet_row_judge(Playability* room, int quarters, FeetVerdict* verdict);
