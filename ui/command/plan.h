// SPDX-License-Identifier: ISC
/* plan.h - a practice session in plain words. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "../../plugin/engine/ticks.h"

#include <stdio.h>

enum { PLAN_ITEMS_MAX = 64, PLAN_NAME_ROOM = 64 };

typedef enum { PLAN_WARM_UP, PLAN_HANDS, PLAN_FEET, PLAN_TOGETHER, PLAN_BREAK } PlanKind;

typedef struct {
    PlanKind kind;
    char name[PLAN_NAME_ROOM]; /* of the file; "" for a break */
    int tempo;                 /* quarter notes a minute */
    int bars;
    int seconds; /* the file's length, up to the next whole one; a break's */
} PlanItem;

typedef struct {
    const EntryInfo* groove;
    Meter meter;
    int count_in; /* bars before each file */
    int click;    /* as the control has it: off, in the count-in, always */
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
