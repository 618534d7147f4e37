// SPDX-License-Identifier: ISC
/* plan.h - a practice session in plain words, made from the files beside it. */
#pragma once

#include "facts.h"
#include "limbset.h"
#include "picks.h"

#include <stdio.h>

enum { PLAN_ITEMS_MAX = 64, PLAN_NAME_ROOM = 128 };

typedef enum { PLAN_WARM_UP, PLAN_PART, PLAN_BREAK } PlanKind;

typedef struct {
    PlanKind kind;
    char name[PLAN_NAME_ROOM]; /* of the file; "" for a break */
    LimbSet limbs;             /* heard in it */
    ClickFacts click;
    int tempo;   /* quarter notes a minute */
    int seconds; /* the file's length, up to the next whole one; a break's */
} PlanItem;

typedef struct {
    const Picks* picks;
    const char* title;
    LimbSet limbs; /* of all files together */
    Stray stray;   /* of all files */
    const char* chart;
    PlanItem items[PLAN_ITEMS_MAX];
    int count;
} Plan;

/* How many minutes a day at a level stay within the recommended exposure limit
   of NIOSH: 85 dBA over 8 hours, half the time for each 3 dB more (NIOSH,
   Criteria for a Recommended Standard: Occupational Noise Exposure, DHHS
   publication 98-126, 1998). */
double plan_noise_minutes(double level);

/* Adds a break after what was played since the last one: a fifth of that, in
   whole minutes. */
void plan_rest(Plan* plan);

/* The plan as Markdown. */
void plan_print(FILE* out, const Plan* plan);
