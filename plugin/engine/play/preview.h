// SPDX-License-Identifier: ISC
/* preview.h - the phrase as it will be played, bar by bar, for whoever looks on: a
   window.  Compiled from the engine's own state, a quarter note a step, so that no
   block has more than a bounded share of the work.  Audio thread; decides nothing. */
#pragma once

#include "engine.h"

enum {
    PREVIEW_STROKES_MAX = 320,        /* a bar's, grace strokes included; more are counted */
    PREVIEW_TURNS_MAX = 64,           /* starts of one pair's figure in a bar */
    PREVIEW_CLICKS_MAX = 128,         /* clicks in a bar */
    PREVIEW_BARS = FORM_BARS_MAX + 1, /* a phrase, and the bar after it */
};

typedef struct {
    int32_t written; /* ticks from the bar line */
    int32_t felt;    /* likewise, as played; may lie before the bar line */
    uint8_t limb;    /* Limb */
    uint8_t voice;   /* Voice */
    uint8_t level;   /* Level */
    uint8_t velocity;
    bool is_grace;
} PreviewStroke;

typedef struct {
    uint32_t count;
    int32_t ticks[PREVIEW_TURNS_MAX]; /* from the bar line */
} PreviewTurns;

/* The metronome's clicks of a bar, as if it were always on. */
typedef struct {
    uint32_t count;
    int32_t ticks[PREVIEW_CLICKS_MAX]; /* from the bar line */
} PreviewClicks;

/* One bar, all limbs whether they are heard or not. */
typedef struct {
    int64_t bar;   /* of the song, from 0 */
    uint32_t slot; /* bars from the first of the phrase; phrase_bars: the bar after */
    Meter meter;
    uint32_t in_phrase; /* 0 is the phrase's first */
    uint32_t phrase_bars;
    uint8_t part;    /* the form's letter, 0 is A */
    bool turns;      /* the turnaround is played in its place */
    bool is_coming;  /* of a change that waits for its line */
    uint32_t groove; /* ids; 0: none */
    uint32_t hands;
    uint32_t feet;
    int32_t hands_step; /* ticks of the grid, 0: none */
    int32_t feet_step;
    PreviewTurns hands_turns;
    PreviewTurns feet_turns;
    PreviewClicks clicks;
    bool gap;         /* the click is silent in this bar */
    uint32_t dropped; /* strokes beyond the room here */
    uint32_t count;
    PreviewStroke strokes[PREVIEW_STROKES_MAX]; /* in order of written, then limb */
} PreviewBar;

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
    bool loops; /* one bar of the phrase again and again */
    bool own_clock;
    bool click_rests;    /* in the gap now */
    int64_t click_bars;  /* until that changes; 0: never */
    double next_tempo;   /* of the ladder; that of now if it rises no more */
    int64_t ladder_bars; /* until then; 0: never */
    uint32_t feet_meet;  /* bars until the feet start on a bar line again; 0: over 99 */
    uint32_t all_meet;   /* bars until all meet again; 0: over 9999 */
} PreviewPlace;

/* What a compiled bar was made from. */
typedef struct {
    uint32_t revision;
    double tempo;
} PreviewKey;

typedef struct {
    int64_t bar; /* -1: none yet */
    PreviewKey key;
    uint64_t made; /* rises with each bar made */
} PreviewSlot;

typedef struct {
    PreviewSlot slots[PREVIEW_BARS]; /* by place in the phrase; the last: the bar after */
    uint64_t made;
    int64_t origin;      /* first bar of the phrase looked at */
    int64_t told_phrase; /* of the place told last */
    uint32_t told_bars;  /* likewise; PREVIEW_BARS: none was */
    bool is_making;      /* `seen` is not whole yet */
    bool is_ready;       /* `seen` is whole and not fetched yet */
    uint32_t slot;       /* of `seen` */
    PreviewKey key;      /* of `seen` */
    int64_t at;          /* next tick to look at, from the bar line */
    PreviewBar seen;
    StrokeList strokes; /* work area */
    StrokeList around;  /* work area */
    ClickList clicks;   /* work area */
    int64_t meet_bar;   /* the bar for which these were found */
    PreviewKey meet_key;
    uint32_t feet_meet;
    uint32_t all_meet;
} Preview;

/* Looks at everything anew. */
void preview_start(Preview* preview);

/* One quarter note's worth of looking; the bar now playing comes first, the one
   made longest ago next.  Does nothing while a whole bar waits to be fetched. */
void preview_step(Preview* preview, const Engine* engine);

/* The bar that has become whole, once; NULL if none has.  It counts as told. */
const PreviewBar* preview_fetch(Preview* preview);

PreviewPlace preview_place(Preview* preview, const Engine* engine);

/* Is to be called with every place that is told: of another phrase a window keeps the bar
   after the last, if that is the new one's first, and drops those beyond the bar after. */
void preview_told(Preview* preview, const PreviewPlace* place);
