// SPDX-License-Identifier: ISC
/* song_time.h - tempo and level along a song.  Pure; only what every machine rounds alike.

   A ramp goes in a straight line over musical time, from the section's first line to where its
   ritardando begins, or to its end: half-way through its quarter notes it is half-way there,
   through all passes as one.  So the seconds from a tempo a to a tempo b over n quarter notes
   are 60 n ln(b / a) / (b - a).

   A ritardando follows the model of final ritards by Friberg and Sundberg ("Does music
   performance allude to locomotion?", J. Acoust. Soc. Am. 105, 1999): with x the share of it
   that has passed and w the last tempo as a share of the first, the tempo is
   (1 + (w^3 - 1) x)^(1/3) of the first.

   Files and hosts have steps for that: one each sixteenth note, counted from the bar line, at
   the tempo that holds in the step's middle.  Where the tempo stays there is one step up to
   where it moves. */
#pragma once

#include "song_map.h"

/* Quarter notes a minute at a tick; before the song as at its beginning, after it as at its
   end. */
double song_time_tempo(const SongMap* map, int64_t tick);

/* 1 to 127, not rounded. */
double song_time_level(const SongMap* map, int64_t tick);

enum { SONG_STEPS_A_QUARTER = 4 };

/* One step of the tempo, within one bar where the tempo moves. */
typedef struct {
    int64_t begin; /* ticks */
    int64_t end;
    double tempo;
} SongStep;

/* The step that a tick of the song lies in. */
SongStep song_time_step(const SongMap* map, int64_t tick);

/* Seconds of the steps from tick to tick; outside the song there are none. */
double song_time_seconds(const SongMap* map, int64_t begin, int64_t end);
