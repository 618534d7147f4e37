// SPDX-License-Identifier: ISC
/* handout.h - a folder for a bandmate: what is selected as Turtle for their own bank, as a MIDI
   file as it is played, as a chart, and in one line of text.  By the command and the window.
   Waits for the disk: never on the audio thread. */
#pragma once

#include "handout_groove.h"

enum { HANDOUT_PATH_ROOM = 4096 };

typedef struct {
    HandoutWish wish;
    const Library* kits; /* whose kit maps the MIDI file is for */
    bool left_handed;    /* whoever gets it: the chart's limbs are the other way round */
    const char* folder;  /* where the new one goes; "~/" is the home folder; NULL or "": that of
                           phrase_folder */
} Handout;

/* Makes NAME, or "NAME 2" and so on where there is one, in the folder, with NAME.ttl, .mid, .pdf
   and .txt in it: nothing that is there is written over.  Fills `path`.  False, with the reason
   in `why` and nothing left, if that failed. */
bool handout_write(const Handout* handout, char path[HANDOUT_PATH_ROOM],
                   char why[HANDOUT_WHY_ROOM]);
