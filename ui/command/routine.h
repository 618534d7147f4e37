// SPDX-License-Identifier: ISC
/* routine.h - a practice session in plain words, made from the files beside it. */
#pragma once

#include "facts.h"
#include "limbset.h"
#include "picks.h"

#include <stdio.h>

enum { ROUTINE_ITEMS_MAX = 64, ROUTINE_NAME_ROOM = 128 };

typedef enum { ROUTINE_WARM_UP, ROUTINE_PART, ROUTINE_BREAK } RoutineKind;

typedef struct {
    RoutineKind kind;
    char name[ROUTINE_NAME_ROOM]; /* of the file; "" for a break */
    LimbSet limbs;                /* heard in it */
    ClickFacts click;
    int tempo;   /* quarter notes a minute */
    int seconds; /* the file's length, up to the next whole one; a break's */
} RoutineItem;

typedef struct {
    const Picks* picks;
    const char* title;
    LimbSet limbs; /* of all files together */
    Stray stray;   /* of all files */
    const char* chart;
    RoutineItem items[ROUTINE_ITEMS_MAX];
    int count;
} Routine;

/* Adds a break after what was played since the last one: a fifth of that, in
   whole minutes. */
void routine_rest(Routine* routine);

/* The plan as Markdown. */
void routine_print(FILE* out, const Routine* routine);
