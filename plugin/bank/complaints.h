// SPDX-License-Identifier: ISC
/* complaints.h - what is wrong with a bank, one sentence each, kept for whoever
   can show it: the host's log, the command line, the window. */
#pragma once

#include <stddef.h>

enum { COMPLAINTS_MAX = 100 }; /* beyond it a count is kept */

typedef struct {
    char* texts[COMPLAINTS_MAX]; /* owned */
    size_t count;
    size_t unkept; /* further ones, for which there was no room or no memory */
} Complaints;

/* Adds a message made as by printf. */
void complain(Complaints* complaints, const char* format, ...)
    __attribute__((format(printf, 2, 3)));

/* The same before all others, for what is told even where much else is wrong: the last
   one goes if there is no room. */
void complain_first(Complaints* complaints, const char* format, ...)
    __attribute__((format(printf, 2, 3)));

void complaints_clear(Complaints* complaints);
