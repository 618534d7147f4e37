// SPDX-License-Identifier: ISC
/* song.h - a whole song as somebody plans it: named sections in order, each with what is
   played in it, its bars, meters, tempo, level, take, hits, stops and ending.  As it is
   written: what a section leaves open follows from what stands before it and from its groove
   (song_map.h).  Plain bounded values, so that a copy is one assignment. */
#pragma once

#include "../groove/controls.h"
#include "../groove/settings.h"
#include "../written/stroke.h"

enum {
    SONG_NAME_ROOM = 48,    /* bytes of a name, its 0 included: a marker, a chart's row */
    SONG_SECTIONS_MAX = 64, /* what the port `section` counts to */
    SONG_BARS_MAX = 999,    /* of one section: half an hour at 120 */
    SONG_TIMES_MAX = 99,    /* that a section is played in a row */
    SONG_METERS_MAX = 16,   /* bar by bar, before they come round: the longest phrase */
    SONG_HITS_MAX = 32,     /* of one section */
    SONG_STOPS_MAX = 16,    /* likewise */
    SONG_CONTROLS_MAX = 32, /* all that a selection has, and the feel */
    SONG_BEATS_MAX = 256,   /* of an ending or a ritardando: 64 bars of 4/4 */
};

/* What the section's end is made of; the last `ending_beats` beats of each pass but for
   SONG_GOES_ON. */
typedef enum {
    SONG_GOES_ON,
    SONG_FILL,  /* a turnaround takes over */
    SONG_STOP,  /* silence */
    SONG_CHOKE, /* the hands grip the cymbals, then silence */
    SONG_HIT,   /* the whole kit strikes where they begin, then silence */
    SONG_RING,  /* the same, and what was struck sounds on to the section's end */
    SONG_ENDINGS
} SongEnding;

enum { SONG_PARTS = 720720 }; /* of a beat: every share up to a sixteenth of one is whole */

/* A place within a pass through the section, in the beats that its meter counts. */
typedef struct {
    int32_t bar;  /* from 0 */
    int32_t beat; /* from 0 */
    int32_t part; /* and so much of a beat, 0 to SONG_PARTS - 1 */
} SongSpot;

typedef struct {
    SongSpot at;
    uint32_t voices; /* a bit for each Voice: 1 << VOICE_KICK; 0: the whole kit */
} SongHit;

enum { SONG_TO_THE_END = -1 }; /* as the bar of a stop's end */

/* Nothing is played from one place up to the other but hits. */
typedef struct {
    SongSpot from;
    SongSpot until; /* its bar may be SONG_TO_THE_END */
} SongStop;

typedef struct {
    uint8_t control; /* Control */
    float value;
} SongControl;

typedef struct {
    char name[SONG_NAME_ROOM];
    uint32_t bars;        /* 1 to SONG_BARS_MAX; of a pickup 1 */
    uint32_t beats;       /* a pickup: its one bar has so many of the meter's beats; else 0 */
    uint32_t times;       /* passes in a row, 1 to SONG_TIMES_MAX */
    bool rests;           /* nothing is played in it but hits */
    uint32_t meter_count; /* 0: as the groove is written */
    Meter meters[SONG_METERS_MAX]; /* of one bar after the other, and round again */
    double tempo;                  /* quarter notes a minute at its beginning; 0: as it goes on */
    double tempo_to;               /* at the end of its last pass; 0: it stays */
    uint32_t ritard_beats;         /* the last so many beats of the last pass slow down; 0: none */
    double ritard_to;              /* to this; 0: to SONG_RITARD of what it was */
    double level;                  /* 1 to 127, as the control of that name; 0: as it goes on */
    double level_to;               /* at the end of its last pass; 0: it stays */
    uint32_t take;                 /* 0: another for each pass through the same picks */
    CrashWhen crash; /* as written, never or section; the controls' if they have one */
    SongEnding ending;
    uint32_t ending_beats; /* 0: a fill as long as it is written, anything else a bar */
    uint32_t fill;         /* id of the turnaround that SONG_FILL plays; 0: the section's own */
    uint32_t hit_count;
    SongHit hits[SONG_HITS_MAX];
    uint32_t stop_count;
    SongStop stops[SONG_STOPS_MAX];
    uint32_t control_count;
    SongControl controls[SONG_CONTROLS_MAX]; /* each at most once; the picks are among them */
} SongSection;

typedef struct {
    uint32_t id; /* 0: none is stated */
    char title[SONG_NAME_ROOM];
    double tempo;  /* of the first section, where it says none; 0: as its groove is written */
    double level;  /* likewise; 0: the control's default */
    uint32_t take; /* of each first pass, 1 to 9999 */
    uint32_t section_count;
    SongSection sections[SONG_SECTIONS_MAX];
} Song;

/* What a ritardando slows down to where nobody says: so much of the tempo before it.  Ours, no
   source. */
#define SONG_RITARD 0.6

/* One that says nothing: a bar, once. */
SongSection song_section(void);

/* Puts a control's value, in place of what it had.  False if there is no room. */
bool song_put(SongSection* section, Control control, float value);

/* The value it has for a control, or NULL. */
const float* song_value(const SongSection* section, Control control);

/* True if both pick the same groove, hands and feet: the same part of a song come again. */
bool song_picks_alike(const SongSection* a, const SongSection* b);

/* True if a section may say what this control is: what it plays and how, not what moves it, nor
   clicks, nor where it goes, nor what a section has words of its own for. */
bool song_may_set(Control control);
