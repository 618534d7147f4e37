// SPDX-License-Identifier: ISC
/* song_parts.h - a song as it is planned, into the parts that the plugin plays: one for each
   stretch in which nothing changes.  A tempo that moves has a step each sixteenth note
   (song_time.h), a level one each beat. */
#pragma once

#include "../../plugin/engine/song/song_map.h"
#include "reel.h"

typedef struct {
    const SongMap* map;
    const Library* library;
    float controls[CONTROL_COUNT]; /* what the song leaves to the ports */
    int clicks[2];                 /* keys of the click, -1: none */
    int count_in;                  /* bars of click before its first bar */
} SongPlayed;

/* Adds all of it, with a marker where each pass through a section begins. */
void song_parts_add(const SongPlayed* played, Reel* song);
