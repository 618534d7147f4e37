// SPDX-License-Identifier: ISC
/* bar.h - one bar of the song: where it stands in the phrase, which letter it plays, and
   how figures that are laid end to end stand in it.  Pure. */
#pragma once

#include "selection.h"

typedef struct {
    Meter meter;
    int64_t index;        /* of the song, from 0 */
    int64_t begin;        /* tick of its bar line */
    int64_t ticks;        /* its length */
    int64_t counted;      /* the bar of the song that it plays: of one that loops always the
                             same */
    int64_t in_phrase;    /* 0 is the phrase's first bar */
    int64_t phrase_begin; /* tick of its phrase's first bar line */
    int64_t song_begin;   /* tick of bar 0, where the first phrase begins */
} Bar;

/* `index`: from 0. */
Bar bar_at(const Selection* selection, Meter meter, int64_t index);

/* Likewise for who was told where it stands. */
Bar bar_in_phrase(Meter meter, int64_t index, int64_t in_phrase, bool loops);

/* How often the feet have grown by then; VARIED_STAYS if they don't. */
int64_t bar_turn(const Selection* selection, const Bar* bar);

/* What is asked of the feet of a letter, 0 is A; no feet: they rest. */
VariedAsk bar_ask(const Selection* selection, Meter meter, uint8_t letter, int64_t turn);

/* What the feet play of it.  The selection must have a groove. */
VariedFeet bar_feet(const Selection* selection, const Bar* bar);

/* What its letter plays, or is picked in its place, and is varied; the feet until another bar
   is asked for.  The selection must have a groove. */
Part bar_part(const Selection* selection, const Bar* bar);

/* A layout laid end to end: copy m puts its tick `from` at origin + m * period,
   and ends a period later. */
typedef struct {
    int64_t origin;
    int64_t period;
    int64_t from;
} Tiling;

Tiling bar_tiling(const Bar* bar, const Layout* layout, Realign realign);
