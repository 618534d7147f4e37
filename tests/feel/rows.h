// SPDX-License-Identifier: ISC
/* rows.h - which rows of tests/data/drummers.tsv are asked, and how each is measured. */
#pragma once

#include "series.h"
#include "windows.h"

/* One statistic of a window, of each limb. */
typedef double (*Of)(const Window* window, WindowLimb limb);

#define ROW_STATISTIC(NAME, EXPRESSION)                                                            \
    static inline double NAME(const Window* const window, const WindowLimb limb)                   \
    {                                                                                              \
        const Row row = window_row(window, limb);                                                  \
        return EXPRESSION;                                                                         \
    }

static inline double interval_sd(const Row* const row)
{
    double x[SLOTS];
    for (int i = 1; i < row->count; ++i) {
        x[i - 1] = row->x[i] - row->x[i - 1];
    }
    return sd_of(x, row->count - 1);
}

static inline double interval_lag1(const Row* const row)
{
    double x[SLOTS];
    for (int i = 1; i < row->count; ++i) {
        x[i - 1] = row->x[i] - row->x[i - 1];
    }
    return lag1_of(x, row->count - 1);
}

static inline double share_of_places(const Row* const row)
{
    const double places = place_sd(row), all = sd_of(row->x, row->count);
    return places * places / (all * all);
}

static inline double within_sd(const Row* const row)
{
    const Row rest = within_places(row);
    return sd_of(rest.x, rest.count);
}

static inline double within_lag1(const Row* const row)
{
    const Row rest = within_places(row);
    return lag1_of(rest.x, rest.count);
}

static inline double standard_moment(const Row* const row, const int power)
{
    const double sd = sd_of(row->x, row->count);
    return row->count < 12 ? NOTHING : moment_of(row->x, row->count, power) / pow(sd, power);
}

ROW_STATISTIC(sd, sd_of(row.x, row.count))
ROW_STATISTIC(intervals_sd, interval_sd(&row))
ROW_STATISTIC(lag1, lag1_of(row.x, row.count))
ROW_STATISTIC(intervals_lag1, interval_lag1(&row))
ROW_STATISTIC(places_sd, place_sd(&row))
ROW_STATISTIC(places_share, share_of_places(&row))
ROW_STATISTIC(rest_sd, within_sd(&row))
ROW_STATISTIC(rest_lag1, within_lag1(&row))
ROW_STATISTIC(one_bar_on, row.count ? bars_on(window, limb, 1) : NOTHING)
ROW_STATISTIC(two_bars_on, row.count ? bars_on(window, limb, 2) : NOTHING)
ROW_STATISTIC(four_bars_on, row.count ? bars_on(window, limb, 4) : NOTHING)
ROW_STATISTIC(bar_difference, row.count ? difference_one_bar_on(window, limb) : NOTHING)
ROW_STATISTIC(drifts, bar_drift(&row, window->bars))
ROW_STATISTIC(kurtosis, standard_moment(&row, 4) - 3.0)
ROW_STATISTIC(skew, standard_moment(&row, 3))
ROW_STATISTIC(mean, mean_of(row.x, row.count))
ROW_STATISTIC(e_less_beat, less_beat(&row, 1))
ROW_STATISTIC(and_less_beat, less_beat(&row, 2))
ROW_STATISTIC(a_less_beat, less_beat(&row, 3))
ROW_STATISTIC(lasting, lasting_sd(&row))
ROW_STATISTIC(exponent, row.count >= 128 ? series_dfa(row.x, row.count) : NOTHING)

/* Where two limbs strike together: first less cymbal. */
static inline Row difference_to_cymbal(const Window* const window, const WindowLimb limb)
{
    double x[SLOTS], y[SLOTS];
    Row row = {.count = pairs_of(window, limb, CYMBAL_LIMB, 0, x, y)};
    for (int i = 0; i < row.count; ++i) {
        row.x[i] = x[i] - y[i];
    }
    return row;
}

static inline double difference_mean(const Window* const window, const WindowLimb limb)
{
    const Row row = difference_to_cymbal(window, limb);
    return row.count >= 8 ? mean_of(row.x, row.count) : NOTHING;
}

static inline double difference_sd(const Window* const window, const WindowLimb limb)
{
    const Row row = difference_to_cymbal(window, limb);
    return row.count >= 8 ? sd_of(row.x, row.count) : NOTHING;
}

static inline double difference_lag1(const Window* const window, const WindowLimb limb)
{
    const Row row = difference_to_cymbal(window, limb);
    return lag1_of(row.x, row.count);
}

static inline double with_cymbal(const Window* const window, const WindowLimb limb)
{
    double x[SLOTS], y[SLOTS];
    const int n = pairs_of(window, limb, CYMBAL_LIMB, 0, x, y);
    return correlation_of(x, y, n, 8);
}

static inline double kick_with_snare(const Window* const window, const int later)
{
    double x[SLOTS], y[SLOTS];
    const int n = pairs_of(window, KICK_LIMB, SNARE_LIMB, later, x, y);
    return correlation_of(x, y, n, 8);
}

static inline double snare_one_beat_on(const Window* const window, const WindowLimb limb)
{
    return limb == KICK_LIMB ? kick_with_snare(window, 4) : NOTHING;
}

