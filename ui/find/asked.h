// SPDX-License-Identifier: ISC
/* asked.h - what an entry of the bank is in numbers that are asked for: meter, grid, strokes a
   second.  Pure. */
#pragma once

#include "../../plugin/engine/writing/playability.h"
#include "wish.h"

/* What of an entry is looked at; texts are never NULL. */
typedef struct {
    EntryKind kind;
    int32_t id;
    const char* label;
    const char* family;
    const char* comment;
    int tempo_low; /* 0 if not said */
    int tempo_high;
    const Figure* figure; /* NULL if it is none, as the next */
    const Groove* groove;
} AskedEntry;

/* Strokes in the busiest second of both feet, or in a list of hands of both hands: by itself,
   as it is written, laid end to end; a groove in whole phrases, with its fill. */
typedef struct {
    bool known; /* false: it has no strokes, as a kit map */
    double right;
    double left;
} AskedRates;

AskedRates asked_rates(const AskedEntry* entry, double tempo, Playability* room);

/* What no person can do of those limbs for so many minutes at that tempo: a set of
   PLAY_TOO_FAST and so on.  The rates are those of a longer look: the same. */
uint32_t asked_faults(const AskedEntry* entry, double tempo, double minutes,
                      const PlayLimits* limits, Playability* room);

/* A groove is in it; a figure has bars as long, or rolls.  0 beats: anything is.  A kit map
   goes with every meter. */
bool asked_meter(const AskedEntry* entry, Meter meter);

/* A figure's own grid, or that of one of a groove's: so many steps in a quarter; a tuplet as
   well in two or four.  Shuffle: a groove that swings; or thirds whose middle is never struck. */
bool asked_grid(const AskedEntry* entry, WishGrid grid);
