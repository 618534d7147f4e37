// SPDX-License-Identifier: ISC
/* progress.h - how far long work is, on standard error: at once on a terminal,
   elsewhere only from the third second on. */
#pragma once

#include <stdbool.h>

typedef struct {
    const char* what; /* "rendering song.wav" */
    bool terminal;
    double begin; /* seconds of a clock that never goes back */
    double told;  /* when something was last told; 0: never */
} Progress;

Progress progress_begin(const char* what);

/* Tells it at most four times a second on a terminal, each two seconds elsewhere. */
void progress_at(Progress* progress, double fraction);

/* Takes the line away again. */
void progress_end(Progress* progress);
