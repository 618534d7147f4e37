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
    return ticks < 1.0 ? 1 : whole_number(floor(ticks + 0.5));
}

bool meter_is_compound(const Meter meter)
{
    const int64_t beats = (int64_t)meter.beats_per_bar;
    const bool is_whole = !(meter.beats_per_bar > (double)beats);
    return (meter.beat_unit == 8 || meter.beat_unit == 16) && is_whole &&
           (beats == 6 || beats == 9 || beats == 12);
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

int64_t common_multiple(const int64_t a, const int64_t b)
{
    return a > 0 && b > 0 ? a / common_divisor(a, b) * b : 0;
}
