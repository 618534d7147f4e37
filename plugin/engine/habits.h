// SPDX-License-Identifier: ISC
/* habits.h - what one host's numbers mean in x/8 and other meters that don't
   count quarters: whether its tempo counts quarters or beat units, and whether
   its beats are fractions of a beat or of a quarter.  Learnt from whole beats
   moved against frames moved, which were right in every host recorded. */
#pragma once

#include "report.h"

typedef enum { TEMPO_UNKNOWN, TEMPO_IN_QUARTERS, TEMPO_IN_BEATS } TempoUnit;

/* A stretch of reports inside one beat, or of whole beats. */
typedef struct {
    bool set;
    int64_t beats;   /* whole beats since bar 0 */
    double fraction; /* as reported */
    int64_t frame;   /* when that was */
} Sighting;

typedef struct {
    TempoUnit tempo_unit; /* unknown is read as quarters, as most hosts mean it */
    FractionKind fraction;
    Sighting mark;    /* where counting of whole beats began */
    int64_t mark_low; /* the mark's beat began at this frame or later */
    Sighting first;   /* first report inside the beat now going on */
    Sighting last;    /* the newest report */
} Habits;

/* Forgets what was under way, at a jump; what was learnt stays. */
void habits_restart(Habits* habits);

/* Learns from a report that stands at `frame` of the own clock.  `per_beat` is
   how many frames a beat unit lasts if the tempo counts beat units.  True if
   the meaning of the tempo was found to be another than it was taken for. */
bool habits_learn(Habits* habits, const Report* report, Meter meter, double per_beat,
                  int64_t frame);

/* Quarter notes in one count of the host's tempo. */
double habits_quarters_per_count(const Habits* habits, Meter meter);
