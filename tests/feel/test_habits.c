// SPDX-License-Identifier: ISC
/* Takes are different days, and one take is one day: correlations of place means as
   tests/data/drummers.tsv has them in its rows "habits" (from the Groove MIDI Dataset, Gillick
   and others, ICML 2019, CC BY 4.0).  The bands of two takes and of a take's halves overlap, so
   each is asked to be nearer to its own row's middle than to the other's. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "performance.h"

#include <math.h>

/* As many bars as give a place the dozen strokes or so that half a take of the data has. */
enum { PAIRS = 120, BARS = 24 };

static const char* const limbs[WINDOW_LIMBS] = {"kick", "snare", "cymbal"};

/* 10, 50 and 90 % of a row. */
static void read_band(const char* const statistic, const char* const limb, double band[3])
{
    bool found = false;
    for (Tsv tsv = tsv_open("drummers.tsv"); tsv_next(&tsv);) {
        if (!strcmp(tsv.fields[0], "habits") && !strcmp(tsv.fields[1], statistic) &&
            !strcmp(tsv.fields[2], limb)) {
            for (int i = 0; i < 3; ++i) {
                band[i] = tsv_number(&tsv, 3 + i);
            }
            found = true;
        }
    }
    CHECK(found);
}

/* Over places with 8 strokes or more in both, 4 or more of them. */
static double correlation_of_places(const Row* const one, const Row* const other)
{
    double mean[2][16], x[16], y[16];
    bool has[2][16];
    int n = 0;
    place_means(one, 8, mean[0], has[0]);
    place_means(other, 8, mean[1], has[1]);
    for (int p = 0; p < 16; ++p) {
        x[n] = mean[0][p];
        y[n] = mean[1][p];
        n += has[0][p] && has[1][p];
    }
    return correlation_of(x, y, n, 4);
}

static Row half_of(const Row* const row, const int half)
{
    Row part = {.count = 0};
    for (int i = 0; i < row->count; ++i) {
        if (row->slot[i] / (8 * BARS) == half) {
            part.slot[part.count] = row->slot[i];
            part.x[part.count++] = row->x[i];
        }
    }
    return part;
}

static Performance played[MODELS][2 * PAIRS];

static double median_of_halves(const Model model, const WindowLimb limb, const bool is_velocity)
{
    double got[2 * PAIRS];
    for (int i = 0; i < 2 * PAIRS; ++i) {
        const Performance* const one = &played[model][i];
        const Row row = window_row(is_velocity ? &one->velocity : &one->ms, limb);
        const Row first = half_of(&row, 0), second = half_of(&row, 1);
        got[i] = correlation_of_places(&first, &second);
    }
    return median_of(got, 2 * PAIRS);
}

static double median_of_two_takes(const Model model, const WindowLimb limb)
{
    double got[PAIRS];
    for (int i = 0; i < PAIRS; ++i) {
        const Row one = window_row(&played[model][2 * i].ms, limb);
        const Row other = window_row(&played[model][2 * i + 1].ms, limb);
        got[i] = correlation_of_places(&one, &other);
    }
    return median_of(got, PAIRS);
}

static const char of_halves[] = "timing habit, first half of a take with its second";
static const char of_takes[] = "timing habit, two takes of one drummer";

static bool is_nearer(const double got, const double own[3], const double other[3])
{
    return got >= own[0] && got <= own[2] && fabs(got - own[1]) < fabs(got - other[1]);
}

static void habits_of_two_takes_differ_as_those_of_a_drummers_two_takes(void)
{
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        double halves[3], takes[3];
        read_band(of_halves, limbs[limb], halves);
        read_band(of_takes, limbs[limb], takes);
        const double got = median_of_two_takes(OURS, (WindowLimb)limb);
        check_case("%s: %.3g of %.3g %.3g %.3g, halves %.3g", limbs[limb], got, takes[0], takes[1],
                   takes[2], halves[1]);
        CHECK(is_nearer(got, takes, halves));
    }
}

static void a_take_keeps_its_habits_as_a_drummer_does(void)
{
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        double halves[3], takes[3];
        read_band(of_halves, limbs[limb], halves);
        read_band(of_takes, limbs[limb], takes);
        const double got = median_of_halves(OURS, (WindowLimb)limb, false);
        check_case("%s: %.3g of %.3g %.3g %.3g, two takes %.3g", limbs[limb], got, halves[0],
                   halves[1], halves[2], takes[1]);
        CHECK(is_nearer(got, halves, takes));
    }
}

static void a_take_keeps_its_contour_of_loudness_as_a_drummer_does(void)
{
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        double band[3];
        read_band("loudness contour, first half of a take with its second", limbs[limb], band);
        const double got = median_of_halves(OURS, (WindowLimb)limb, true);
        check_case("%s: %.3g of %.3g %.3g %.3g", limbs[limb], got, band[0], band[1], band[2]);
        CHECK(got >= band[0]); /* here a bar's levels are written alike: that keeps more */
    }
}

static void white_noise_and_the_first_model_keep_no_habits(void)
{
    for (int model = FIRST; model <= WHITE; ++model) {
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            double halves[3], takes[3];
            read_band(of_halves, limbs[limb], halves);
            read_band(of_takes, limbs[limb], takes);
            const double got = median_of_halves((Model)model, (WindowLimb)limb, false);
            check_case("%s, %s: %.3g", model == WHITE ? "white" : "first", limbs[limb], got);
            CHECK(!is_nearer(got, halves, takes));
        }
    }
}

int main(void)
{
    for (int model = 0; model < MODELS; ++model) {
        for (int i = 0; i < 2 * PAIRS; ++i) {
            const Feel feel = default_feel((uint32_t)i + 1);
            play_feel((Model)model, &feel, &patterns[i / 2 % 3], BARS, 110.0, &played[model][i]);
        }
    }
    RUN(habits_of_two_takes_differ_as_those_of_a_drummers_two_takes);
    RUN(a_take_keeps_its_habits_as_a_drummer_does);
    RUN(a_take_keeps_its_contour_of_loudness_as_a_drummer_does);
    RUN(white_noise_and_the_first_model_keep_no_habits);
    return tests_end();
}
