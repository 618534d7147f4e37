// SPDX-License-Identifier: ISC
/* song_fill.h - the fill that a section ends with, as controls can ask for it: from a bar on, a
   fill each so many bars, which comes round where the section ends.  Pure. */
#pragma once

#include "song_map.h"

/* What of it can't be asked for. */
typedef enum {
    SONG_FILL_WHOLE,
    SONG_FILL_LONG,   /* it is cut to as many beats as the control has */
    SONG_FILL_METERS, /* it is over bars of several lengths, and cut to the last of them */
    SONG_FILL_NEVER   /* no number of bars comes round there: there is none */
} SongUnfilled;

typedef struct {
    int64_t bars;   /* that it reaches into; 0: there is none to ask for */
    int64_t from;   /* the bar of the pass from which on it is asked for */
    uint32_t every; /* bars */
    uint32_t beats; /* 0: as it is written */
    uint32_t id;    /* of a turnaround; 0: the section's own */
    SongUnfilled why;
} SongFill;

/* `controls` is what the song leaves to the ports. */
SongFill song_fill(const SongMap* map, uint32_t row, const Library* library,
                   const float controls[CONTROL_COUNT]);

/* Puts it among controls. */
void song_fill_controls(const SongFill* fill, float values[CONTROL_COUNT]);
