// SPDX-License-Identifier: ISC
/* reel.h - parts of a song played by the real plugin as one performance, gathered as a MIDI
   file: one transport that rolls from the first bar to the last.  The plugin is told
   of each change before it comes, so that a section's early strokes come before its
   bar line, and nothing sounds of a bar that isn't in the song. */
#pragma once

#include "../../plugin/engine/groove/settings.h"
#include "../../plugin/talk/encode.h"
#include "../file/smf.h"
#include "host.h"

#include <stdbool.h>

/* One section, all names found and all defaults filled in. */
typedef struct {
    const char* label; /* for the marker at each phrase */
    int bars;
    int count_in;    /* bars of click before them, more than bars */
    int first_bar;   /* where in the groove it begins: 0, or where a rung before it ended */
    bool goes_on;    /* the groove of the section before goes on: a ladder's next rung */
    int clicks[2];   /* keys of the click, which are no strokes; -1: none */
    int phrase_bars; /* a marker at each phrase's start */
    double tempo;    /* quarter notes a minute */
    int beats;       /* of the meter */
    int beat_unit;
} ReelSection;

/* A stretch of one tempo and meter. */
typedef struct {
    int64_t ticks;    /* of the file, at least 1 */
    int64_t bars;     /* of the song, that begin in it: a bar's first part alone has 1 */
    int clicks[2];    /* as above */
    double tempo;     /* as above */
    Meter meter;      /* whole beats */
    bool is_told;     /* the plugin is told that something changes where it begins */
    ToldSection told; /* then what; whether it begins the song is found by itself */
} ReelPart;

/* What is written into the file at a tick. */
typedef struct {
    int64_t tick;
    char* text;
} ReelMark;

/* A channel message, and when it sounds from the song's start. */
typedef struct {
    double seconds;
    uint8_t bytes[3];
} ReelEvent;

enum { REEL_TRACKS = 2 }; /* tempo, meter and markers; drums */

typedef struct {
    Host* host;
    ReelPart* parts;
    size_t part_count;
    size_t part_room;
    int64_t part_ticks; /* of all of them */
    int64_t bars;       /* likewise */
    ReelMark* marks;    /* in order */
    size_t mark_count;
    size_t mark_room;
    SmfTrack tracks[REEL_TRACKS];
    ReelEvent* events; /* the drum track's messages, in order */
    size_t event_count;
    size_t event_room;
    bool failed;         /* memory ran out */
    double seconds;      /* how long it is, once it has ended */
    uint32_t strokes;    /* note-ons gathered, less the click's */
    int phrases;         /* phrases, or whatever is counted, that were marked */
    const char* counted; /* what these are called: "phrase" unless somebody says otherwise */
} Reel;

/* The host must be opened at TIMELINE_RATE and live as long as the song. */
void reel_begin(Reel* song, Host* host, const char* title);

/* Adds a section with the controls that are set in the host now. */
void reel_add(Reel* song, const ReelSection* section);

/* Adds a part, for who knows what changes where; a section is some of them. */
void reel_add_part(Reel* song, const ReelPart* part);

/* A marker `ticks` of the file behind the last part's end; none may be behind a later one. */
void reel_mark(Reel* song, int64_t ticks, const char* text);

/* Plays all, and makes the file; false if memory ran out. */
bool reel_end(Reel* song, Bytes* file);

void reel_free(Reel* song);
