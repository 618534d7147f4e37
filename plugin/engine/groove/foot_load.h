// SPDX-License-Identifier: ISC
/* foot_load.h - what the phrase asks of the feet, looked through a quarter note at
   a time, so that no block has more than a bounded share of the work. */
#pragma once

#include "groove.h"
#include "limb_tally.h"

enum { FOOT_LOAD_FEET = 2 };

/* Found for one foot; zeros where it doesn't play, or plays only once. */
typedef struct {
    double rate;   /* strokes in the busiest second */
    double gap_ms; /* shortest time between two strokes */
} FootDemand;

typedef struct {
    Selection selection; /* what is looked through */
    Meter meter;
    double tempo;                     /* quarter notes a minute */
    int64_t at;                       /* next tick to look at */
    int64_t end;                      /* a phrase and a second more: phrases follow each other;
                                         where fills with feet come round otherwise, until
                                         both begin anew, or FILL_ROUND_MAX */
    LimbTally feet[FOOT_LOAD_FEET];   /* right, left */
    FootDemand found[FOOT_LOAD_FEET]; /* of the last whole foot_load */
    StrokeList strokes;
} FootLoad;

/* Begins anew, with both feet whether they are heard or not. */
void foot_load_start(FootLoad* foot_load, const Selection* selection, Meter meter, double tempo);

/* All of it at once: not for the audio thread. */
void foot_load_all(FootLoad* foot_load, const Selection* selection, Meter meter, double tempo);

/* False if it is to begin anew for this: at once for another selection or meter, once it
   is done for another swing. */
bool foot_load_is_of(const FootLoad* foot_load, const Selection* selection, Swing swing,
                     Meter meter);

/* Looks at the next quarter note; starts again by itself if the tempo has become
   another by the time it is done. */
void foot_load_step(FootLoad* foot_load, double tempo);

/* True if another step would change nothing. */
bool foot_load_is_done(const FootLoad* foot_load, double tempo);
