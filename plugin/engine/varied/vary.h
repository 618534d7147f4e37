// SPDX-License-Identifier: ISC
/* vary.h - a line of kicks while a variation is made of it, and what every operation does to
   such a line: lay it out over bars, look for a stroke, add, drop.  Inside the room; callers
   want variation.h.  Pure; all in the caller's memory.

   Kicks are varied.  A foot that closes the hat goes on with that, whatever the kicks do, and
   the other foot plays all of them. */
#pragma once

#include "../written/figure.h"

/* Why an operation can't be made of a figure: what a drummer would say. */
#define VARY_REASON_ROWS(X)                                                                        \
    X(NONE, "")                                                                                    \
    X(UNKNOWN, "there is no such variation")                                                       \
    X(NO_KICKS, "there are no kicks")                                                              \
    X(NO_GAPS, "runs of singles have no gaps")                                                     \
    X(NO_ROOM, "no gap is wide enough")                                                            \
    X(NO_RUN, "there is no run")                                                                   \
    X(NO_ACCENTS, "no stroke is accented, and none is on a beat")                                  \
    X(ONE_FOOT, "one foot plays all of it")                                                        \
    X(NO_ONE, "nothing is on the one")                                                             \
    X(NO_HANDS, "there are no hands to go by")                                                     \
    X(NO_HAND_ACCENTS, "the hands have no accents")                                                \
    X(NO_CYMBAL, "no cymbal keeps the time")                                                       \
    X(NOT_MET, "the kicks are out of the way as it is")                                            \
    X(NOTHING_LEFT, "nothing would be left")                                                       \
    X(TOO_FINE, "there would be more than twelve strokes in a quarter")                            \
    X(TOO_LONG, "it takes too many bars to meet the bar line")                                     \
    X(TOO_MANY, "a figure has no room for so many strokes")                                        \
    X(AS_CHOSEN, "the same as chosen")                                                             \
    X(AS_EARLIER, "the same as a row above")

#define VARY_REASON(NAME, words) VARY_##NAME,
typedef enum { VARY_REASON_ROWS(VARY_REASON) VARY_REASONS } VaryReason;
#undef VARY_REASON

enum {
    VARY_BARS_MAX = 16, /* the longest that a line is laid out: a longest phrase */
    VARY_CLOSEST = TICKS_PER_QUARTER / 12, /* none is put closer behind another: 60 ms at 83 */
};

/* A kick that no foot has yet: vary_foot.h gives it one. */
enum { VARY_NO_FOOT = LIMB_COUNT };

typedef struct {
    uint32_t count;
    Stroke strokes[FIGURE_STROKES_MAX]; /* in order */
} VaryStrokes;

/* The hands over the kicks. */
typedef struct {
    bool any;
    bool rolls;
    uint8_t keeps_time; /* Voice; a kick: nothing */
    int64_t cycle;      /* ticks */
    VaryStrokes notes;
} VaryHands;

typedef struct {
    uint32_t stands; /* of what was laid are no kicks: a foot on the hat */
    int64_t cycle;   /* ticks */
    int64_t laid_cycle;
    int64_t bar;   /* ticks of the meter's bar */
    int64_t beat;  /* ticks: a quarter, in 6/8, 9/8 and 12/8 a dotted one; a bar at most */
    int64_t step;  /* ticks that its kicks are counted in, half a beat at most */
    bool rolls;    /* over the bar line; else it is in whole bars */
    bool one_foot; /* the other has none of it, or closes the hat */
    bool set;      /* the operation gave the feet, which no other rule may change */
    uint8_t lead;  /* Limb of the first kick */
    uint8_t other; /* Limb; the same where the other one closes the hat */
    uint8_t voices[LIMB_COUNT]; /* Voice of the kicks of each foot */
    int64_t closest;            /* ticks between the closest two of one foot in the source */
    uint32_t longest;       /* strokes of the longest run in the source, as vary_foot.h has it */
    const VaryHands* hands; /* over them */
    VaryStrokes kicks;      /* last: a copy ends with those that there are */
} VaryLine;

/* Makes another line of a line.  After a reason, the line is good for nothing. */
typedef VaryReason VaryOperation(VaryLine* line);

/* Whether a stroke stays. */
typedef bool VaryKeeps(const VaryLine* line, Stroke stroke);

/* Lays a figure as it is played in this meter: one in bars is cut by shorter bars and goes on
   in longer ones.  `notes` gets all of it. */
VaryReason vary_lay(const Figure* figure, Meter meter, VaryStrokes* notes, int64_t* cycle);

/* Makes a line of what was laid; VARY_NO_KICKS if there are none. */
VaryReason vary_line(const Figure* figure, Meter meter, const VaryStrokes* notes, int64_t cycle,
                     VaryLine* line);

bool vary_is_kick(Stroke stroke);

/* Plays it so many times for once. */
VaryReason vary_repeat(VaryLine* line, int64_t times);

/* Likewise until it and `ticks` end together. */
VaryReason vary_unroll(VaryLine* line, int64_t ticks);

/* Ticks from the bar line; in a line that rolls, and wasn't laid over whole bars, from its
   start. */
int64_t vary_in_bar(const VaryLine* line, int64_t tick);

/* Ticks of the bar's second half: in whole beats, else eighths, else sixteenths; where it
   doesn't come out even the first is the longer. */
int64_t vary_half(const VaryLine* line);

/* Index of the kick there, of the lower limb if there are two; `count` if none. */
uint32_t vary_find(const VaryLine* line, int64_t tick);

/* Ticks from this kick to the next later one, round the cycle. */
int64_t vary_gap(const VaryLine* line, uint32_t index);

/* Adds a kick, of no foot yet, where there is none; else gives that one the higher level.
   `tick` counts round the cycle. */
VaryReason vary_add(VaryLine* line, int64_t tick, uint8_t level, bool bends);

/* Takes all feet away, to be given anew. */
void vary_anew(VaryLine* line);

/* Leaves out what doesn't stay; VARY_NOTHING_LEFT. */
VaryReason vary_keep(VaryLine* line, VaryKeeps* keeps);

/* Leaves out what stands in a span. */
void vary_clear(VaryLine* line, int64_t begin, int64_t end);

/* Puts kicks that were moved back in order; of two of a foot at once the louder stays. */
void vary_order(VaryLine* line);

/* True if strokes so far apart are bent by a shuffle: halves, quarters and so on of a quarter,
   or quarters. */
bool vary_bends(int64_t step);
