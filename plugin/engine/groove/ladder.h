// SPDX-License-Identifier: ISC
/* ladder.h - the own clock's tempo, phrase by phrase: a closed form, so that the
   same phrase has the same tempo however it was reached.  Pure; any thread. */
#pragma once

#include "settings.h"

#include <stdint.h>

/* No phrase: the tempo stays. */
enum { LADDER_STAYS = -1 };

/* Quarter notes a minute in a phrase, counted from 0:
   min(top, tempo + step * floor(phrase / every)), and never under `tempo`, so
   that a top below it is no rise.  Phrases before 0, the count-in, have `tempo`. */
double ladder_tempo(Ladder ladder, int64_t phrase);

/* The first phrase after this one that has another tempo, or LADDER_STAYS. */
int64_t ladder_next_phrase(Ladder ladder, int64_t phrase);

/* How far the ladder has come. */
typedef struct {
    double tempo;      /* quarter notes a minute, before the practice rate */
    double next_tempo; /* the same as `tempo` if there is no further rise */
    int64_t bars_left; /* until it rises, this bar included; 0: never */
} LadderReach;

/* In `bar`, counted from bar 0, with `phrase_bars` (at least 1) to a phrase. */
LadderReach ladder_reach(Ladder ladder, uint32_t phrase_bars, int64_t bar);
