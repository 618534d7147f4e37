// SPDX-License-Identifier: ISC
/* overlay.h - a bank with drafts over it, unsaved figures of which there is one of a kind
   at most: wherever the figure whose id a draft has would play, the draft plays.  Allocates;
   not for the audio thread, but for the library once it is made.  Inside the bank room. */
#pragma once

#include "bank.h"
#include "single.h"

/* Drafts by kind; NULL where there is none. */
typedef struct {
    Single* drafts[FIGURE_KINDS];
} Drafts;

typedef struct {
    Bank* bank;
    Drafts drafts;
    Figure* figures[FIGURE_KINDS]; /* NULL: the bank's */
    Groove* grooves;               /* NULL: the bank's */
    Library library;
} Overlay;

/* Takes over the drafts, also where it fails; holds the bank.  False if there is no memory:
   it is to be cleared all the same. */
bool overlay_make(Overlay* overlay, Bank* bank, Drafts drafts);

void overlay_clear(Overlay* overlay);
