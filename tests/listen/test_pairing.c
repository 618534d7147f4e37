// SPDX-License-Identifier: ISC
/* Pairs of written and played strokes against every way there is to pair them: all small cases
   of a few thousand drawn ones (brute force; the rule is in pairing.h). */
#include "../../plugin/engine/listen/pairing.h"
#include "../help/check.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

enum { SMALL = 6, CASES = 20000 };

static PairingRoom room;

/* Numbers of our own, the same on every machine (Knuth, MMIX). */
static uint64_t state = 1;
static double drawn(void)
{
    state = state * 6364136223846793005U + 1442695040888963407U;
    return (double)(state >> 11) / 9007199254740992.0;
}

static int by_size(const void* const a, const void* const b)
{
    const double d = *(const double*)a - *(const double*)b;
    return d < 0.0 ? -1 : d > 0.0;
}

static void draw(double* const times, const uint32_t count, const double span)
{
    for (uint32_t i = 0; i < count; ++i) {
        times[i] = floor(drawn() * span);
    }
    qsort(times, count, sizeof *times, by_size);
}

typedef struct {
    double written[SMALL];
    double played[SMALL];
    uint32_t n, m;
} Case;

/* The least that all from `i` and `j` on can cost. */
static double least(const Case* const it, const uint32_t i, const uint32_t j)
{
    if (i == it->n || j == it->m) {
        return PAIRING_ALONE_MS * (double)(it->n - i + it->m - j);
    }
    double before = 0.0;
    double after = 0.0;
    pairing_window(it->written, it->n, i, &before, &after);
    const double late = it->played[j] - it->written[i];
    double best = PAIRING_ALONE_MS + fmin(least(it, i + 1, j), least(it, i, j + 1));
    if (late > -before && late < after) {
        best = fmin(best, fabs(late) + least(it, i + 1, j + 1));
    }
    return best;
}

/* What the pairs found cost; below 0: two of them share a stroke, cross or are too far apart. */
static double cost_of(const Case* const it, const int32_t found[SMALL])
{
    double cost = 0.0;
    uint32_t pairs = 0;
    int32_t last = PAIRING_NONE;
    for (uint32_t i = 0; i < it->n; ++i) {
        double before = 0.0;
        double after = 0.0;
        pairing_window(it->written, it->n, i, &before, &after);
        if (found[i] != PAIRING_NONE) {
            const double late = it->played[found[i]] - it->written[i];
            if (found[i] <= last || found[i] >= (int32_t)it->m || late <= -before ||
                late >= after) {
                return -1.0;
            }
            cost += fabs(late);
            last = found[i];
            ++pairs;
        }
    }
    return cost + PAIRING_ALONE_MS * (double)(it->n + it->m - 2 * pairs);
}

static void look_at_cases(const double span)
{
    int wrong = 0;
    for (int i = 0; i < CASES; ++i) {
        int32_t found[SMALL];
        Case it = {.n = (uint32_t)(drawn() * (SMALL + 1)), .m = (uint32_t)(drawn() * (SMALL + 1))};
        draw(it.written, it.n, span);
        draw(it.played, it.m, span);
        pairing_find(it.written, it.n, it.played, it.m, found, &room);
        const double got = cost_of(&it, found);
        const double want = least(&it, 0, 0);
        if (fabs(got - want) > 1e-6) {
            printf("# case %d: got %g, want %g\n", i, got, want);
            ++wrong;
        }
    }
    CHECK_INT(wrong, 0);
}

static void pairs_are_the_cheapest_there_are(void)
{
    static const double spans[] = {120.0, 300.0, 700.0, 2000.0};
    for (size_t i = 0; i < sizeof spans / sizeof *spans; ++i) {
        check_case("strokes within %g ms", spans[i]);
        look_at_cases(spans[i]);
    }
}

/* By hand: four strokes 100 ms apart, the third missed, one too many after the last. */
static void a_miss_and_an_extra_are_what_they_are(void)
{
    const double written[] = {0.0, 100.0, 200.0, 300.0};
    const double played[] = {12.0, 95.0, 310.0, 365.0};
    int32_t found[4];
    pairing_find(written, 4, played, 4, found, &room);
    CHECK_INT(found[0], 0);
    CHECK_INT(found[1], 1);
    CHECK_INT(found[2], PAIRING_NONE);
    CHECK_INT(found[3], 2);
}

/* Forty-one strokes in 40 ms on one that is written. */
static void a_storm_of_strokes_is_bounded(void)
{
    double played[200];
    int32_t found[3];
    const double written[] = {0.0, 500.0, 1000.0};
    for (int i = 0; i < 200; ++i) {
        played[i] = 480.0 + 0.2 * i;
    }
    pairing_find(written, 3, played, 200, found, &room);
    CHECK_INT(found[0], PAIRING_NONE);
    CHECK(found[1] >= 0);
    CHECK_INT(found[2], PAIRING_NONE);
}

int main(void)
{
    RUN(pairs_are_the_cheapest_there_are);
    RUN(a_miss_and_an_extra_are_what_they_are);
    RUN(a_storm_of_strokes_is_bounded);
    return tests_end();
}
