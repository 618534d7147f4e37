// SPDX-License-Identifier: ISC
/* performed.h - the strokes around the place that is drawn, as they are performed: worked out
   once for each place, a sixteenth ahead, and kept while nothing changes.  What they are is a
   function of the place alone (liberty.h). */
#pragma once

#include "../writing/liberty.h"

/* What they are made from.  Within a revision the line of its entry names the selection. */
typedef struct {
    uint32_t revision;
    int64_t bar; /* the entry's line, */
    int64_t tick;
    int64_t in_song; /*   and what liberty.h asks for */
    Meter meter;
    double tempo;
} PerformedKey;

typedef struct {
    PerformedKey key;
    int64_t from;  /* the ticks that are looked at, as the selection counts them */
    int64_t until; /*   none: nothing is kept */
    StrokeList strokes;
    StrokeList written; /* work area */
} Performed;

/* Keeps nothing. */
void performed_forget(Performed* performed);

/* Works out what isn't kept of the strokes of [begin, end) and a quarter note around, of all
   limbs whether they are heard or not.  `selection` is of that key, but for its swing.  Where
   there are more than its room `strokes.dropped` isn't 0. */
void performed_look(Performed* performed, PerformedKey key, const Selection* selection, Swing swing,
                    int64_t begin, int64_t end);

/* The strokes of [begin, end) alone, where there is no room for those around. */
void performed_crowd(Performed* performed, PerformedKey key, const Selection* selection,
                     Swing swing, int64_t begin, int64_t end, StrokeList* list);

/* The tick of the first stroke at or after a tick that is drawn from; where none is kept, that
   from which on it isn't known; the tick itself if nothing of that key is kept there. */
int64_t performed_next(const Performed* performed, const PerformedKey* key, int64_t tick);
