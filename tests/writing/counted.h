// SPDX-License-Identifier: ISC
/* counted.h - what a stream of strokes asks of a person, counted anew from a list of
   times in seconds, each stroke against each: the plain way, for tests to hold the
   engine's answers against. */
#pragma once

#include "../../plugin/engine/writing/playability.h"
#include "../help/check.h"

#include <math.h>
#include <string.h>

enum { COUNTED_RATES = 40 };

typedef struct {
    uint32_t strokes, busiest, run, doubles, burst;
    double closest, run_seconds;  /* seconds */
    double at[COUNTED_RATES];     /* seconds of gaps at so many a second or more */
    uint32_t gaps[COUNTED_RATES]; /* as many */
} Counted;

/* How times are compared: what is off by less is the same. */
static inline bool longer(const double a, const double b, const double blur)
{
    return a > b + blur;
}

static inline uint32_t in_second_before(const double* const times, const uint32_t i,
                                        const double blur)
{
    uint32_t count = 0;
    for (uint32_t j = 0; j <= i; ++j) {
        count += longer(1.0, times[i] - times[j], blur);
    }
    return count;
}

/* Strokes from `i` on whose gaps are all shorter than `gap`, or as long. */
static inline uint32_t row_from(const double* const times, const uint32_t count, const uint32_t i,
                                const double gap, const bool as_long, const double blur)
{
    uint32_t last = i;
    while (last + 1 < count) {
        const double here = times[last + 1] - times[last];
        if (as_long ? longer(here, gap, blur) : !longer(gap, here, blur)) {
            break;
        }
        ++last;
    }
    return last - i + 1;
}

/* Above which strokes in a row bounce: of a foot, what the record's line from five minutes to
   one comes to at a second; strokes in them as in play_limits.c. */
static inline double burst_rate_of(const PlayStream stream, const double rate)
{
    const double fall = log(4595.0 / 5.0 / 1034.0) / log(5.0);
    const bool is_foot = stream == (PlayStream)RIGHT_FOOT || stream == (PlayStream)LEFT_FOOT;
    return is_foot ? rate * exp(fall * log(1.0 / 60.0)) : rate;
}

/* Rising times, none twice. */
static inline Counted count_stream(const double* const times, const uint32_t count,
                                   const double run_gap, const double rate, const double burst_rate,
                                   const double blur)
{
    Counted counted = {.strokes = count};
    for (uint32_t i = 0; i < count; ++i) {
        const uint32_t busy = in_second_before(times, i, blur);
        const uint32_t run = row_from(times, count, i, run_gap, true, blur);
        const uint32_t burst = row_from(times, count, i, 1.0 / burst_rate, false, blur);
        const double gap = i ? times[i] - times[i - 1] : 0.0;
        counted.busiest = busy > counted.busiest ? busy : counted.busiest;
        counted.burst = burst > counted.burst ? burst : counted.burst;
        counted.doubles += i && longer(1.0 / rate, gap, blur);
        counted.closest = i && (i == 1 || gap < counted.closest) ? gap : counted.closest;
        if (run > counted.run) {
            counted.run = run;
            counted.run_seconds = times[i + run - 1] - times[i];
        }
        for (uint32_t r = 0; i && busy > 1 && r <= busy && r < COUNTED_RATES; ++r) {
            counted.at[r] += gap;
            ++counted.gaps[r];
        }
    }
    return counted;
}

/* `slack`: seconds that a time may be off. */
static inline void check_counted(const Playability* const playability, const PlayStream stream,
                                 const Counted* const counted, const double slack)
{
    const PlayDemand* const found = &playability->found[stream];
    CHECK_INT(found->strokes, counted->strokes);
    CHECK_NEAR(found->rate, counted->busiest, 0.0);
    CHECK_NEAR(found->closest_ms, 1000.0 * counted->closest, 1000.0 * slack);
    CHECK_INT(found->run_strokes, counted->run);
    CHECK_NEAR(found->run_seconds, counted->run_seconds, slack);
    CHECK_INT(found->doubles, counted->doubles);
    CHECK_INT(found->burst, counted->burst);
    for (uint32_t rate = 1; rate < COUNTED_RATES; ++rate) {
        const double off = slack * (counted->gaps[rate] + 1);
        CHECK_NEAR(60.0 * playability_minutes_at(playability, stream, rate), counted->at[rate],
                   off);
    }
}
