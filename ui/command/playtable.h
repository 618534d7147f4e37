// SPDX-License-Identifier: ISC
/* playtable.h - what a song asks of a person, as a table: a column for each limb, both
   hands and both feet, a row for each measure, its limit and the limit's source below. */
#pragma once

#include "../../plugin/engine/writing/playability.h"

#include <stdio.h>

/* Of a song that was looked through. */
void playtable_print(FILE* out, const Playability* playability);

/* "published", "ours", or "yours" where the user's file has it: of a stream's limits. */
const char* playtable_rate_source(const PlayLimits* limits, PlayStream stream);
const char* playtable_kept_source(const PlayLimits* limits, PlayStream stream, double minutes);
const char* playtable_closest_source(const PlayLimits* limits, PlayStream limb);
const char* playtable_burst_source(const PlayLimits* limits, PlayStream limb);
const char* playtable_move_source(const PlayLimits* limits, PlayMove move);
