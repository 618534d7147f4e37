// SPDX-License-Identifier: ISC
/* habits.h - what one host's numbers mean in meters that don't count quarters:
   whether its tempo counts quarters or beat units, and whether its beats are
   fractions of a beat or of a quarter.  Learnt from places moved against frames
   moved, which were right in every host recorded: what contradicts one reading
   and fits another adds up, beat by beat, and as many beats take it back. */
#pragma once

#include "grain.h"
#include "report.h"

typedef enum { TEMPO_IN_QUARTERS, TEMPO_IN_BEATS, TEMPO_UNITS } TempoUnit;

/* A place as told. */
typedef struct {
    bool set;
    bool counted;    /* beats were only counted: it is somewhere in the last */
    int64_t beats;   /* whole beats since bar 0 */
    double fraction; /* as reported */
    int64_t frame;   /* when that was */
} Sighting;

enum { FRACTION_READINGS = 2 };

typedef struct {
    TempoUnit tempo_unit; /* quarters at first, as most hosts mean it */
    FractionKind fraction;
    uint8_t doubt[TEMPO_UNITS][FRACTION_READINGS]; /* of each way to read it */
    Sighting mark;                                 /* where the even stretch going on began */
    uint32_t last_doubt;                           /* the readings doubted last in this stretch, */
    int64_t doubted_at;                            /*   and in which beat */
    bool hinted;                                   /* the last place told alone hinted at `hint` */
    TempoUnit hint;
    int64_t hint_beats;
    Grain grain;
} Habits;

/* An even stretch begins at a start, at a jump or where speed, tempo or meter
   change.  What was learnt stays. */
void habits_begin(Habits* habits, const Report* report, Meter meter, int64_t frame);

/* Learns from a report of an even stretch that stands at `frame` of the own clock.
   `per_beat` is how many frames a beat unit lasts if the tempo counts beat units.
   True if the numbers were found to mean something else than they were taken for. */
bool habits_learn(Habits* habits, const Report* report, Meter meter, double per_beat,
                  int64_t frame);

/* A place told alone, so many whole beats from bar 0, is where a song that had one
   tempo from frame 0 on would be by this unit and not by the other; `sure` if by
   chance it hardly could.  Two in a row decide as a beat of a stretch does. */
void habits_hint(Habits* habits, TempoUnit unit, int64_t beats, bool sure);

/* It is where neither would be. */
void habits_no_hint(Habits* habits);

/* True if anything was seen that tells what the tempo counts. */
bool habits_know_unit(const Habits* habits);

/* Quarter notes in one count of the host's tempo. */
double habits_quarters_per_count(const Habits* habits, Meter meter);
