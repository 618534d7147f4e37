// SPDX-License-Identifier: ISC
/* series.h - statistics of a series of numbers, written for the tests alone. */
#pragma once

#include <math.h>

enum { SERIES_MAX = 4096 };

static inline double series_mean(const double* const x, const int n)
{
    double sum = 0.0;
    for (int i = 0; i < n; ++i) {
        sum += x[i];
    }
    return sum / n;
}

static inline double series_sd(const double* const x, const int n)
{
    const double mean = series_mean(x, n);
    double sum = 0.0;
    for (int i = 0; i < n; ++i) {
        sum += (x[i] - mean) * (x[i] - mean);
    }
    return sqrt(sum / (n - 1));
}

/* Correlation of each value with the next. */
static inline double series_lag1(const double* const x, const int n)
{
    const double mean = series_mean(x, n);
    double with_next = 0.0;
    double with_self = 0.0;
    for (int i = 0; i < n; ++i) {
        with_self += (x[i] - mean) * (x[i] - mean);
        with_next += i + 1 < n ? (x[i] - mean) * (x[i + 1] - mean) : 0.0;
    }
    return with_next / with_self;
}

/* Sum of squares of what a straight line leaves of n values. */
static inline double line_residue(const double* const y, const int n)
{
    double t = 0.0, s = 0.0, tt = 0.0, ts = 0.0, residue = 0.0;
    for (int i = 0; i < n; ++i) {
        t += i;
        s += y[i];
        tt += (double)i * i;
        ts += i * y[i];
    }
    const double slope = (n * ts - t * s) / (n * tt - t * t);
    const double start = (s - slope * t) / n;
    for (int i = 0; i < n; ++i) {
        const double rest = y[i] - start - slope * i;
        residue += rest * rest;
    }
    return residue;
}

/* Root mean square fluctuation of the profile in windows of one size, laid from
   both ends. */
static inline double fluctuation(const double* const profile, const int n, const int window)
{
    double sum = 0.0;
    const int windows = n / window;
    for (int w = 0; w < windows; ++w) {
        sum += line_residue(profile + w * window, window);
        sum += line_residue(profile + n - (w + 1) * window, window);
    }
    return sqrt(sum / (2.0 * windows * window));
}

/* Detrended fluctuation analysis of order 1 over 14 window sizes from 4 to n/4. */
static inline double series_dfa(const double* const x, const int n)
{
    double profile[SERIES_MAX];
    const double mean = series_mean(x, n);
    double sum = 0.0, sx = 0.0, sy = 0.0, sxx = 0.0, sxy = 0.0;
    int last = 0, count = 0;
    for (int i = 0; i < n; ++i) {
        sum += x[i] - mean;
        profile[i] = sum;
    }
    for (int step = 0; step < 14; ++step) {
        const int window = (int)lround(4.0 * pow(n / 16.0, step / 13.0));
        if (window > last) {
            const double a = log(window);
            const double b = log(fluctuation(profile, n, window));
            sx += a;
            sy += b;
            sxx += a * a;
            sxy += a * b;
            ++count;
            last = window;
        }
    }
    return (count * sxy - sx * sy) / (count * sxx - sx * sx);
}
