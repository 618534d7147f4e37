// SPDX-License-Identifier: ISC
/* groove.h - which strokes fall in a span of musical time.  A pure function of
   (library, settings, swing, meter, position): every block size, locate and
   render asks the same question and gets the same strokes. */
#pragma once

#include "../written/layout.h"
#include "../written/library.h"
#include "settings.h"
#include "../written/swing.h"

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
    uint32_t loop_bar;        /* 1 and up: only this bar of the phrase; 0 all */
    Regrid hands_regrid;
    Regrid feet_regrid;
    Realign realign;
    bool left_foot_leads;
    Swing swing;
    Feel feel;
    bool limbs[LIMB_COUNT]; /* heard or silent */
} Selection;

/* `tempo`: quarter notes a minute, for a swing that follows it. */
Selection selection_make(const Library* library, const Settings* settings, double tempo);

/* True if the same is written in both: all but swing, feel, limbs and kit. */
bool selection_writes_alike(const Selection* a, const Selection* b);

/* The kit map with this id, or the library's first. */
const Kit* selection_kit(const Library* library, uint32_t id);

/* The swing that settings, or the groove where they leave it open, ask for. */
Swing selection_swing(const Settings* settings, const Groove* groove, double tempo);

/* The feel likewise: a control at its default means what the groove has written;
   at looseness 0 the groove's push is left out, so that 0 is the grid. */
Feel selection_feel(const Settings* settings, const Groove* groove);

/* The strokes with begin <= tick < end, in order of tick, then limb.  Ticks
   count from bar 0 of `meter`; bars before it are the host's count-in and
   silent.  How a figure meets the bar: one written for whole bars starts at the
   bar line, is cut by a shorter bar and starts again in a longer one; any other,
   and any on another grid or cycle than written, rolls on over the bar lines,
   from where `realign` says.  Phrases are counted from bar 0.  With a loop bar
   every bar is that bar of the first phrase, rolling figures included; a bar
   beyond the phrase is the one that stands there in the song (bar 6 of a phrase
   of 4 is its bar 2). */
void groove_strokes(const Selection* selection, Meter meter, int64_t begin, int64_t end,
                    StrokeList* list);

/* Even steps: one at `origin`, others every `step` ticks from it both ways. */
typedef struct {
    int64_t origin;
    int64_t step; /* > 0 */
} StepGrid;

/* The steps that the feet are laid on in a bar, counted from 0, of the song; the
   meter's beats where they have none, or lines whose common step is too fine to
   count by: more than 8 in a quarter note without being asked for. */
StepGrid groove_feet_grid(const Selection* selection, Meter meter, int64_t bar);

/* Bars until hands, feet, bar line and phrase all meet again; 0 if that takes
   more than 9999. */
uint32_t groove_realign_bars(const Selection* selection, Meter meter);

/* What one bar, from 0, is made of; figures are NULL where those limbs rest. */
typedef struct {
    uint32_t in_phrase; /* 0 is the phrase's first bar */
    uint8_t part;       /* the form's letter, 0 is A */
    bool turns;         /* the turnaround takes the bar */
    const Figure* hands;
    const Figure* feet;
    int64_t hands_step; /* ticks of the grid; 0 where those limbs rest */
    int64_t feet_step;
} BarParts;

/* The selection must have a groove. */
BarParts groove_bar(const Selection* selection, Meter meter, int64_t bar);

/* Where in the bar the pair's figure starts again: ticks from the bar line, rising.
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
