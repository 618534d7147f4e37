// SPDX-License-Identifier: ISC
/* windows.h - statistics of a window of strokes as tests/data/drummers.tsv defines them,
   written for the tests alone.  Too few values for one: not a number. */
#pragma once

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

/* Not a number, as a double. */
#define NOTHING ((double)NAN)

typedef enum { KICK_LIMB, SNARE_LIMB, CYMBAL_LIMB, WINDOW_LIMBS } WindowLimb;
enum { WINDOW_BARS = 64, SLOTS = 16 * WINDOW_BARS };

/* One number of each slot of each limb; where none is struck, not a number. */
typedef struct {
    int bars;
    double value[WINDOW_LIMBS][SLOTS];
} Window;

typedef struct {
    int count;
    int slot[SLOTS];
    double x[SLOTS];
} Row;

static inline Row window_row(const Window* const window, const WindowLimb limb)
{
    Row row = {.count = 0};
    for (int slot = 0; slot < 16 * window->bars; ++slot) {
        if (!isnan(window->value[limb][slot])) {
            row.slot[row.count] = slot;
            row.x[row.count++] = window->value[limb][slot];
        }
    }
    return row;
}

static inline double mean_of(const double* const x, const int n)
{
    double sum = 0.0;
    for (int i = 0; i < n; ++i) {
        sum += x[i] / n;
    }
    return n ? sum : NOTHING;
}

static inline double moment_of(const double* const x, const int n, const int power)
{
    const double mean = mean_of(x, n);
    double sum = 0.0;
    for (int i = 0; i < n; ++i) {
        sum += pow(x[i] - mean, power) / n;
    }
    return sum;
}

static inline double sd_of(const double* const x, const int n)
{
    return n >= 3 ? sqrt(moment_of(x, n, 2)) : NOTHING;
}

static inline double correlation_of(const double* const a, const double* const b, const int n,
                                    const int least)
{
    const double ma = mean_of(a, n), mb = mean_of(b, n);
    double ab = 0.0, aa = 0.0, bb = 0.0;
    for (int i = 0; i < n; ++i) {
        ab += (a[i] - ma) * (b[i] - mb);
        aa += (a[i] - ma) * (a[i] - ma);
        bb += (b[i] - mb) * (b[i] - mb);
    }
    return n >= least && aa > 0.0 && bb > 0.0 ? ab / sqrt(aa * bb) : NOTHING;
}

static inline double lag1_of(const double* const x, const int n)
{
    return correlation_of(x, x + 1, n - 1, 8);
}

/* Means of the places of the bar, those with `least` strokes or more. */
static inline int place_means(const Row* const row, const int least, double mean[16], bool has[16])
{
    int count[16] = {0}, places = 0;
    for (int p = 0; p < 16; ++p) {
        mean[p] = 0.0;
    }
    for (int i = 0; i < row->count; ++i) {
        mean[row->slot[i] % 16] += row->x[i];
        ++count[row->slot[i] % 16];
    }
    for (int p = 0; p < 16; ++p) {
        has[p] = count[p] >= least;
        places += has[p];
        mean[p] = count[p] ? mean[p] / count[p] : 0.0;
    }
    return places;
}

static inline double place_sd(const Row* const row)
{
    double mean[16], kept[16];
    bool has[16];
    int n = 0;
    place_means(row, 3, mean, has);
    for (int p = 0; p < 16; ++p) {
        kept[n] = mean[p];
        n += has[p];
    }
    return sd_of(kept, n);
}

static inline Row within_places(const Row* const row)
{
    double mean[16];
    bool has[16];
    Row rest = {.count = 0};
    place_means(row, 3, mean, has);
    for (int i = 0; i < row->count; ++i) {
        if (has[row->slot[i] % 16]) {
            rest.slot[rest.count] = row->slot[i];
            rest.x[rest.count++] = row->x[i] - mean[row->slot[i] % 16];
        }
    }
    return rest;
}

