// SPDX-License-Identifier: ISC
/* playability.h - what a song asks of a person, limb by limb, and whether anybody could
   do it: one answer for any selection, meter, tempo and length.  Looked through a
   quarter note a step, so that no block has more than a bounded share of the work. */
#pragma once

#include "../groove/groove.h"
#include "../groove/limb_tally.h"
#include "play_limits.h"

enum { PLAY_BANDS = 64, PLAY_SETS = 1 << LIMB_COUNT };

/* Gaps that end in a stroke with so many strokes in the second before it. */
typedef struct {
    uint32_t gaps;
    int64_t ticks; /* all of them together */
} PlayBand;

/* A hand's way from one voice to the next. */
typedef struct {
    int64_t tick;  /* where it arrives, from bar 0 */
    uint8_t from;  /* Voice */
    uint8_t to;    /* Voice */
    double has_ms; /* the time there is */
    double needs_ms;
} PlayMove;

/* Found for one limb, or for both hands or feet, where strokes at once count as one.
   Grace strokes of flams and drags are not counted: they bounce, and give way. */
typedef struct {
    uint32_t strokes;
    double rate;                /* strokes in the busiest second, */
    int64_t rate_at;            /*   the first of equals, and the tick of its last stroke */
    double mean;                /* strokes a second of the whole song */
    double closest_ms;          /* the closest two; 0: fewer than two */
    int64_t closest_at;         /*   the tick of the second of them */
    uint32_t run_strokes;       /* of the unbroken run with most strokes, the first of equals */
    double run_seconds;         /* from its first stroke to its last */
    int64_t run_at;             /* the tick of its first */
    uint32_t doubles;           /* gaps shorter than the limb's rate would have */
    uint32_t burst;             /* most in a row that bounce, see `burst_share`; 1: none do */
    int64_t burst_at;           /* the tick of the last of them */
    uint32_t torn;              /* a limb's strokes on one voice while it strikes another */
    int64_t torn_at;            /* the tick of the first */
    uint32_t moves;             /* a hand's ways to another voice without the time for it */
    PlayMove worst;             /* that with the least of the time it needs; zeros: no way */
    PlayBand bands[PLAY_BANDS]; /* by strokes in the second before; the last: more too */
} PlayDemand;

/* What is wrong, in sets. */
enum {
    PLAY_TOO_FAST = 1,  /* a second with more strokes than the rate's */
    PLAY_TOO_LONG = 2,  /* a rate for more minutes than it can be kept up */
    PLAY_TOO_CLOSE = 4, /* two strokes of a limb, or too many in a row */
    PLAY_TOO_FAR = 8,   /* a hand's move */
    PLAY_TORN = 16      /* a limb in two places: no limit, nobody can */
};

/* A stream as far as it was heard. */
typedef struct {
    LimbTally tally;
    int64_t run_begin;
    uint32_t run;   /* strokes of the run that goes on */
    uint32_t burst; /* strokes so close that go on */
    uint8_t voice;  /* last struck */
} PlayEar;

typedef struct {
    Selection selection; /* with all limbs, heard or not */
    Meter meter;
    double tempo; /* quarter notes a minute */
    PlayLimits limits;
    int64_t at;  /* next tick to look at */
    int64_t end; /* of the song */
    PlayEar ears[PLAY_STREAMS];
    PlayDemand found[PLAY_STREAMS]; /* whole once `at` has come to `end` */
    uint32_t at_once;               /* most strokes at once: nobody has more than 4 limbs */
    uint32_t together[PLAY_SETS];   /* moments by who strikes: bit 0 is Limb 0, and so on */
    uint32_t dropped;               /* strokes beyond a list's room: not looked at */
    int64_t moment;                 /* last that was struck, */
    uint32_t moment_strokes;        /*   how often, */
    uint32_t moment_limbs;          /*   and by whom, in bits */
    StrokeList strokes;
} Playability;

/* Whole bars, at least one, that a song of so many minutes has. */
uint32_t playability_bars(double minutes, Meter meter, double tempo);

/* Begins anew: `bars` from bar 0 on, and silence after them.  All limbs are looked at,
   silenced ones too: that a person plays them is why they are silent.  Where figures
   start again is as the selection has it, so a phrase or bar that is to be looked at as
   if it went on needs to be long enough.  Tempo outside TEMPO_LEAST to TEMPO_MOST is
   brought into it. */
void playability_start(Playability* playability, const Selection* selection, Meter meter,
                       double tempo, uint32_t bars, const PlayLimits* limits);

/* Looks at the next quarter note; false once there is none. */
bool playability_step(Playability* playability);

/* All of it at once: not for the audio thread. */
void playability_run(Playability* playability, const Selection* selection, Meter meter,
                     double tempo, uint32_t bars, const PlayLimits* limits);

/* Minutes of the song that go at `rate` strokes a second or more: the gaps that end in a
   stroke with so many in the second before it, it included. */
double playability_minutes_at(const Playability* playability, PlayStream stream, uint32_t rate);

/* Which rate comes closest to what can be kept up, or is furthest beyond it: of those that
   last a minute in all, or of all where none does. */
uint32_t playability_hardest(const Playability* playability, PlayStream stream);

/* Strokes a second kept up in those minutes: their mean, but never more than `rate`, so
   that a few close strokes in a slow second stay few. */
double playability_kept_at(const Playability* playability, PlayStream stream, uint32_t rate);

/* What no person can do, a set of PLAY_TOO_FAST and so on; of a song that was looked
   through.  Only what lasts a minute in all can be too long; rests between are not
   counted as rest, since nothing is published on how far they help. */
uint32_t playability_faults(const Playability* playability, PlayStream stream);
