// SPDX-License-Identifier: ISC
/* fraction.h - musical time as exact fractions of a quarter note, made without
   the ticks under test, and what is played as a list to hold against them. */
#pragma once

#include "../engine/library.h"
#include "../help/check.h"

#include <stdio.h>

/* Quarters from bar 0, or a length in quarters; below > 0. */
typedef struct {
    int64_t above;
    int64_t below;
} Fraction;

static inline Fraction fraction(const int64_t above, const int64_t below)
{
    return (Fraction){above, below};
}

/* A failure shows tick and place both times the place's lower number. */
#define CHECK_PLACE(tick, place) check_place(tick, place, #tick, __FILE__, __LINE__)

static inline void check_place(const int64_t tick, const Fraction place, const char* const what,
                               const char* const file, const int line)
{
    char text[128];
    snprintf(text, sizeof text, "%s * %d", what, (int)place.below);
    check_int(tick * place.below, place.above * TICKS_PER_QUARTER, text, file, line);
}

enum { PLAYED_MAX = 20000 };

/* All strokes of a stretch, whatever a single list can hold. */
typedef struct {
    uint32_t count;
    Stroke strokes[PLAYED_MAX];
} Played;

static inline void played_add(Played* const played, const StrokeList* const list)
{
    for (uint32_t i = 0; i < list->count && played->count < PLAYED_MAX; ++i) {
        played->strokes[played->count++] = list->strokes[i];
    }
    CHECK_INT(list->dropped, 0);
}

/* Asks piece by piece, `piece` ticks at a time. */
static inline void play_pieces(const Selection* const selection, const Meter meter,
                               const int64_t end, const int64_t piece, Played* const played)
{
    static StrokeList list;
    played->count = 0;
    for (int64_t begin = 0; begin < end; begin += piece) {
        const int64_t stop = begin + piece < end ? begin + piece : end;
        groove_strokes(selection, meter, begin, stop, &list);
        played_add(played, &list);
    }
}

static inline void play(const Selection* const selection, const Meter meter, const int64_t end,
                        Played* const played)
{
    play_pieces(selection, meter, end, TICKS_PER_QUARTER, played);
}

/* Chance for property tests: the same in every run. */
static inline uint32_t dice(uint32_t* const state, const uint32_t sides)
{
    *state = *state * 1664525U + 1013904223U; /* Knuth's constants for 32 bits */
    return (*state >> 8) % sides;
}
