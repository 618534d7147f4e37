// SPDX-License-Identifier: ISC
/* lookahead.h - strokes as written become hits as played: drawn from the groove
   a little ahead, moved and weighed by the feel, kept until their time comes.
   Every stroke is drawn once and played once, whatever the block size. */
#pragma once

#include "articulation.h"
#include "performed.h"

enum {
    HITS_MAX = 512, /* two quarter notes of four limbs, graces, and what lasts over a jump */
    AHEAD_MAX = 64, /* hits played before their written place: a quarter of four limbs */
};

typedef struct {
    uint32_t count;
    Hit hits[HITS_MAX]; /* in order of tick, then limb */
} HitList;

typedef struct {
    HitList waiting;
    HitList due;          /* of the last lookahead_take */
    int64_t drawn_until;  /* first written tick not drawn yet */
    uint32_t dropped;     /* strokes for which there was no room */
    Hit ahead[AHEAD_MAX]; /* played before their written place, newest last */
    uint32_t ahead_count;
    Performed performed; /* around what is drawn */
} Lookahead;

/* Begins with nothing drawn.  Lists are as long as their counts say: what lies behind that
   isn't touched, so that memory which no stroke needs is never asked for. */
void lookahead_start(Lookahead* lookahead);

/* A jump of the transport, in ticks. */
typedef struct {
    double from;  /* the place left */
    double to;    /* the place reached */
    int64_t seam; /* first written tick to play there */
    bool rolling; /* before and after; else a start or stop */
} Jump;

/* Drawing goes on from the seam.  Of a rolling jump: a stroke played ahead of
   the place left isn't played again at the same distance from the place reached
   (a loop's first) where it is the same: limb, voice and level; and what was late
   is played at once. */
void lookahead_jump(Lookahead* lookahead, Jump jump);

/* Ticks count from elsewhere now: everything waiting moves with them. */
void lookahead_shift(Lookahead* lookahead, int64_t delta);

/* Takes back what was drawn from `tick` on and hasn't been played. */
void lookahead_take_back(Lookahead* lookahead, int64_t tick);

/* Draws what is written before `until`.  The key is of the score's selection. */
void lookahead_draw(Lookahead* lookahead, const Score* score, PerformedKey key, int64_t until);

/* Which limbs are heard: what is written before the line, and from it on. */
typedef struct {
    int64_t line;
    const bool* limbs; /* LIMB_COUNT, as in Selection */
    const bool* limbs_after;
} LimbsHeard;

/* Moves the hits before `until` into `due`; those of silent limbs are left out. */
void lookahead_take(Lookahead* lookahead, int64_t until, LimbsHeard heard);
