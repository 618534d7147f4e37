// SPDX-License-Identifier: ISC
/* picks.h - what a section of the command line asks to see, found in the bank. */
#pragma once

#include "../../plugin/engine/groove/groove.h"
#include "performance.h"

typedef struct {
    Selection selection;         /* its varied feet until the next are made */
    const EntryInfo* info;       /* of the groove */
    const EntryInfo* hands;      /* in place of the groove's own; NULL: as written */
    const EntryInfo* feet;       /* likewise */
    const EntryInfo* turnaround; /* likewise */
    bool as_written;             /* what the groove's comment says of it is so */
    float values[CONTROL_COUNT]; /* of the controls */
    Meter meter;                 /* as asked, or the groove's */
    double tempo;                /* as asked, or the groove's */
} Picks;

/* "Fog Bell", or "Fog Bell with Plain Hats and Gallop, thinned, then a beat later". */
void picks_title(const Picks* picks, char* title, size_t room);

/* By the controls of the running plugin, which refuses what it can't have.  A status as
   in commands.h, with a message if it isn't DONE. */
int picks_make(const Performance* performance, const Section* section, Picks* picks);
