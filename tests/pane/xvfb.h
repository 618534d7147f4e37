// SPDX-License-Identifier: ISC
/* xvfb.h - an X server without a screen, and a part of a test in a process of its
   own: X errors and bad libraries end processes, which is then a failed check. */
#pragma once

#include <stdbool.h>

/* Starts an Xvfb on a display that is free, 2000 x 1200 with 24 bits, and points
   $DISPLAY at it; `without` names an extension to leave out, or is NULL.  False, after
   what it said, if it doesn't start; `*missing` if there is no such program. */
bool xvfb_start(const char* without, bool* missing);

/* The same inside a test, which is skipped where the program is missing, or fails. */
bool xvfb_here(const char* without);

/* The same as a test of its own, for a whole program. */
bool xvfb_open(void);

/* Ends it. */
void xvfb_end(void);

/* Runs `part` in a child and returns its result, which is to be whether all its
   checks held: 1 yes, 0 no, -N if signal N ended it, 2 if it called exit. */
int apart(bool (*part)(void));

/* Runs a program to its end, its output dropped; its exit status. */
int run_program(const char* const argv[]);
