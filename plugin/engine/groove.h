// SPDX-License-Identifier: ISC
/* groove.h - which strokes fall in a span of musical time.  A pure function of
   (library, settings, meter, position): every block size, locate and render
   asks the same question and gets the same strokes. */
#pragma once

#include "library.h"
#include "settings.h"

/* The picks that are in effect, found in the library once per change.
   Ids the library lacks fall back: groove to the library's first, hands, feet
   and turnaround to what the groove has written, kit to the first. */
typedef struct {
    const Groove* groove;     /* NULL if the library has none: silence */
    const Figure* hands;      /* NULL: as written */
    const Figure* feet;       /* NULL: as written */
    const Figure* turnaround; /* NULL: none */
    const Kit* kit;           /* NULL if the library has none: silence */
    uint32_t phrase_bars;     /* at least 1 */
    bool limbs[LIMB_COUNT];
} Choice;

typedef struct {
    uint32_t count;
    uint32_t dropped;                 /* strokes beyond the list's room */
    Stroke strokes[SPAN_STROKES_MAX]; /* tick counts from bar 0 */
} StrokeList;

Choice choice_make(const Library* library, const Settings* settings);

/* The strokes with begin <= tick < end, in order of tick, then limb.  Ticks
   count from bar 0 of `meter`; bars before it are the host's count-in and
   silent.  How a figure meets the bar: one written for whole bars starts at the
   bar line, is cut by a shorter bar and starts again in a longer one; any other
   rolls on over the bar lines from the phrase's first bar.  Phrases are counted
   from bar 0. */
void choice_strokes(const Choice* choice, Meter meter, int64_t begin, int64_t end,
                    StrokeList* list);
