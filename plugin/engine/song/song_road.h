// SPDX-License-Identifier: ISC
/* song_road.h - the road map of a song, for whoever draws it or tells of it: section by section
   what changes.  Pure. */
#pragma once

#include "song_map.h"

typedef struct {
    uint32_t number;   /* of those with this name, from 1; 0: it is the only one */
    bool new_picks;    /* groove, hands or feet are others than in the section before */
    bool new_meter;    /* its first bar's is another than the last bar's before */
    bool many_meters;  /* it has more than one */
    bool new_tempo;    /* it begins at another than the section before it ended at */
    bool moving_tempo; /* it has a ramp or a ritardando */
    bool new_level;    /* likewise */
    bool moving_level;
} SongRoad;

SongRoad song_road(const SongMap* map, uint32_t row);
