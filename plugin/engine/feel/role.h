// SPDX-License-Identifier: ISC
/* role.h - what strays.c and loudness.c share: what a stroke is to its player, and sources
   of chance apart from each other. */
#pragma once

#include "feel.h"

typedef enum { ROLE_TIME, ROLE_DRUM, ROLE_KICK, ROLE_PEDAL, ROLE_COUNT } Role;

static inline Role role_of(const Stroke stroke)
{
    if (stroke.limb >= RIGHT_FOOT) {
        return stroke.voice == VOICE_HAT_PEDAL ? ROLE_PEDAL : ROLE_KICK;
    }
    return feel_keeps_time(stroke) ? ROLE_TIME : ROLE_DRUM;
}

/* Where in its beat a stroke stands: on it, on a sixteenth after, or elsewhere. */
typedef enum { ON_BEAT, ON_E, ON_AND, ON_A, ON_NONE } InBeat;

static inline InBeat in_beat_of(const int64_t in_bar)
{
    const int64_t sixteenth = TICKS_PER_QUARTER / 4;
    return in_bar % sixteenth ? ON_NONE : (InBeat)(in_bar / sixteenth % 4);
}

/* Feet that go on and on, one after the other or one alone. */
static inline bool role_runs(const Stroke stroke, const Surroundings* const around)
{
    return stroke.limb >= RIGHT_FOOT && around->near < TICKS_PER_QUARTER / 2 &&
           around->limb_before == around->limb_after && around->limb_before <= 2 * around->near;
}

/* Likewise, whichever foot plays which stroke. */
static inline bool role_in_run(const Stroke stroke, const Surroundings* const around)
{
    return stroke.limb >= RIGHT_FOOT && around->near < TICKS_PER_QUARTER / 2 &&
           around->before == around->near && around->after == around->near;
}

/* Of each limb LIMB_COUNT in a row, of a take one. */
enum {
    TAKE_DRIFT = 0,
    TAKE_SPREAD, /* and the drift's depth */
    TAKE_CONTOUR,
    HANDS_TOGETHER,
    BAR_SWELL,
    LIMB_HABIT = 16,
    LIMB_TIMING_DEPTH = LIMB_HABIT + LIMB_COUNT, /* of habit, of jitter, lateness */
    LIMB_JITTER = LIMB_TIMING_DEPTH + LIMB_COUNT,
    LIMB_CONTOUR = LIMB_JITTER + LIMB_COUNT,
    LIMB_LOUDNESS_DEPTH = LIMB_CONTOUR + LIMB_COUNT, /* of contour, of jitter */
    LIMB_TOUCH = LIMB_LOUDNESS_DEPTH + LIMB_COUNT,
    LIMB_MOVEMENT = LIMB_TOUCH + LIMB_COUNT,
    LIMB_CONTOUR_PAIR = LIMB_MOVEMENT + LIMB_COUNT
};

/* A depth around 1, never below 0. */
static inline double depth_of(const double draw, const double differs)
{
    const double depth = 1.0 + differs * draw;
    return depth > 0.0 ? depth : 0.0;
}
