// SPDX-License-Identifier: ISC
/* beside.h - what stands next to a place among strokes in order of tick, within a quarter
   note.  Pure. */
#pragma once

#include "../written/stroke.h"

/* Which strokes are looked at; of a limb only where one is named. */
typedef bool BesideKind(Stroke stroke);
bool beside_any(Stroke stroke);
bool beside_kick(Stroke stroke);
bool beside_snare(Stroke stroke);
bool beside_backbeat(Stroke stroke); /* the snare, but for ghosts */
bool beside_hat(Stroke stroke);      /* hands and foot */
bool beside_pedal(Stroke stroke);    /* the foot on the hat */
bool beside_cymbal(Stroke stroke);   /* hats and cymbals */

/* Those next to a tick; NULL: none within a quarter note. */
typedef struct {
    const Stroke* before;
    const Stroke* at;
    const Stroke* after;
} Beside;

Beside beside_look(const StrokeList* list, int64_t tick, BesideKind* kind, uint8_t limb);

/* True if neither the one before nor the one after is closer than so many ticks. */
bool beside_is_clear(const Beside* beside, int64_t tick, int64_t apart);

/* True if the kick is one of three within a quarter note: gallops, hertas, eighths and all
   that is faster. */
bool beside_kick_runs(const StrokeList* list, Stroke kick);
