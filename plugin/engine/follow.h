// SPDX-License-Identifier: ISC
/* follow.h - what to do about a host whose place differs from our own clock at
   a frame that was expected: nothing where it is rounding, steer smoothly where
   it lasts (a tempo ramp whose bpm stands still), leap where the host insists. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

enum { FOLLOW_REPORTS = 16 };

typedef struct {
    int64_t frames[FOLLOW_REPORTS];
    double ticks[FOLLOW_REPORTS];
    uint32_t count; /* reports held, the newest at (next - 1) */
    uint32_t next;
    bool steering;
    int off_sign;          /* side of the last report that was off; 0 if it wasn't */
    int64_t insists_since; /* first of the reports that agree among themselves, far away */
    double last_tick;
    int64_t last_frame;
} Follow;

typedef struct {
    int64_t frame;    /* of the own clock */
    double reported;  /* ticks */
    double own;       /* ticks */
    double tolerance; /* ticks that count as rounding */
    double beat;      /* ticks in a beat unit */
    double nominal;   /* ticks in a frame by the host's tempo, > 0 */
    double rate;      /* ticks in a frame as we go now, > 0 */
} Difference;

typedef enum { FOLLOW_KEEP, FOLLOW_STEER, FOLLOW_RELEASE, FOLLOW_LEAP } FollowAdvice;

void follow_restart(Follow* follow);

/* FOLLOW_STEER: go on from the own place at *rate ticks in a frame.
   FOLLOW_RELEASE: at the nominal rate again.  FOLLOW_LEAP: to the host's place. */
FollowAdvice follow_report(Follow* follow, const Difference* difference, double* rate);
