// SPDX-License-Identifier: ISC
/* practice_set.h - the files of a practice set: which there are, and what is in them. */
#pragma once

#include "performance.h"
#include "routine.h"

enum { PATH_ROOM = 4096 };

typedef struct {
    const Request* request;
    const Section* section; /* as asked, with what practising adds */
    Performance performance;
    Reel exact; /* the file at hand on the grid */
    Picks picks;
    Routine routine;
    char what[256];  /* is practised */
    char title[256]; /* of the file at hand */
    int from;
    int to;
    int steps;
    int files; /* made so far */
    bool made_folder;
} Practice;

/* Says it on standard error, and is `status`. */
int practice_say(const char* subject, const char* what, int status);

/* Each of these is a status as in commands.h, with a message if it isn't DONE. */

/* What the ladder is, from what was said of it and the groove. */
int practice_ladder(Practice* practice);

/* Which limbs there is something to practise for: those that weren't silenced, and of
   these the ones that do play. */
int practice_find_limbs(Practice* practice);

/* All of them, told in the plan as they were rendered. */
int practice_make_files(Practice* practice);

/* The section of one file: the limbs it is of, a tempo that stands. */
void practice_set_up(const Practice* practice, LimbSet limbs, int tempo, int bars,
                     Section* section);
