// SPDX-License-Identifier: ISC
/* own_window.h - what a person wants of every window, in window.txt beside the own figures:
   a word and its value a line.  Reads and writes a file: never on the audio thread. */
#pragma once

#include <stdbool.h>

typedef struct {
    char colours[16]; /* "host", "dark", "light"; "" if the file doesn't say */
    bool left_handed;
    double size; /* times; 0 if the file doesn't say */
    bool still;
} OwnWindow;

/* What the file says; what it doesn't, and all where there is none, is 0. */
OwnWindow own_window_read(void);

enum { OWN_WINDOW_WHY_ROOM = 512 };

/* False, with the reason in `why`, if it can't be written: then it is as it was. */
bool own_window_write(const OwnWindow* own, char why[OWN_WINDOW_WHY_ROOM]);
