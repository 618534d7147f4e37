// SPDX-License-Identifier: ISC
#include "grain.h"

#include <math.h>

/* Steps in a beat.  1920 (JACK's ticks and those of a host recorded) and 384 (of
   another) were seen; 192 is for some margin, the rest are common resolutions of
   sequencers (from memory). */
static const double steps[] = {192.0, 384.0, 480.0, 960.0, 1920.0, 3840.0, 7680.0, 15360.0};
enum { STEP_KINDS = sizeof steps / sizeof *steps };

/* The last digits of a 32-bit float, which is what places are told in. */
static const double digits = 1.0 / 4194304.0;

/* A stretch of so many places and beats tells as much as all before. */
enum { LONG_STRETCH = 8 };
static const double long_beats = 2.0;

static const double some_margin = 1.05;

void grain_hear(Grain* const grain, const double bar_beat)
{
    const double slack = digits * fmax(1.0, fabs(bar_beat));
    for (uint32_t i = 0; i < STEP_KINDS; ++i) {
        const double in_steps = bar_beat * steps[i];
        if (fabs(in_steps - floor(in_steps + 0.5)) > slack * steps[i]) {
            grain->ruled_out |= 1U << i;
        }
    }
}

void grain_restart(Grain* const grain)
{
    grain->low = grain->high = 0.0;
    grain->count = 0;
}

void grain_stray(Grain* const grain, const double off, const double beats)
{
    grain->low = fmin(grain->low, off);
    grain->high = fmax(grain->high, off);
    ++grain->count;
    const double apart = fmin(grain->high - grain->low, 1.0 / steps[0]);
    if (grain->count >= LONG_STRETCH && beats >= long_beats) {
        grain->jitter = apart;
    }
    grain->jitter = fmax(grain->jitter, apart);
}

double grain_rounding(const Grain* const grain)
{
    uint32_t kind = 0;
    while (kind < STEP_KINDS && (grain->ruled_out & 1U << kind)) {
        ++kind;
    }
    const double step = kind < STEP_KINDS ? 1.0 / steps[kind] : 0.0;
    return fmax(step, grain->jitter) * some_margin;
}
