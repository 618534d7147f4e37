// SPDX-License-Identifier: ISC
/* reel.h - sections played by the real plugin as one performance, gathered as a MIDI
   file: one transport that rolls from the first bar to the last.  The plugin is told
   of each section before it comes, so that a section's early strokes come before its
   bar line, and nothing sounds of a bar that isn't in the song. */
#pragma once

#include "../../plugin/engine/groove/settings.h"
#include "../file/smf.h"
#include "host.h"

#include <stdbool.h>

/* One section, all names found and all defaults filled in. */
typedef struct {
    const char* label; /* for the marker at each phrase; must live as long as the song */
    int bars;
    int count_in;    /* bars of click before them, more than bars */
    int first_bar;   /* where in the groove it begins: 0, or where a rung before it ended */
    bool goes_on;    /* the groove of the section before goes on: a ladder's next rung */
    int clicks[2];   /* keys of the click, which are no strokes; -1: none */
    int phrase_bars; /* a marker at each phrase's start */
    double tempo;    /* quarter notes a minute */
    int beats;       /* of the meter */
    int beat_unit;
    float controls[CONTROL_COUNT]; /* reel_add fills them in */
} ReelSection;

/* A channel message, and when it sounds from the song's start. */
typedef struct {
    double seconds;
    uint8_t bytes[3];
} ReelEvent;

enum { REEL_TRACKS = 2 }; /* tempo, meter and markers; drums */

typedef struct {
    Host* host;
    ReelSection* sections;
    size_t section_count;
    size_t section_room;
    SmfTrack tracks[REEL_TRACKS];
    ReelEvent* events; /* the drum track's messages, in order */
    size_t event_count;
    size_t event_room;
    bool failed;      /* memory ran out */
    double seconds;   /* how long it is, once it has ended */
    uint32_t strokes; /* note-ons gathered, less the click's */
    int phrases;      /* markers written */
} Reel;

/* The host must be opened at TIMELINE_RATE and live as long as the song. */
void reel_begin(Reel* song, Host* host, const char* title);

/* Adds a section with the controls that are set in the host now. */
void reel_add(Reel* song, const ReelSection* section);

/* Plays all, and makes the file; false if memory ran out. */
bool reel_end(Reel* song, Bytes* file);

void reel_free(Reel* song);
