// SPDX-License-Identifier: ISC
/* preview.h - the phrase as it will be played, bar by bar, for whoever looks on: a
   window.  Compiled from the engine's own state, a quarter note a step, so that no
   block has more than a bounded share of the work.  Audio thread; decides nothing. */
#pragma once

#include "../../talk/seen.h"
#include "engine.h"

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
    PreviewSlot slots[SEEN_BARS]; /* by place in the phrase; the last: the bar after */
    uint64_t made;
    int64_t origin;      /* first bar of the phrase looked at */
    int64_t told_phrase; /* of the place told last */
    uint32_t told_bars;  /* likewise; SEEN_BARS: none was */
    bool is_making;      /* `seen` is not whole yet */
    bool is_ready;       /* `seen` is whole and not fetched yet */
    uint32_t slot;       /* of `seen` */
    PreviewKey key;      /* of `seen` */
    int64_t at;          /* next tick to look at, from the bar line */
    SeenBar seen;
    StrokeList written; /* work area */
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
const SeenBar* preview_fetch(Preview* preview);

SeenPlace preview_place(Preview* preview, const Engine* engine);

/* Is to be called with every place that is told: of another phrase a window keeps the bar
   after the last, if that is the new one's first, and drops those beyond the bar after. */
void preview_told(Preview* preview, const SeenPlace* place);
