// SPDX-License-Identifier: ISC
/* What the dial of looseness says is so: eight bars of the feel stray from the click as its
   words have it, beside rows "offset sd" of tests/data/drummers.tsv (from the Groove MIDI
   Dataset, Gillick and others, ICML 2019, CC BY 4.0). */
#include "../../ui/scene/felt.h"
#include "../data/tsv.h"
#include "../feel/performance.h"
#include "../help/check.h"

enum { TAKES = 30, TEMPI = 10, WINDOWS = TAKES * TEMPI };

static View view; /* no bank: nothing is written */

/* 10, 50 and 90 % of each limb. */
static double rows[WINDOW_LIMBS][3];

static void read_rows(void)
{
    static const char* const limbs[] = {"kick", "snare", "cymbal"};
    int found = 0;
    for (Tsv tsv = tsv_open("drummers.tsv"); tsv_next(&tsv);) {
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            if (!strcmp(tsv.fields[0], "timing") && !strcmp(tsv.fields[1], "offset sd") &&
                !strcmp(tsv.fields[2], limbs[limb])) {
                for (int i = 0; i < 3; ++i) {
                    rows[limb][i] = tsv_number(&tsv, 3 + i);
                }
                ++found;
            }
        }
    }
    CHECK_INT(found, WINDOW_LIMBS);
}

/* Each limb's median of windows, 70 to 160 quarter notes a minute: nine in ten of the
   drummers' takes are from 67 to 142. */
static void stray(const double looseness_ms, double medians[WINDOW_LIMBS])
{
    static double values[WINDOW_LIMBS][WINDOWS];
    static Performance performance;
    for (int i = 0; i < WINDOWS; ++i) {
        Feel feel = default_feel((uint32_t)(i % TAKES) + 1);
        const double tempo = 70.0 + 10.0 * (i / TAKES);
        const int groove = tempo > sixteenths_most && i % 3 == 1 ? 0 : i % 3;
        feel.looseness_ms = looseness_ms;
        play_feel(OURS, &feel, &patterns[groove], 8, tempo, &performance);
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            const Row row = window_row(&performance.ms, (WindowLimb)limb);
            values[limb][i] = sd_of(row.x, row.count);
        }
    }
    for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
        medians[limb] = median_of(values[limb], WINDOWS);
    }
}

typedef bool (*Claim)(double ms, const double row[3]);

static bool is_the_grid(const double ms, const double row[3])
{
    (void)row;
    return ms <= 0.0;
}

static bool is_tighter_than_nine_in_ten(const double ms, const double row[3])
{
    return ms < row[0];
}

static bool is_tighter_than_most(const double ms, const double row[3])
{
    return ms < row[1];
}

static bool is_looser_than_most(const double ms, const double row[3])
{
    return ms > row[1];
}

/* At both ends of where the dial says it. */
static void holds(const char* const words, const double from, const double to, const Claim claim)
{
    for (int end = 0; end < 2; ++end) {
        char said[FELT_ROOM];
        double medians[WINDOW_LIMBS];
        const double value = end ? to : from;
        felt_words(&view, CONTROL_LOOSENESS, (float)value, said);
        stray(value, medians);
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            check_case("%g, limb %d: %.1f of %.1f %.1f %.1f", value, limb, medians[limb],
                       rows[limb][0], rows[limb][1], rows[limb][2]);
            CHECK_TEXT(said, words);
            CHECK(claim(medians[limb], rows[limb]));
        }
    }
}

static void looseness_0_is_the_click(void)
{
    holds("exactly on the click", 0.0, 0.0, is_the_grid);
}

static void to_10_it_is_tighter_than_nine_in_ten_passages(void)
{
    holds("tighter than nine in ten passages of drummers", 0.1, 10.0, is_tighter_than_nine_in_ten);
}

static void to_16_it_is_tighter_than_most(void)
{
    holds("tighter than most passages of drummers", 10.1, 16.0, is_tighter_than_most);
}

static void over_20_it_is_looser_than_most(void)
{
    holds("looser than most passages of drummers", 20.1, 30.0, is_looser_than_most);
}

/* The limbs' mean, within 15 % of the drummers' and the default within 10. */
static void between_it_is_as_drummers_stray(void)
{
    static const struct {
        double looseness, slack;
    } places[] = {{16.1, 0.15}, {18.0, 0.1}, {20.0, 0.15}};
    const double measured = (rows[0][1] + rows[1][1] + rows[2][1]) / 3.0;
    CHECK_NEAR(control_rows[CONTROL_LOOSENESS].normal, places[1].looseness, 0.0);
    for (int i = 0; i < 3; ++i) {
        char said[FELT_ROOM];
        double medians[WINDOW_LIMBS];
        stray(places[i].looseness, medians);
        felt_words(&view, CONTROL_LOOSENESS, (float)places[i].looseness, said);
        check_case("%g", places[i].looseness);
        CHECK_TEXT(said, "as drummers stray from a click");
        CHECK_NEAR((medians[0] + medians[1] + medians[2]) / 3.0 / measured, 1.0, places[i].slack);
    }
}

int main(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        view.values[i] = control_rows[i].normal;
    }
    read_rows();
    RUN(looseness_0_is_the_click);
    RUN(to_10_it_is_tighter_than_nine_in_ten_passages);
    RUN(to_16_it_is_tighter_than_most);
    RUN(between_it_is_as_drummers_stray);
    RUN(over_20_it_is_looser_than_most);
    return tests_end();
}
