// SPDX-License-Identifier: ISC
/* jobs.h - what a plugin gives to its host's worker.  No clock waits for an offline host,
   so the work is done between two runs, and every run gives the same. */
#pragma once

#include <lilv/lilv.h>
#include <lv2/worker/worker.h>

enum { JOBS_MAX = 16, JOB_ROOM = 256 };

typedef struct {
    uint32_t size;
    uint64_t bytes[JOB_ROOM / 8];
} Job;

typedef struct {
    LV2_Worker_Schedule schedule; /* for the plugin */
    LV2_Handle plugin;
    const LV2_Worker_Interface* worker; /* NULL if it has none */
    int count;
    Job jobs[JOBS_MAX];
} Jobs;

/* Before the plugin is made, and after. */
void jobs_init(Jobs* jobs);
void jobs_begin(Jobs* jobs, LilvInstance* instance);

/* Does all that was asked for since the last time. */
void jobs_do(Jobs* jobs);
