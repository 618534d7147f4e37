// SPDX-License-Identifier: ISC
/* plan.h - what is played from which place on, in order: what plays now, a change that
   waits for its line, the sections of a song that somebody told.  Whoever asks what is
   played somewhere asks here.  Plain values; pure. */
#pragma once

#include "groove.h"

enum { PLAN_MAX = 16 }; /* what plays, and what comes next */

/* A place in the song, whatever its meters are: a tick counts from its bar line. */
typedef struct {
    int64_t bar; /* from 0 */
    int64_t tick;
} Place;

/* From its place on, until the next entry's. */
typedef struct {
    Place from;
    int64_t origin;   /* the bar that is bar 0 for phrases, figures and feel; bars before
                         it are the section's count-in */
    Meter meter;      /* what it is played in: the host's there */
    double tempo;     /* quarter notes a minute it begins at: the host's there; 0: meter
                         and tempo are as they go on */
    bool ends;        /* nothing is played from here on */
    int64_t fill_bar; /* one more fill ends on the line of this bar, counted from the origin
                         in the groove's bars; 0: none.  The audio thread alone asks for it */
    bool is_late;     /* it waits a line longer, until its feet are made */
    Settings settings;
    Selection selection; /* what these pick */
} PlanEntry;

typedef struct {
    uint32_t count;
    PlanEntry entries[PLAN_MAX]; /* by place, rising */
} Plan;

/* Before all others. */
extern const Place plan_anywhere;

/* True if the first is before the second. */
bool plan_before(Place a, Place b);

/* Puts an entry behind the others; one for the same place or an earlier one takes the
   place of all from there on.  A full plan forgets its first. */
void plan_put(Plan* plan, const PlanEntry* entry);

/* The entry in effect at `place`; before all, the first.  NULL: the plan is empty. */
const PlanEntry* plan_at(const Plan* plan, Place place);

/* The first entry after `place`, or NULL. */
const PlanEntry* plan_next(const Plan* plan, Place place);

/* Forgets what comes after `place`. */
void plan_drop_after(Plan* plan, Place place);

/* Forgets all but the entry in effect at `place`, which from now on holds wherever the
   song was or goes back to before the next. */
void plan_drop_before(Plan* plan, Place place);

/* What every entry's settings pick; a swing that follows the tempo, at this one, and feet
   that are varied there. */
void plan_find(Plan* plan, const Library* library, double tempo, Varied* varied);
