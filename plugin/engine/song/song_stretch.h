// SPDX-License-Identifier: ISC
/* song_stretch.h - a song cut wherever anything changes: section and pass, meter, tempo by its
   steps, level beat by beat, silence, the fill at a section's end.  Within a stretch one meter, one
   tempo and one value of each control hold, so that it can be told to whoever plays settings from a
   place on.  Pure, and the same from anywhere within it. */
#pragma once

#include "song_map.h"

typedef struct {
    int64_t end;                   /* the tick at which something may be otherwise */
    SongBar bar;                   /* that the tick asked for lies in */
    double tempo;                  /* quarter notes a minute */
    float controls[CONTROL_COUNT]; /* on the host's clock; limbs are off where it is silent */
} SongStretch;

/* At a tick of the song, over the `ports`' values.  What is asked for of hits isn't in it (see
   song_beats.h); figures that roll start again at each bar where a section has several lengths of
   bars and doesn't say otherwise. */
SongStretch song_stretch(const SongMap* map, const Library* library,
                         const float ports[CONTROL_COUNT], int64_t tick);
