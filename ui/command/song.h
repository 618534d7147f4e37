// SPDX-License-Identifier: ISC
/* song.h - sections played by the real plugin, gathered as a MIDI file. */
#pragma once

#include "host.h"
#include "../file/smf.h"

#include <stdbool.h>

/* One section, all names found and all defaults filled in. */
typedef struct {
    const char* label; /* for the marker at each phrase */
    int bars;
    int count_in;    /* bars of click before them, more than bars */
    int first_bar;   /* where in the groove it begins: 0, or where a rung before it ended */
    bool rolls_on;   /* the transport doesn't stop at its end: a rung comes after it */
    int clicks[2];   /* keys of the click, which are no strokes; -1: none */
    int phrase_bars; /* a marker at each phrase's start */
    double tempo;    /* quarter notes a minute */
    int beats;       /* of the meter */
    int beat_unit;
} SongSection;

/* A channel message, and when it sounds from the song's start. */
typedef struct {
    double seconds;
    uint8_t bytes[3];
} SongEvent;

enum { SONG_TRACKS = 2 }; /* tempo, meter and markers; drums */

typedef struct {
    SmfTrack tracks[SONG_TRACKS];
    SongEvent* events; /* the drum track's messages, in order */
    size_t event_count;
    size_t event_room;
    bool failed;      /* memory ran out */
    uint64_t tick;    /* where the next section begins */
    double seconds;   /* the same */
    int64_t frame;    /* the transport's there; 0 where it starts anew */
    uint32_t strokes; /* note-ons gathered, less the click's */
    int phrases;      /* markers written */
} Song;

/* Frames a second that a song must be played at, so that each of a file's ticks
   is at least two frames long up to 400 a minute and none is rounded away. */
enum { SONG_RATE = 192000 };

void song_begin(Song* song, const char* title);

/* Locates the plugin to the first bar (less the count-in), or goes on there after a
   section that rolls on; plays, and stops unless it rolls on itself.  The section's
   controls must be set in the host before. */
void song_play(Song* song, Host* host, const SongSection* section);

/* Ends the tracks and makes the file; false if memory ran out. */
bool song_end(Song* song, SmfBytes* file);

void song_free(Song* song);