/* Pairs of one limb's slot with another's `later`; returns how many. */
static inline int pairs_of(const Window* const w, const WindowLimb a, const WindowLimb b,
                           const int later, double* const x, double* const y)
{
    int n = 0;
    for (int slot = 0; slot + later < 16 * w->bars; ++slot) {
        if (!isnan(w->value[a][slot]) && !isnan(w->value[b][slot + later])) {
            x[n] = w->value[a][slot];
            y[n++] = w->value[b][slot + later];
        }
    }
    return n;
}

static inline double bars_on(const Window* const w, const WindowLimb limb, const int bars)
{
    double x[SLOTS], y[SLOTS];
    const int n = pairs_of(w, limb, limb, 16 * bars, x, y);
    return correlation_of(x, y, n, 12);
}

static inline double difference_one_bar_on(const Window* const w, const WindowLimb limb)
{
    double x[SLOTS], y[SLOTS];
    const int n = pairs_of(w, limb, limb, 16, x, y);
    for (int i = 0; i < n; ++i) {
        x[i] = y[i] - x[i];
    }
    return sd_of(x, n);
}

static inline double bar_drift(const Row* const row, const int bars)
{
    double mean[WINDOW_BARS];
    int n = 0;
    for (int bar = 0; bar < bars; ++bar) {
        double sum = 0.0;
        int count = 0;
        for (int i = 0; i < row->count; ++i) {
            sum += row->slot[i] / 16 == bar ? row->x[i] : 0.0;
            count += row->slot[i] / 16 == bar;
        }
        mean[n] = count ? sum / count : 0.0;
        n += count >= 2;
    }
    return n >= 5 ? sd_of(mean, n) : NOTHING;
}

/* Mean at one sixteenth of the beats less that on them. */
static inline double less_beat(const Row* const row, const int sixteenth)
{
    double there[SLOTS], beat[SLOTS];
    int n = 0, m = 0;
    for (int i = 0; i < row->count; ++i) {
        there[n] = beat[m] = row->x[i];
        n += row->slot[i] % 4 == sixteenth;
        m += row->slot[i] % 4 == 0;
    }
    return n >= 4 && m >= 4 ? mean_of(there, n) - mean_of(beat, m) : NOTHING;
}

/* Root of the covariance of odd and even bars' place means. */
static inline double lasting_sd(const Row* const row)
{
    Row half[2] = {{.count = 0}, {.count = 0}};
    double mean[2][16], a[16], b[16];
    bool has[2][16];
    int n = 0;
    for (int i = 0; i < row->count; ++i) {
        Row* const to = &half[row->slot[i] / 16 % 2];
        to->slot[to->count] = row->slot[i];
        to->x[to->count++] = row->x[i];
    }
    place_means(&half[0], 4, mean[0], has[0]);
    place_means(&half[1], 4, mean[1], has[1]);
    for (int p = 0; p < 16; ++p) {
        a[n] = mean[0][p];
        b[n] = mean[1][p];
        n += has[0][p] && has[1][p];
    }
    const double ma = mean_of(a, n), mb = mean_of(b, n);
    double both = 0.0;
    for (int i = 0; i < n; ++i) {
        both += (a[i] - ma) * (b[i] - mb) / n;
    }
    return n < 3 ? NOTHING : both > 0.0 ? sqrt(both) : 0.0;
}

static inline int ascending(const void* const a, const void* const b)
{
    const double x = *(const double*)a, y = *(const double*)b;
    return (x > y) - (x < y);
}

/* The median of those that are numbers; sorts. */
static inline double median_of(double* const x, const int n)
{
    int kept = 0;
    for (int i = 0; i < n; ++i) {
        x[kept] = x[i];
        kept += !isnan(x[i]);
    }
    qsort(x, (size_t)kept, sizeof *x, ascending);
    return kept ? (x[(kept - 1) / 2] + x[kept / 2]) / 2.0 : NOTHING;
}
