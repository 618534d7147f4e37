// SPDX-License-Identifier: ISC
/* fill.h - where a fill stands: a turnaround takes over for its own last ticks before a
   bar line, so that what is too long loses its beginning.  The one place that says so.  Pure.

   Lines: each phrase's end, or each `fill_every` bars counted from bar 0 instead.  Length:
   the turnaround's cycle, but never more than the bars that it is written for (or
   FILL_BARS_MAX of them), than `fill_beats` beats of the meter, or than the bars from line
   to line. */
#pragma once

#include "bar.h"

/* In effect in [begin, end): ticks from bar 0.  Its own last tick is before `end`. */
typedef struct {
    const Figure* figure; /* NULL: none */
    int64_t begin;        /* may lie before the bar that was asked for */
    int64_t end;
} Fill;

/* The fill that is in effect at the bar's end or in all of it; there is one at most. */
Fill fill_in_bar(const Selection* selection, const Bar* bar);

/* True if a fill that `fill_every` or `fill_bar` asks for ends on the bar's line. */
bool fill_ends_before(const Selection* selection, const Bar* bar);

/* The first bar on whose line a fill can end that begins at `from` or later, a tick from
   bar 0, and doesn't reach into another; 0: none can.  *comes: the groove has that one by
   itself.  What `fill_bar` asks for already is left aside. */
int64_t fill_next_bar(const Selection* selection, Meter meter, int64_t from, bool* comes);

enum { FILL_ROUND_MAX = 64 }; /* bars: as many as there can be from fill to fill */

/* Bars until phrases and fills come round together, but at most `most`; without fills of
   their own round the phrase's. */
uint32_t fill_round_bars(const Selection* selection, uint32_t most);

/* True if a fill stands well before a bar line of the meter: it was written for as long bars,
   or it lasts whole eighths (in sixteenths: those), four bars at most, and where the meter is
   made of beats of three it cuts none but the last. */
bool fill_fits(const Figure* fill, Meter meter);
