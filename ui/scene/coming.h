// SPDX-License-Identifier: ISC
/* coming.h - what waits for its line, as the bars that were told say it. */
#pragma once

#include "view.h"

typedef struct {
    const char*
        what; /* "groove", "hands", "feet", "fill", "phrase", "kept"; "" where the strokes of
                           the same are others */
    const Entry* entry; /* NULL: it rests, or has no name */
    const char* name;   /* in its place: a variation's, or that of what is kept; NULL */
    int slot;           /* of what is kept, from 1; else 0 */
    int bar;            /* of the phrase where it comes in, from 1 */
    int beat;           /* of that bar, from 1 */
} Coming;

/* False if nothing waits. */
bool coming_of(const View* view, Coming* coming);

/* The first bar that was told to play it from its bar line on; NULL if none was. */
const SeenBar* coming_bar(const View* view);

/* The variation that the feet wait for: the last of the two that changes; NULL: for none. */
const char* coming_varied(const View* view);

enum { COMING_ROOM = 160 };

/* "next feet: Sixteenths", without "next" in short: "new feet"; and where, behind it:
   ", bar 3", ", bar 3, beat 2". */
void coming_words(const Coming* coming, char text[COMING_ROOM]);
void coming_brief(const Coming* coming, char text[COMING_ROOM]);
void coming_place(const Coming* coming, char text[COMING_ROOM]);
