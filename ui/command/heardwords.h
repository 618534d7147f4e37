// SPDX-License-Identifier: ISC
/* heardwords.h - what is told of somebody's playing, for people to read.  `names`: of the four
   rows, in order of Limb. */
#pragma once

#include "heard.h"

#include <stdbool.h>
#include <stdio.h>

/* What a clean phrase may have: missed or extra strokes in 32 written ones; ms of spread. */
#define HEARDWORDS_SPREAD_MS 25.0
enum { HEARDWORDS_MISSES = 1 };

/* A table of the rows that have something written, and what its columns mean. */
void heardwords_table(FILE* out, const Told* told, const char* const names[LIMB_COUNT]);

/* "clean", or what isn't: "left foot (2 of 16 dropped, a spread of 31 ms)". */
void heardwords_phrase(FILE* out, const Told* told, const char* const names[LIMB_COUNT]);

/* One sentence on whoever stands out most, or that nobody does. */
void heardwords_most(FILE* out, const Told* told, const char* const names[LIMB_COUNT]);

typedef struct {
    uint32_t written;
    uint32_t missed;
    uint32_t extra; /* notes that nothing written is like, too */
} HeardCount;

/* Of all rows that were played at all. */
HeardCount heardwords_count(const Told* told);

/* Whether what was played is hardly what is written, such as at another tempo: of the rows that
   were played more than half missed or extra, or a spread as no published player has it. */
bool heardwords_elsewhere(const Told* told);
