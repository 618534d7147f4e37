// SPDX-License-Identifier: ISC
/* heard.h - what is told of a whole take, gathered phrase by phrase. */
#pragma once

#include "../../plugin/engine/listen/told.h"

/* Of a limb's pairs: offsets, against their time in ms, and velocities. */
typedef struct {
    double t, tt, d, dd, td;
    double first, last; /* of those times */
    double level;
    double level_strays; /* squares around what is written equally loud, */
    uint32_t level_free; /*   of so many */
} HeardSums;

typedef struct {
    Told all; /* counts alone; heard_tell() has the rest */
    HeardSums sums[LIMB_COUNT];
    double first_ms; /* the first written stroke: times are counted from it */
    uint32_t phrases;
    uint32_t clean;
} Heard;

/* A phrase as told_make() has told it. */
void heard_add(Heard* heard, const Told* told, bool is_clean, const ToldWritten* written,
               uint32_t count, const ToldPlayed* played, const int32_t* pairs);

/* The take as if it had been one stretch; shift_ms is the last phrase's.  Drift is that between a
   limb's first pair and its last: what wasn't played tells nothing. */
Told heard_tell(const Heard* heard);
