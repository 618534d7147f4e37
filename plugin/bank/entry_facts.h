// SPDX-License-Identifier: ISC
/* entry_facts.h - what every list tells of an entry, in short words, made of the entry alone:
   one way for the command line and the window. */
#pragma once

#include "../engine/writing/playability.h"
#include "bank.h"

/* Texts are "" where there is nothing to tell; a kit map has none at all. */
typedef struct {
    char meter[16];  /* of a groove: "7/8" */
    char grid[24];   /* steps in a quarter note: "4"; "3/2" is three in two; a groove's figures
                        may have several: "2 4" */
    char length[24]; /* "2 bars", "3.5 quarters" */
    char tempo[16];  /* of a groove, its own */
    char range[16];  /* "80-160" */
    char feel[48];   /* what a groove has written: "swing 2:1, loose 8, snare 7", ms of late */
    int difficulty;  /* 1 to 5; 0 for kit maps */
} EntryFacts;

/* `room` is overwritten: too large for a stack.  NULL: all but the difficulty, which is what
   takes time. */
EntryFacts entry_facts(const Bank* bank, EntryKind kind, uint32_t index, Playability* room);

enum { ENTRY_WARNING_ROOM = 160 };

/* What nobody can play at an entry's highest tempo, or what is wrong with its tempi: "at 300
   the right foot is too fast"; "" if nothing is.  The same room. */
void entry_warning(const Bank* bank, EntryKind kind, uint32_t index, const PlayLimits* limits,
                   Playability* room, char warning[ENTRY_WARNING_ROOM]);
