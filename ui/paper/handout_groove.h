// SPDX-License-Identifier: ISC
/* handout_groove.h - what is selected as a file of Turtle for another's bank: a groove, and what
   it plays that isn't the factory's, with ids that nothing here has. */
#pragma once

#include "../../plugin/bank/own_groove.h"

enum { HANDOUT_WHY_ROOM = 1024 };

typedef struct {
    char* text;                           /* the file; owned */
    Bank* bank;                           /* the factory's with it; to be freed */
    uint32_t groove;                      /* its id */
    char left[OWN_GROOVE_LEFT_ROOM + 32]; /* what isn't in it, in words; "" if all is */
} HandoutGroove;

/* What is to be written. */
typedef struct {
    Bank* bank;                 /* that the selection is of */
    const Selection* selection; /* without its variation */
    const Settings* settings;   /* that select it */
    Meter meter;
    double tempo;     /* quarter notes a minute */
    const char* name; /* UTF-8, one line */
} HandoutWish;

/* False, with the reason in `why`, if it can't be made.  Free it all the same. */
bool handout_groove_make(HandoutGroove* made, const HandoutWish* wish, char why[HANDOUT_WHY_ROOM]);
void handout_groove_free(HandoutGroove* made);

/* The settings that play it by itself: all that it holds is at what is written. */
Settings handout_groove_settings(const HandoutGroove* made, const Settings* settings);
