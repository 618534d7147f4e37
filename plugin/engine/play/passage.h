// SPDX-License-Identifier: ISC
/* passage.h - what is played from one line to the next, on the groove's ticks: the plan
   where the groove clock stands.  Drawing, clicks, foot load, readouts and preview ask
   here, so what is told is what is played. */
#pragma once

#include "engine.h"

typedef struct {
    const PlanEntry* entry;
    const PlanEntry* next; /* or NULL */
    bool is_coming;        /* its line is still to come */
    int64_t begin;         /* its line's tick; INT64_MIN: from wherever */
    int64_t end;           /* the next one's; INT64_MAX: there is none */
    int64_t origin;        /* the tick that is bar 0 to it */
    int64_t number;        /* of that bar in the song */
    Meter meter;
} Passage;

/* The entry that sounds; quarter notes a minute and the swing that is asked for there, as
   the groove goes now or, stopped, as it would. */
const PlanEntry* passage_entry(const Engine* engine);
double passage_tempo_now(const Engine* engine);
Swing passage_swing_now(const Engine* engine);

/* What sounds, on its ticks: until its line has come the next one waits. */
Passage passage_sounding(const Engine* engine);

/* What is written at a tick, not before what sounds. */
Passage passage_at(const Engine* engine, int64_t tick);

/* What is written at the line of a bar of the song, and that line's tick. */
Passage passage_of_bar(const Engine* engine, int64_t bar, int64_t* tick);

/* The first quarter note line at or after a tick. */
int64_t passage_quarter(const Passage* passage, int64_t tick);

/* Where chance begins to count: ticks from the song's bar 0, in bars of the passage's meter,
   to the passage's, less its own count-in.  So a section that comes again is another pass by
   the same hands, whose habits go by the place in the bar, and counted in it is the same. */
int64_t passage_in_song(const Passage* passage);

/* Quarter notes a minute that it has at a tick. */
double passage_tempo(const Engine* engine, const Passage* passage, int64_t tick);

/* The swing that it asks for at a tick. */
Swing passage_swing(const Engine* engine, const Passage* passage, int64_t tick);

/* What is written from a tick on.  Swing bends time inside each quarter note, so it is
   that of where the quarter note begins. */
Selection passage_selection(const Engine* engine, const Passage* passage, int64_t tick);
