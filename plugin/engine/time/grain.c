// SPDX-License-Identifier: ISC
#include "grain.h"

#include <math.h>

/* Steps in a beat.  1920 (JACK's ticks and those of a host recorded) and 384 (of
   another) were seen; 192 is for some margin, the rest are common resolutions of
   sequencers (from memory). */
#define STEPS(X) X(192.0) X(384.0) X(480.0) X(960.0) X(1920.0) X(3840.0) X(7680.0) X(15360.0)
#define IN_A_BEAT(steps) steps,
#define BEATS_OF_ONE(steps) 1.0 / (steps),
static const double steps[] = {STEPS(IN_A_BEAT)};
static const double lengths[] = {STEPS(BEATS_OF_ONE) 0.0}; /* none is left: exact */
enum { STEP_KINDS = sizeof steps / sizeof *steps };

/* The last digits of a 32-bit float, which is what places are told in. */
static const double digits = 1.0 / 4194304.0;

/* A stretch of so many places and beats tells as much as all before. */
enum { LONG_STRETCH = 8 };
static const double long_beats = 2.0;

static const double some_margin = 1.05;

void grain_hear(Grain* const grain, const double bar_beat)
{
    const double far = fabs(bar_beat);
    const double slack = digits * (far > 1.0 ? far : 1.0);
    for (uint32_t i = grain->coarsest; i < STEP_KINDS; ++i) {
        const double in_steps = bar_beat * steps[i];
        if (fabs(in_steps - floor(in_steps + 0.5)) > slack * steps[i]) {
            grain->ruled_out |= 1U << i;
        }
    }
    while (grain->ruled_out >> grain->coarsest & 1U) {
        ++grain->coarsest;
    }
}

void grain_restart(Grain* const grain)
{
    grain->low = grain->high = 0.0;
    grain->count = 0;
}

void grain_stray(Grain* const grain, const double off, const double beats)
{
    grain->low = off < grain->low ? off : grain->low;
    grain->high = off > grain->high ? off : grain->high;
    ++grain->count;
    const double between = grain->high - grain->low;
    const double apart = between < lengths[0] ? between : lengths[0];
    if (grain->count >= LONG_STRETCH && beats >= long_beats) {
        grain->jitter = apart;
    }
    grain->jitter = apart > grain->jitter ? apart : grain->jitter;
}

double grain_rounding(const Grain* const grain)
{
    const double step = lengths[grain->coarsest];
    return (step > grain->jitter ? step : grain->jitter) * some_margin;
}
