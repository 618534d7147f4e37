// SPDX-License-Identifier: ISC
/* groove_clock.h - where the groove is: along the host's place, stretched by the
   practice rate, or along a clock of its own.  The host's place is followed on
   the own clock too, so that going back to it finds it right.
     host: the groove's tick is the host's times the rate, so a bar ends on the
           host's bar lines (every bar at 1/2, every second at 2/3)
     own:  begins at the count-in when it is set rolling; the tempo is the
           ladder's, times the rate, and changes exactly on the phrase line */
#pragma once

#include "../groove/ladder.h"
#include "../groove/plan.h"
#include "../time/position.h"

typedef struct {
    bool own;
    Ratio rate;
    Clock clock; /* frames to the groove's ticks; `now` is the position's */
    Meter meter;
    bool rolling;
    int64_t played_until; /* first of the groove's ticks not played yet */
    int64_t host_until;   /* the position's, when last looked at */
    double frames_per_second;
    Ladder ladder;        /* from here on the own clock's alone */
    uint32_t phrase_bars; /* at least 1 */
    int64_t rise_tick;    /* where its tempo changes next; INT64_MAX: nowhere */
} GrooveClock;

/* Goes along the clock that is set from now on.  The host's: from its place,
   what is before it counts as played.  The own: in this meter, from `count_in`
   bars before bar 0 if `enabled`, else standing there. */
void groove_clock_go(GrooveClock* groove_clock, const Position* position, const Settings* settings,
                     Meter meter, uint32_t phrase_bars);

/* Ticks of the groove in so many bars of the song. */
int64_t groove_clock_bars_ticks(const GrooveClock* groove_clock, int64_t bars, Meter meter);

/* The place in the song of one of the groove's ticks, and back. */
Place groove_clock_place(const GrooveClock* groove_clock, int64_t tick);
int64_t groove_clock_tick_of(const GrooveClock* groove_clock, Place place);

/* Ticks of the groove in one of the clock's. */
double groove_clock_rate(const GrooveClock* groove_clock);

/* True if that would not begin anew: the same clock, and on the host's the same
   rate, on the own one rolling as `enabled` says. */
bool groove_clock_holds(const GrooveClock* groove_clock, const Settings* settings);

/* To be called after the position took something in or moved on, on the host's
   clock only. */
void groove_clock_look(GrooveClock* groove_clock, const Position* position);

/* On the own clock, else nothing: tempo, ladder, rate and phrase as they are now,
   in place. */
void groove_clock_pace(GrooveClock* groove_clock, const Settings* settings, uint32_t phrase_bars);

/* On the own clock: the same bar, and the same place in it, in this meter. */
void groove_clock_change_meter(GrooveClock* groove_clock, Meter meter);

/* Quarter notes a minute as the groove goes, now or, stopped, as it would. */
double groove_clock_tempo(const GrooveClock* groove_clock, const Position* position);

/* The same where the groove will be at `tick`, as far as is known by now. */
double groove_clock_tempo_at(const GrooveClock* groove_clock, const Position* position,
                             int64_t tick);

/* The first tick after this one where the own clock's tempo changes; INT64_MAX if
   it doesn't. */
int64_t groove_clock_next_rise(const GrooveClock* groove_clock, int64_t tick);

/* Takes the new tempo if its line has come. */
void groove_clock_rise(GrooveClock* groove_clock);

/* Frames until the line where the tempo changes, at most `frames`. */
uint32_t groove_clock_frames_to_rise(const GrooveClock* groove_clock, uint32_t frames);

/* Moves position and groove_clock on; what falls in these frames, each tick once. */
Span groove_clock_advance(GrooveClock* groove_clock, Position* position, uint32_t frames);
