// SPDX-License-Identifier: ISC
/* comments.h - a figure's comment says what is heard: where it names a voice it is struck,
   and where it names the counts that this falls on ("kick on one, three and three-and", "a
   crash to close"), it is there.  Counting ("one-and" is the eighth after one, "one-e" and
   "one-a" the sixteenths on both sides of that): common practice, no source. */
#pragma once

#include "../engine/written/figure.h"

enum { COMMENT_PROBLEM_ROOM = 128 };

typedef struct {
    int read;                           /* what was looked for */
    char problem[COMMENT_PROBLEM_ROOM]; /* "no kick on three-and"; "": none */
} CommentRead;

/* `beat`: ticks that are counted: a quarter, or an eighth in six-eight; from memory. */
CommentRead comment_read(const Figure* figure, const char* comment, int64_t beat);
