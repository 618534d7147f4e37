// SPDX-License-Identifier: ISC
/* follow.h - what to do about a host whose place differs from our own clock at
   a frame that was expected: nothing where it is rounding, step over to an exact
   host that says the same twice, steer smoothly where a difference lasts (a tempo
   ramp whose bpm stands still), leap where the host insists from far away. */
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
    bool heard;            /* a report before; its place and when that was: */
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
    bool exact;       /* the host's places are known to be */
} Difference;

typedef enum { FOLLOW_KEEP, FOLLOW_STEP, FOLLOW_STEER, FOLLOW_RELEASE, FOLLOW_LEAP } FollowAdvice;

void follow_restart(Follow* follow);

/* FOLLOW_STEP: go on from the host's place at the nominal rate, a little beside ours.
   FOLLOW_STEER: go on from the own place at *rate ticks in a frame.
   FOLLOW_RELEASE: at the nominal rate again.  FOLLOW_LEAP: begin anew at the host's
   place. */
FollowAdvice follow_report(Follow* follow, const Difference* difference, double* rate);
