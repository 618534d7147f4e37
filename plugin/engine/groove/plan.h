// SPDX-License-Identifier: ISC
/* plan.h - what is played from which bar on: the sections of a song, in order.  Who
   knows them beforehand puts them here; then a section's early strokes are its own,
   and nothing sounds of a bar that isn't in the song.  Plain values; pure. */
#pragma once

#include "settings.h"
#include "../time/ticks.h"

enum { PLAN_MAX = 16 }; /* the one that plays, and those that come next */

/* From `bar` of the song on, counted from bar 0 whatever the meters are, until the
   next entry. */
typedef struct {
    int64_t bar;
    int64_t origin; /* the bar that is bar 0 for phrases, figures and feel; bars before
                       it are the section's count-in */
    Meter meter;    /* what it is played in: the host's there */
    double tempo;   /* quarter notes a minute it begins at: the host's there */
    bool ends;      /* nothing is played from here on */
    Settings settings;
} PlanEntry;

typedef struct {
    uint32_t count;
    PlanEntry entries[PLAN_MAX]; /* by bar, rising */
} Plan;

/* Puts an entry behind the others; one for the same bar or an earlier one takes the
   place of all from there on.  A full plan forgets its first. */
void plan_put(Plan* plan, const PlanEntry* entry);

/* The entry in effect at `bar`; before all, the first.  NULL: the plan is empty. */
const PlanEntry* plan_at(const Plan* plan, int64_t bar);

/* The first entry after `bar`, or NULL. */
const PlanEntry* plan_next(const Plan* plan, int64_t bar);
