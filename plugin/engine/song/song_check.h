// SPDX-License-Identifier: ISC
/* song_check.h - what is wrong in a song that each of its sections alone can't tell: places beyond
   its bars, endings longer than it is.  Pure; who shows it has the words. */
#pragma once

#include "song_map.h"

typedef enum {
    SONG_RIGHT,
    SONG_HIT_OUTSIDE,  /* `which` hit is beyond the section's bars or its bar's beats */
    SONG_HIT_LIMBS,    /* `which` hit needs more limbs than anybody has */
    SONG_STOP_OUTSIDE, /* `which` stop's beginning or end likewise */
    SONG_STOP_EMPTY,   /* `which` stop ends where it begins, or before */
    SONG_ENDING_LONG,  /* the ending has more beats than a pass */
    SONG_RITARD_LONG,  /* the ritardando has more beats than the section */
    SONG_NO_FILL,      /* it ends with a fill, and neither it nor its groove has one */
    SONG_TOO_LONG      /* the song has more than SONG_LONGEST bars by here */
} SongFault;

enum { SONG_LONGEST = 9999 };

/* The first fault of a section, SONG_RIGHT if it has none; *which says of which hit or stop. */
SongFault song_check(const SongMap* map, uint32_t row, const Library* library, uint32_t* which);
