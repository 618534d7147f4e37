// SPDX-License-Identifier: ISC
/* picks.h - what a section of the command line asks to see, found in the bank. */
#pragma once

#include "../../plugin/engine/groove.h"
#include "bundle.h"
#include "request.h"

typedef struct {
    Choice choice;
    const EntryInfo* info; /* of the groove */
    Meter meter;           /* as asked, or the groove's */
    double tempo;          /* as asked, or the groove's */
} Picks;

/* False, with a message, if a name or control is unknown.  The bank must hold a
   groove. */
bool picks_make(const Bank* bank, const Section* section, Picks* picks);
