// SPDX-License-Identifier: ISC
#include "ticks.h"

#include <math.h>

int64_t meter_beat_ticks(const Meter meter)
{
    return 4 * TICKS_PER_QUARTER / meter.beat_unit;
}

int64_t meter_bar_ticks(const Meter meter)
{
    const double ticks = meter.beats_per_bar * (double)meter_beat_ticks(meter);
    return ticks < 1.0 ? 1 : (int64_t)floor(ticks + 0.5);
}

int meter_equal(const Meter a, const Meter b)
{
    return a.beat_unit == b.beat_unit && !(a.beats_per_bar < b.beats_per_bar) &&
           !(a.beats_per_bar > b.beats_per_bar);
}

int64_t floor_div(const int64_t a, const int64_t b)
{
    return a / b - (a % b < 0);
}

int64_t floor_mod(const int64_t a, const int64_t b)
{
    const int64_t rest = a % b;
    return rest < 0 ? rest + b : rest;
}

int64_t common_divisor(int64_t a, int64_t b)
{
    while (b) {
        const int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}
