// SPDX-License-Identifier: ISC
/* diagnostics.h - what is wrong with a bank, one sentence each, kept for whoever
   can show it: the host's log, the command line, the window. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

enum { DIAGNOSTICS_MAX = 100 }; /* beyond it a count is kept */

typedef struct {
    char* texts[DIAGNOSTICS_MAX]; /* owned */
    size_t count;
    size_t unkept; /* further ones, for which there was no room or no memory */
} Diagnostics;

/* Adds a message made as by printf. */
void diagnostics_add(Diagnostics* diagnostics, const char* format, ...)
    __attribute__((format(printf, 2, 3)));

/* The same before all others, for what is told even where much else is wrong: the last
   one goes if there is no room. */
void diagnostics_add_first(Diagnostics* diagnostics, const char* format, ...)
    __attribute__((format(printf, 2, 3)));

/* Copies all of them into an empty one, which the caller clears; false if there is no
   memory. */
bool diagnostics_copy(const Diagnostics* from, Diagnostics* empty);

void diagnostics_clear(Diagnostics* diagnostics);
