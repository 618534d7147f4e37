// SPDX-License-Identifier: ISC
#include "tap.h"

#include <string.h>

static const double soonest = 0.12; /* 500 a minute: a held key repeats 25 times a second */
static const double longest = 3.3;  /* under 20 a minute, and a tenth more for a slow hand */

/* A tap left out is twice an interval, and not yet a pause. */
static const double pause_times = 2.5;

static double median(const Tap* const tap)
{
    double sorted[TAP_INTERVALS];
    const int count = tap->count;
    memcpy(sorted, tap->intervals, sizeof sorted);
    for (int i = 1; i < count; ++i) {
        const double value = sorted[i];
        int at = i;
        for (; at > 0 && sorted[at - 1] > value; --at) {
            sorted[at] = sorted[at - 1];
        }
        sorted[at] = value;
    }
    return count % 2 ? sorted[count / 2] : (sorted[count / 2 - 1] + sorted[count / 2]) / 2.0;
}

static bool goes_on(const Tap* const tap, const double interval)
{
    const bool is_near = !tap->count || interval < pause_times * median(tap);
    return tap->taps && interval >= soonest && interval <= longest && is_near;
}

double tap_at(Tap* const tap, const double seconds)
{
    const double interval = seconds - tap->last;
    const bool is_held = tap->taps && interval >= 0.0 && interval < soonest;
    if (!goes_on(tap, interval)) {
        *tap = (Tap){.taps = 0};
    } else {
        tap->intervals[tap->next] = interval;
        tap->next = (tap->next + 1) % TAP_INTERVALS;
        tap->count += tap->count < TAP_INTERVALS;
    }
    tap->last = seconds;
    tap->taps = is_held ? 1 : tap->taps + 1;
    if (tap->count < 2) {
        return 0.0;
    }
    const double found = 60.0 / median(tap);
    return found < TAP_LEAST ? TAP_LEAST : found > TAP_MOST ? TAP_MOST : found;
}
