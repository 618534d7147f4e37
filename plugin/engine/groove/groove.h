// SPDX-License-Identifier: ISC
/* groove.h - which strokes fall in a span of musical time.  A pure function of
   (library, settings, swing, meter, position): every block size, locate and
   render asks the same question and gets the same strokes. */
#pragma once

#include "selection.h"

/* The strokes with begin <= tick < end, in order of tick, then limb.  Ticks
   count from bar 0 of `meter`; bars before it are the host's count-in and
   silent.  How a figure meets the bar: one written for whole bars starts at the
   bar line, is cut by a shorter bar and starts again in a longer one; any other,
   and any on another grid or cycle than written, rolls on over the bar lines,
   from where `realign` says.  Phrases are counted from bar 0.  A fill takes over for
   the last ticks before its line (see fill.h): the hands, and the feet if it has any, as
   it is written; until then all goes on.  With a loop bar
   every bar is that bar of the first phrase, rolling figures included; a bar
   beyond the phrase is the one that stands there in the song (bar 6 of a phrase
   of 4 is its bar 2). */
void groove_strokes(const Selection* selection, Meter meter, int64_t begin, int64_t end,
                    StrokeList* list);

/* Even steps: one at `origin`, others every `step` ticks from it both ways. */
typedef struct {
    int64_t origin;
    int64_t step;  /* > 0 */
    int64_t until; /* a tick: beyond it they may be others */
} StepGrid;

/* The steps that the feet are laid on at a tick, to the bar's end at most; the
   meter's beats where they have none, or lines whose common step is too fine to
   count by: more than 8 in a quarter note without being asked for. */
StepGrid groove_feet_grid(const Selection* selection, Meter meter, int64_t tick);

/* Bars until hands, feet, bar line and phrase all meet again; 0 if that takes
   more than 9999. */
uint32_t groove_realign_bars(const Selection* selection, Meter meter);

/* What one bar, from 0, is made of; figures are NULL where those limbs rest.  Hands and
   feet are those of the letter, in effect until the fill; the feet under it too, unless it
   has feet. */
typedef struct {
    uint32_t in_phrase; /* 0 is the phrase's first bar */
    uint8_t part;       /* the form's letter, 0 is A */
    const Figure* hands;
    const Figure* feet; /* as varied, until another bar is asked for */
    VariedFeet varied;  /* how */
    int64_t hands_step; /* ticks of the grid; 0 where those limbs rest */
    int64_t feet_step;
    const Figure* fill; /* NULL: none in this bar */
    int64_t fill_begin; /* ticks from the bar line, 0 where it took over before */
    int64_t fill_end;   /* the line that it leads to, ticks from the bar line */
} BarParts;

/* The selection must have a groove. */
BarParts groove_bar(const Selection* selection, Meter meter, int64_t bar);

/* Where in the bar the pair's figure starts again, or a fill whose beginning is played
   starts: ticks from the bar line, rising.
   Tells how many, at most `room`. */
uint32_t groove_turns(const Selection* selection, Meter meter, int64_t bar, LimbPair pair,
                      int32_t* ticks, uint32_t room);

/* Bars from this bar's line to the next at which the feet start again; 0 if that
   takes more than 99. */
uint32_t groove_feet_meet(const Selection* selection, Meter meter, int64_t bar);

/* Bars from this bar's line to the next at which all meet again; 0 if that
   takes more than 9999. */
uint32_t groove_all_meet(const Selection* selection, Meter meter, int64_t bar);

/* A bar that a figure is played in, by whoever was told of it. */
typedef struct {
    Meter meter;
    int64_t bar;       /* of the song, from 0 */
    int64_t in_phrase; /* 0 is the phrase's first bar */
    bool loops;        /* again and again */
    Realign realign;
} FigureBar;

/* Figures are laid end to end: one turn of it. */
typedef struct {
    int64_t begin; /* from the bar line; may lie before it */
    int64_t from;  /* the tick of the figure that stands there */
    int64_t ticks; /* until the next turn */
} FigureCopy;

/* The turn of a figure, as written and unswung, that a tick of the bar lies in. */
FigureCopy groove_copy(const Figure* figure, FigureBar at, int64_t tick);
