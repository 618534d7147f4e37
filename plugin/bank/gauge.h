// SPDX-License-Identifier: ISC
/* gauge.h - how deep a Turtle text is nested, told byte by byte before the parser gets
   the byte, so that it never gets one that takes it too deep.  Knows of comments, texts
   and names just what it takes to see which brackets are brackets. */
#pragma once

#include <stdbool.h>

typedef struct {
    unsigned depth; /* brackets open now */
    int state;
    char quote;  /* of the text that is open */
    bool unsure; /* parsers differ on where a text ends: brackets only open then */
    char newest; /* byte */
} Gauge;

/* At the beginning of a sentence. */
Gauge gauge_begin(void);

/* One byte further. */
void gauge_take(Gauge* gauge, char sign);

/* The parser found a sentence whole, and has only seen the newest byte of the next:
   from here both agree, whatever was unsure before. */
void gauge_next_sentence(Gauge* gauge);
