// SPDX-License-Identifier: ISC
/* seen.h - what a window that looks on is told: bars as they will be played, and the place
   in the song.  Plain values. */
#pragma once

#include "../engine/written/stroke.h"

enum {
    SEEN_STROKES_MAX = 320,        /* a bar's, grace strokes included; more are counted */
    SEEN_TURNS_MAX = 64,           /* starts of one pair's figure in a bar */
    SEEN_CLICKS_MAX = 128,         /* clicks in a bar */
    SEEN_VARIED = 3,               /* variations of the feet */
    SEEN_BARS = FORM_BARS_MAX + 1, /* a phrase, and the bar after it */
};

typedef struct {
    int32_t written; /* ticks from the bar line */
    int32_t felt;    /* likewise, as played; may lie before the bar line */
    uint8_t limb;    /* Limb */
    uint8_t voice;   /* Voice */
    uint8_t level;   /* Level */
    uint8_t velocity;
    bool is_grace;
    bool free; /* the player's own: it isn't written, or on another voice */
} SeenStroke;

typedef struct {
    uint32_t count;
    int32_t ticks[SEEN_TURNS_MAX]; /* from the bar line */
} SeenTurns;

/* The metronome's clicks of a bar, as if it were always on. */
typedef struct {
    uint32_t count;
    int32_t ticks[SEEN_CLICKS_MAX]; /* from the bar line */
} SeenClicks;

/* How the feet come to play otherwise than they were chosen: variations, as variation.h numbers
   them. */
typedef struct {
    uint8_t numbers[SEEN_VARIED]; /* one, one of that, and what those have grown to; 0: none */
    uint8_t reasons[SEEN_VARIED]; /* VaryReason: why each isn't played; 0: it is */
} SeenVaried;

/* One bar, all limbs whether they are heard or not. */
typedef struct {
    int64_t bar;   /* of the song, from 0 */
    uint32_t slot; /* bars from the first of the phrase; phrase_bars: the bar after */
    Meter meter;
    uint32_t in_phrase; /* 0 is the phrase's first */
    uint32_t phrase_bars;
    uint8_t part;       /* the form's letter, 0 is A */
    bool is_coming;     /* of a change that waits for its line */
    uint32_t groove;    /* ids; 0: none */
    uint32_t hands;     /* the letter's, until the fill, */
    uint32_t feet;      /*   under which these go on, unless fill_feet */
    int32_t hands_step; /* ticks of the grid, 0: none */
    int32_t feet_step;
    uint32_t fill;      /* id; 0: none in this bar, and all of it is 0 */
    bool fill_feet;     /* it has feet of its own */
    int32_t fill_begin; /* where it takes over: ticks from the bar line, 0 if before */
    int64_t fill_end;   /* the line it leads to: ticks from the bar line, > fill_begin */
    int32_t fill_step;  /* ticks of its grid, > 0 */
    SeenVaried varied;  /* the feet until the fill */
    SeenTurns hands_turns;
    SeenTurns feet_turns;
    SeenClicks clicks;
    bool gap;         /* the click is silent in this bar */
    uint32_t dropped; /* strokes beyond the room here */
    uint32_t count;
    SeenStroke strokes[SEEN_STROKES_MAX]; /* in order of written, then limb */
} SeenBar;

/* Where the song is, and what is about to change. */
typedef struct {
    int64_t bar;    /* from 0, negative in a count-in */
    double tick;    /* from the bar line */
    int64_t phrase; /* the first bar of the phrase it is in */
    uint32_t phrase_bars;
    double ticks_per_second; /* 0 standing */
    bool rolling;
    bool host_has_tempo; /* else the groove's own */
    bool host_has_place; /* bar and beat were told */
    bool waiting;        /* a change comes in at change_bar, change_tick in it; until then */
    int64_t change_bar;
    int32_t change_tick;
    bool late;  /* it waits a line longer, until its feet are made */
    bool loops; /* one bar of the phrase again and again */
    bool own_clock;
    bool click_rests;    /* in the gap now */
    int64_t click_bars;  /* until that changes; 0: never */
    double next_tempo;   /* of the ladder; that of now if it rises no more */
    int64_t ladder_bars; /* until then; 0: never */
    uint32_t feet_meet;  /* bars until the feet start on a bar line again; 0: over 99 */
    uint32_t all_meet;   /* bars until all meet again; 0: over 9999 */
} SeenPlace;
