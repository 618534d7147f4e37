// SPDX-License-Identifier: ISC
/* grain.h - how finely one host tells its places: exactly, or in steps of a tick
   of its own.  A place off all steps of a kind rules that kind out; places that
   stray from an even line show a host that is coarser than its numbers.  All
   amounts are beats as the host counts inside one. */
#pragma once

#include <stdint.h>

typedef struct {
    uint32_t ruled_out; /* bit i: a place was told that is off steps i */
    uint32_t coarsest;  /* of the steps that aren't */
    double jitter;      /* how far apart, off their line, places were told */
    double low;         /* of the even stretch that goes on */
    double high;
    uint32_t count;
} Grain;

/* Hears a place: beats since the bar line. */
void grain_hear(Grain* grain, double bar_beat);

/* An even stretch begins. */
void grain_restart(Grain* grain);

/* In an even stretch a place was told that far off the line through the stretch's
   first, `beats` after it. */
void grain_stray(Grain* grain, double off, double beats);

/* How far a told place may be from the true one by rounding, that of a float
   apart; 0: it is exact.  At first the coarsest that hosts were seen to do. */
double grain_rounding(const Grain* grain);
