// SPDX-License-Identifier: ISC
/* articulation.h - one stroke as written becomes the hits that are played: moved and
   weighed by the feel, grace strokes before it.  Pure. */
#pragma once

#include "../feel/feel.h"
#include "../feel/grace.h"
#include "../groove/groove.h"

enum { ARTICULATION_MAX = 1 + GRACES_MAX };

/* One note to be played. */
typedef struct {
    int64_t tick;    /* as felt */
    int64_t written; /* as written; of its main stroke for a grace stroke */
    uint8_t limb;
    uint8_t voice;
    uint8_t level; /* Level as written; of a grace stroke LEVEL_GHOST */
    uint8_t velocity;
    bool is_grace;
} Hit;

/* What a performance depends on. */
typedef struct {
    const Selection* selection;
    const Feel* feel;
    Swing swing; /* the selection's may be another by now */
    Meter meter;
    double tempo;    /* quarter notes a minute */
    int64_t origin;  /* the groove's tick that is bar 0 to `selection` */
    int64_t in_song; /* ticks from the song's bar 0 to that: chance goes by the song's place */
    int64_t line;    /* before this tick another tempo still goes: what is played there */
    double lead;     /*   comes `lead` times as many ticks ahead; 0: no such line */
} Score;

/* Fills `hits`, the main one first, and tells how many they are.  `around` holds
   the strokes of all limbs a quarter note before and after. */
uint32_t articulation_of(const Score* score, Stroke stroke, const StrokeList* around,
                         Hit hits[ARTICULATION_MAX]);
