// SPDX-License-Identifier: ISC
/* ride_on.h - the timekeeping hand on another cymbal, decided from the hands figure alone.

   What keeps the time is the hat, cymbal, cowbell or floor tom that the hands strike most often,
   the hat being one whether it is closed, half-open or open; of two struck as often, the one
   struck first.  But where the hand that strikes it most strikes a drum more often, nothing
   keeps the time and nothing moves: a snare part with a crash on one stays.  A floor tom among
   other toms is a melody: it keeps the time only where its hand strikes nothing else as often.
   - Both hands move where both strike it (sixteenths with two hands); their backbeats stay.
   - What the same hands strike besides stays: a crash on one, or the bell between strokes of the
     ride.
   - From hat to hat it is the strokes of the most frequent opening that move; barks among them
     stay what they are.  Off the hat a stroke that was more open can't be: it is an accent there.
   - Crash, china and bell are ridden with the shoulder of the stick: ghosts are full strokes.
   - Ticks and limbs stay.  To move twice is to move once.
   From memory of how drummers are taught, no source. */
#pragma once

#include "figure.h"

/* Where to, as the port counts them: in C, and what it strikes. */
#define RIDE_ON_ROWS(X)                                                                            \
    X(CLOSED, HAT_CLOSED)                                                                          \
    X(HALF_OPEN, HAT_HALF_OPEN)                                                                    \
    X(OPEN, HAT_OPEN)                                                                              \
    X(RIDE, RIDE)                                                                                  \
    X(BELL, RIDE_BELL)                                                                             \
    X(CRASH, CRASH)                                                                                \
    X(CHINA, CHINA)                                                                                \
    X(FLOOR_TOM, TOM_FLOOR)

#define RIDE_ON_INDEX(NAME, VOICE) RIDE_ON_##NAME,
typedef enum { RIDE_ON_AS_WRITTEN, RIDE_ON_ROWS(RIDE_ON_INDEX) RIDE_ON_COUNT } RideOn;
#undef RIDE_ON_INDEX

/* What is struck there; not of RIDE_ON_AS_WRITTEN. */
Voice ride_on_voice(RideOn ride_on);

/* The value that strikes a voice; RIDE_ON_AS_WRITTEN if none does. */
RideOn ride_on_from_voice(Voice voice);

/* What keeps a figure's time, and where it goes. */
typedef struct {
    RideOn to;        /* RIDE_ON_AS_WRITTEN: nothing moves */
    uint8_t moves;    /* Voice; of the hat, the most frequent */
    bool leaves_hats; /* all of the hat move */
} RideOnMove;

/* What keeps the time of strokes, a Voice: of the hat its most frequent; VOICE_KICK if nothing
   does.  Of a whole figure: its `keeps_time` (figure_note). */
uint8_t ride_on_timekeeper(const Stroke* strokes, uint32_t count);

/* `figure` may be NULL. */
RideOnMove ride_on_move(const Figure* figure, RideOn to);

/* Moves the hands' strokes from `first` on. */
void ride_on_strokes(RideOnMove move, StrokeList* list, uint32_t first);

/* A foot that closes the hat as the hand strikes it can't hold it open: strokes from `first` on
   and before the tick `until` that moved to an open or half-open hat are closed where the foot
   plays the same tick. */
void ride_on_close(RideOnMove move, StrokeList* list, uint32_t first, int64_t until);
