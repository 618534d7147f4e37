// SPDX-License-Identifier: ISC
/* click.h - the metronome: which clicks fall in a span of the groove's time, and
   which of them the gap silences.  A pure function of (selection, settings, meter,
   position); a click stands on its tick exactly, without swing or feel. */
#pragma once

#include "../groove/groove.h"
#include "lookahead.h"

enum { CLICKS_MAX = SPAN_STROKES_MAX }; /* sixteen bars of sixteenths in 4/4 */

typedef struct {
    int64_t tick;
    bool is_accent; /* the first of a bar */
    bool is_silent; /* in the gap: its place is kept, nothing is heard */
} Click;

typedef struct {
    uint32_t count;
    uint32_t dropped; /* beyond the list's room */
    Click clicks[CLICKS_MAX];
} ClickList;

/* The clicks with begin <= tick < end, in order.  Ticks count from bar 0; bars
   before it are the count-in, whose clicks the gap never silences.  Every bar
   line has an accent.  Beats are the meter's beat units; eighths, triplets and
   sixteenths are parts of a quarter note counted from the bar line; the feet's
   grid is that of the feet in this bar (see groove_feet_grid). */
void click_strokes(const Selection* selection, ClickSettings settings, Meter meter, int64_t begin,
                   int64_t end, ClickList* list);

/* Where the gap stands. */
typedef struct {
    bool is_silent;
    int64_t bars_left; /* until that changes, this bar included; 0: never */
} GapReach;

/* In `bar`, counted from bar 0: gap_play bars with, then gap_rest without. */
GapReach click_gap(ClickSettings settings, int64_t bar);

/* Velocity: an accent is half the way from the level to the loudest. */
uint8_t click_velocity(ClickSettings settings, bool is_accent);

/* Puts the clicks that are heard among the hits that are due; how many found no
   room there. */
uint32_t click_join(const ClickList* list, ClickSettings settings, HitList* due);
