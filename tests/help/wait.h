// SPDX-License-Identifier: ISC
/* wait.h - tests wait for what happens, never for time: on a slow machine that only takes
   longer.  Patience has an end, far beyond any machine, which is a failure that says what
   was waited for:

     Wait wait = wait_until("the window is there");
     while (!find_window() && wait_goes_on(&wait)) {
     }
*/
#pragma once

#include <stdbool.h>

/* $FOURLIMB_PATIENCE is another number, for programs that are known to wait in vain. */
enum { WAIT_SECONDS = 240 };

typedef struct {
    const char* what;
    double end;
} Wait;

/* `what` must stay where it is. */
Wait wait_until(const char* what);

/* Sleeps for a moment; false, after a printed line, once the patience is at its end. */
bool wait_goes_on(Wait* wait);

/* What is or was waited for last; for who ends the program meanwhile. */
const char* wait_last(void);

/* Seconds of a clock that nobody sets. */
double wait_clock(void);