static inline double snare_two_beats_on(const Window* const window, const WindowLimb limb)
{
    return limb == KICK_LIMB ? kick_with_snare(window, 8) : NOTHING;
}

/* What is played, and which columns of the table say so; "%s" is the limb. */
typedef struct {
    const char* table;
    const char* statistic;
    const char* of;
    Of value;
    bool is_velocity;
    bool is_long; /* of whole takes */
} Asked;

static const Asked asked[] = {
    {"timing", "offset sd", "%s", sd, false, false},
    {"timing", "interval sd", "%s", intervals_sd, false, false},
    {"timing", "lag-1 of offsets", "%s", lag1, false, false},
    {"timing", "lag-1 of intervals", "%s", intervals_lag1, false, false},
    {"timing", "habit: sd of place means", "%s", places_sd, false, false},
    {"timing", "habit: share of variance", "%s", places_share, false, false},
    {"timing", "sd within places", "%s", rest_sd, false, false},
    {"timing", "lag-1 within places", "%s", rest_lag1, false, false},
    {"timing", "correlation one bar on", "%s", one_bar_on, false, false},
    {"timing", "correlation two bars on", "%s", two_bars_on, false, false},
    {"timing", "correlation four bars on", "%s", four_bars_on, false, false},
    {"timing", "sd of difference one bar on", "%s", bar_difference, false, false},
    {"timing", "drift: sd of bar means", "%s", drifts, false, false},
    {"timing", "excess kurtosis", "%s", kurtosis, false, false},
    {"timing", "skew", "%s", skew, false, false},
    {"timing", "mean against all limbs", "%s", mean, false, false},
    {"timing", "e less beat", "%s", e_less_beat, false, false},
    {"timing", "and less beat", "%s", and_less_beat, false, false},
    {"timing", "a less beat", "%s", a_less_beat, false, false},
    {"timing", "habit, lasting: sd of place means, whole takes", "%s", lasting, false, true},
    {"timing", "long-range exponent (DFA), whole takes", "%s", exponent, false, true},
    {"timing", "difference: mean", "%s less cymbal", difference_mean, false, false},
    {"timing", "difference: sd", "%s less cymbal", difference_sd, false, false},
    {"timing", "difference: lag-1", "%s less cymbal", difference_lag1, false, false},
    {"timing", "correlation of offsets", "%s and cymbal", with_cymbal, false, false},
    {"timing", "kick with snare two beats on", "all", snare_two_beats_on, false, false},
    {"timing", "kick with snare one beat on", "all", snare_one_beat_on, false, false},
    {"timing-by-tempo", "offset sd", "%s, under 90", sd, false, false},
    {"timing-by-tempo", "offset sd", "%s, 90 to 110", sd, false, false},
    {"timing-by-tempo", "offset sd", "%s, 110 to 130", sd, false, false},
    {"timing-by-tempo", "offset sd", "%s, 130 and up", sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, under 90", intervals_sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, 90 to 110", intervals_sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, 110 to 130", intervals_sd, false, false},
    {"timing-by-tempo", "interval sd", "%s, 130 and up", intervals_sd, false, false},
    {"timing-by-tempo", "habit: sd of place means", "%s, under 90", places_sd, false, false},
    {"timing-by-tempo", "habit: sd of place means", "%s, 130 and up", places_sd, false, false},
    {"timing-by-tempo", "sd within places", "%s, under 90", rest_sd, false, false},
    {"timing-by-tempo", "sd within places", "%s, 130 and up", rest_sd, false, false},
    {"timing-by-tempo", "drift: sd of bar means", "%s, under 90", drifts, false, false},
    {"timing-by-tempo", "drift: sd of bar means", "%s, 130 and up", drifts, false, false},
    {"timing-by-tempo", "lag-1 of offsets", "%s, under 90", lag1, false, false},
    {"timing-by-tempo", "lag-1 of offsets", "%s, 130 and up", lag1, false, false},
    {"loudness", "velocity sd", "%s", sd, true, false},
    {"loudness", "contour: sd of place means", "%s", places_sd, true, false},
    {"loudness", "contour: share of variance", "%s", places_share, true, false},
    {"loudness", "sd within places", "%s", rest_sd, true, false},
    {"loudness", "lag-1 within places", "%s", rest_lag1, true, false},
    {"loudness", "correlation one bar on", "%s", one_bar_on, true, false},
    {"loudness", "correlation two bars on", "%s", two_bars_on, true, false},
    {"loudness", "correlation four bars on", "%s", four_bars_on, true, false},
    {"loudness", "sd of difference one bar on", "%s", bar_difference, true, false},
    {"loudness", "drift: sd of bar means", "%s", drifts, true, false},
    {"loudness", "e less beat", "%s", e_less_beat, true, false},
    {"loudness", "and less beat", "%s", and_less_beat, true, false},
    {"loudness", "a less beat", "%s", a_less_beat, true, false},
    {"loudness", "contour, lasting: sd of place means, whole takes", "%s", lasting, true, true},
    {"loudness", "velocity of %s with cymbal's", "%s", with_cymbal, true, false},
};
enum { ASKED = sizeof asked / sizeof *asked };

static const char* const limb_names[WINDOW_LIMBS] = {"kick", "snare", "cymbal"};
