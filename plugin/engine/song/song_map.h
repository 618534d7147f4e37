// SPDX-License-Identifier: ISC
/* song_map.h - what follows from a song as it is written, for whoever asks by place: on which
   bar each section begins, and what it leaves open.  Made whenever song or library change;
   everything else in this room is a pure function of it and a place, whatever was asked before.

   A place is a bar of the song, from 0, or a tick from the song's first bar line: each bar has
   its own meter, so ticks are counted bar by bar.

   What a section leaves open: its meter is its groove's; one that rests has the meter before
   it.  Tempo and level go on as they were at the end of the section before; after a ritardando
   as they were before that (a tempo). */
#pragma once

#include "../written/library.h"
#include "song.h"

/* A section, all of its passes. */
typedef struct {
    int64_t bar;          /* where it begins */
    int64_t tick;         /* likewise */
    int64_t pass_bars;    /* of one pass */
    int64_t pass_ticks;   /* likewise */
    int64_t round_ticks;  /* of the meters, before they come round */
    uint32_t meter_count; /* at least 1 */
    Meter meters[SONG_METERS_MAX];
    double tempo; /* quarter notes a minute, at its beginning */
    double tempo_to;
    double ritard_to;     /* the tempo at its end, if it has a ritardando */
    int64_t ritard_ticks; /* before its end; 0: none */
    double level;
    double level_to;
    uint32_t take; /* of its first pass; each later one is one more, unless it is stated */
} SongRow;

typedef struct {
    const Song* song; /* as it was made from; must stay */
    uint32_t count;
    SongRow rows[SONG_SECTIONS_MAX];
    int64_t bars; /* of all */
    int64_t ticks;
} SongMap;

/* `library` is for what grooves have written. */
void song_map_make(SongMap* map, const Song* song, const Library* library);

/* One bar of the song. */
typedef struct {
    const SongSection* section; /* NULL: it is before the song or after it, and all is 0 */
    uint32_t row;               /* which section, from 0 */
    uint32_t pass;              /* from 0 */
    int64_t in_pass;            /* bar of the pass, from 0 */
    int64_t first;              /* the song's bar that the pass begins at */
    int64_t tick;               /* of its line */
    int64_t ticks;              /* how long it is */
    Meter meter;
} SongBar;

SongBar song_map_bar(const SongMap* map, int64_t bar);

/* The bar that a tick lies in. */
SongBar song_map_at(const SongMap* map, int64_t tick);

/* Where a bar of a pass stands, in ticks from the pass's first line; `bar` may be its end. */
int64_t song_map_pass_tick(const SongRow* row, int64_t bar);

/* The meter of a bar of a pass. */
Meter song_map_pass_meter(const SongRow* row, int64_t bar);

/* The take that is played in a bar. */
uint32_t song_map_take(const SongMap* map, const SongBar* bar);
