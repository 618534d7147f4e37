// SPDX-License-Identifier: ISC
/* varied.h - which feet play in place of others: variations, one made of another, and how they
   grow; kept while they play.  What plays is a function of what is asked alone: what isn't kept
   is made anew, and is the same.  Bounded work and memory. */
#pragma once

#include "variation.h"

enum {
    VARIED_FIGURES_MAX = 32, /* a phrase's eight letters, before and after it grows, and between */
    VARIED_STROKES_MAX = 1024, /* of all that is kept: one of the longest, and what it is made of */
    VARIED_ORDERS_MAX = 8,     /* one for each letter */
    VARIED_DEPTH = 3,          /* a variation, one of that, and what is grown of both */
    VARIED_STAYS = -1,         /* a turn: it doesn't grow */
};

typedef struct {
    const Figure* feet;
    const Figure* hands; /* over them; NULL: they rest */
    Meter meter;
    uint32_t first;  /* variations; 0: none */
    uint32_t second; /* of what the first makes */
    int64_t turn;    /* how often it was to grow, from 0; VARIED_STAYS */
} VariedAsk;

/* What plays of it: a variation that can't be made, or makes no difference, plays what it was
   to be made of. */
typedef struct {
    const Figure* figure;          /* until another is asked for; or the feet themselves */
    uint8_t numbers[VARIED_DEPTH]; /* of the first, the second, and what is grown; 0: none.
                                           Of a number that nobody has: VARIATION_COUNT */
    uint8_t reasons[VARIED_DEPTH]; /* VaryReason: why each isn't played */
} VariedFeet;

/* What is made of what. */
typedef struct {
    const Figure* feet;
    const Figure* hands;
    Meter meter;
    uint8_t numbers[VARIED_DEPTH];
} VariedKey;

/* Rows from the plainest to the fullest. */
typedef struct {
    VariedKey base; /* what grows; no feet: none */
    uint32_t count;
    uint8_t numbers[VARIATION_COUNT];
} VariedOrder;

typedef struct {
    VariedKey key;  /* no feet: none */
    Figure figure;  /* no strokes: nothing was made */
    uint32_t begin; /* of its strokes */
    uint32_t used;  /* when it was asked for */
    uint8_t reasons[VARIED_DEPTH];
} VariedSlot;

typedef struct {
    VariedSlot slots[VARIED_FIGURES_MAX];
    Stroke strokes[VARIED_STROKES_MAX];
    uint32_t next; /* stroke to be written */
    uint32_t clock;
    uint32_t last; /* slot found last */
    VariedOrder orders[VARIED_ORDERS_MAX];
    uint32_t next_order;
    VariedKey growing; /* of these rows so many were looked at */
    uint32_t looked;
    VariationRow rows[VARIATION_COUNT];
    VariationRoom room;
} Varied;

/* Keeps nothing.  To be called first, and when a figure asked for is gone. */
void varied_forget(Varied* varied);

/* What plays; at once, whatever has to be made for it. */
VariedFeet varied_find(Varied* varied, const VariedAsk* ask);

/* Makes so many variations at most towards that, and counts them down; true if none is
   missing. */
bool varied_step(Varied* varied, const VariedAsk* ask, uint32_t* makes);

/* How many have to be made for it at most, if none is kept. */
uint32_t varied_steps(const VariedAsk* ask);
