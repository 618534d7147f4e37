// SPDX-License-Identifier: ISC
/* Every row of tests/data/drummers.tsv that the feel speaks of (from the Groove MIDI Dataset,
   Gillick and others, ICML 2019, CC BY 4.0), at its defaults over tempi from 70 to 200: the
   median of its windows lies between the drummers' 10 and 90 %.  White noise and the first
   model (first_model.h) are played beside it and fail rows that are named.

   FEEL=1 prints the table: band, ours, first model, white. */
#include "../help/check.h"
#include "performance.h"
#include "rows.h"

#include <stdio.h>
#include <string.h>

enum { TAKES = 80, TEMPI = 14, WINDOWS_MOST = 3 * TEMPI * TAKES, ROWS_MOST = 256 };

static bool find_band(const char* const table, const char* const statistic, const char* const of,
                      double band[3])
{
    char line[512], want[256];
    bool found = false;
    const int size = snprintf(want, sizeof want, "%s\t%s\t%s\t", table, statistic, of);
    FILE* const file = fopen(FOURLIMB_SOURCE "/tests/data/drummers.tsv", "r");
    while (file && !found && fgets(line, sizeof line, file)) {
        found = !strncmp(line, want, (size_t)size) &&
                sscanf(line + size, "%lf %lf %lf", &band[0], &band[1], &band[2]) == 3;
    }
    if (file) {
        fclose(file);
    }
    return found;
}

/* True if windows of this tempo belong to the row. */
static bool is_of_tempo(const char* const of, const double tempo)
{
    const char* const comma = strchr(of, ',');
    return !comma                           ? true
           : !strcmp(comma, ", under 90")   ? tempo < 90.0
           : !strcmp(comma, ", 90 to 110")  ? tempo >= 90.0 && tempo < 110.0
           : !strcmp(comma, ", 110 to 130") ? tempo >= 110.0 && tempo < 130.0
                                            : tempo >= 130.0;
}

static Performance performances[MODELS][WINDOWS_MOST];
static Performance whole[MODELS][TAKES];

static void play_all(void)
{
    for (int model = 0; model < MODELS; ++model) {
        for (int i = 0; i < WINDOWS_MOST; ++i) {
            const Feel feel = default_feel((uint32_t)(i % TAKES) + 1);
            const double tempo = 70.0 + 10.0 * (i / TAKES / 3);
            const int groove = tempo > sixteenths_most && i / TAKES % 3 == 1 ? 0 : i / TAKES % 3;
            play_feel((Model)model, &feel, &patterns[groove], 8, tempo, &performances[model][i]);
        }
        for (int i = 0; i < TAKES; ++i) {
            const Feel feel = default_feel((uint32_t)i + 1);
            play_feel((Model)model, &feel, &patterns[i % 3], WINDOW_BARS, 110.0, &whole[model][i]);
        }
    }
}

static double median_of_row(const Asked* const row, const Model model, const WindowLimb limb)
{
    static double values[WINDOWS_MOST];
    int count = 0;
    const Performance* const from = row->is_long ? whole[model] : performances[model];
    for (int i = 0; i < (row->is_long ? TAKES : WINDOWS_MOST); ++i) {
        if (is_of_tempo(row->of, from[i].tempo)) {
            const Window* const window = row->is_velocity ? &from[i].velocity : &from[i].ms;
            values[count++] = row->value(window, limb);
        }
    }
    return median_of(values, count);
}

/* Of one row and limb: the band, and each model's median. */
typedef struct {
    const Asked* row;
    const char* limb;
    double band[3];
    double got[MODELS];
} Line;

static Line lines[ROWS_MOST];
static int line_count;

/* The limb's name where the words have a "%s". */
static void put_limb(const char* const words, const char* const limb, char* const text,
                     const size_t size)
{
    const char* const hole = strstr(words, "%s");
    const int before = hole ? (int)(hole - words) : (int)strlen(words);
    snprintf(text, size, "%.*s%s%s", before, words, hole ? limb : "", hole ? hole + 2 : "");
}

static void measure_all(void)
{
    for (int i = 0; i < ASKED; ++i) {
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            Line* const line = &lines[line_count];
            char statistic[128], of[64];
            put_limb(asked[i].statistic, limb_names[limb], statistic, sizeof statistic);
            put_limb(asked[i].of, limb_names[limb], of, sizeof of);
            if (!find_band(asked[i].table, statistic, of, line->band)) {
                continue;
            }
            line->row = &asked[i];
            line->limb = limb_names[limb];
            for (int model = 0; model < MODELS; ++model) {
                line->got[model] = median_of_row(&asked[i], (Model)model, (WindowLimb)limb);
            }
            line_count += !isnan(line->got[OURS]);
        }
    }
}

static bool holds(const Line* const line, const Model model)
{
    return line->got[model] >= line->band[0] && line->got[model] <= line->band[2];
}

static void every_row_of_the_tables_is_within_what_drummers_do(void)
{
    for (int i = 0; i < line_count; ++i) {
        const Line* const line = &lines[i];
        check_case("%s: %s, %s: %.3g to %.3g, ours %.3g", line->row->table, line->row->statistic,
                   line->limb, line->band[0], line->band[2], line->got[OURS]);
        CHECK(holds(line, OURS));
        if (getenv("FEEL")) {
            printf("# %-15s %-46s %-6s %7.3g %7.3g %7.3g  ours %7.3g first %7.3g%c white %7.3g%c\n",
                   line->row->table, line->row->statistic, line->limb, line->band[0], line->band[1],
                   line->band[2], line->got[OURS], line->got[FIRST], holds(line, FIRST) ? ' ' : '!',
                   line->got[WHITE], holds(line, WHITE) ? ' ' : '!');
        }
    }
    CHECK(line_count >= 120); /* rows that a typing error would lose */
}

static void fails(const Model model, const char* const statistic, const char* const limb)
{
    int found = 0;
    for (int i = 0; i < line_count; ++i) {
        const Line* const line = &lines[i];
        if (!strcmp(line->row->statistic, statistic) && !strcmp(line->limb, limb)) {
            check_case("%s, %s: %.3g to %.3g, got %.3g", statistic, limb, line->band[0],
                       line->band[2], line->got[model]);
            found += !holds(line, model);
        }
    }
    CHECK(found > 0);
}

static void white_noise_would_be_told(void)
{
    fails(WHITE, "lag-1 of offsets", "cymbal");
    fails(WHITE, "drift: sd of bar means", "cymbal");
    fails(WHITE, "correlation of offsets", "snare");
    fails(WHITE, "long-range exponent (DFA), whole takes", "cymbal");
}

static void the_first_model_would_be_told(void)
{
    fails(FIRST, "offset sd", "cymbal");
    fails(FIRST, "offset sd", "snare");
    fails(FIRST, "interval sd", "cymbal");
    fails(FIRST, "sd of difference one bar on", "cymbal");
    fails(FIRST, "habit: sd of place means", "snare");
}

/* Mean over takes of what a person measures: all strokes of eight bars against the click. */
static double measured_spread(const double looseness, const double tempo)
{
    static Performance one;
    double sum = 0.0;
    enum { MANY = 400 };
    for (int take = 1; take <= MANY; ++take) {
        Feel feel = default_feel((uint32_t)take);
        feel.looseness_ms = looseness;
        play_feel(OURS, &feel, &plain, 8, tempo, &one);
        double squares = 0.0;
        int count = 0;
        for (int limb = 0; limb < WINDOW_LIMBS; ++limb) {
            const Row row = window_row(&one.ms, (WindowLimb)limb);
            for (int i = 0; i < row.count; ++i) {
                squares += row.x[i] * row.x[i];
            }
            count += row.count;
        }
        sum += sqrt(squares / count) / MANY;
    }
    return sum;
}

static void looseness_is_the_standard_deviation_that_a_person_measures(void)
{
    static const double dials[] = {4.0, 8.0, 12.0, 18.0, 25.0};
    for (int i = 0; i < 5; ++i) {
        const double got = measured_spread(dials[i], 107.0);
        check_case("looseness %g: %.2f ms", dials[i], got);
        /* The loosest are held back by their neighbours. */
        CHECK_NEAR(got, dials[i], (dials[i] > 20.0 ? 0.1 : 0.05) * dials[i]);
    }
}

/* timing-by-tempo: the three limbs' medians under 90, and from 130 on. */
static void slow_playing_strays_further_than_fast_as_measured(void)
{
    CHECK_NEAR(measured_spread(18.0, 80.0), (21.0 + 25.6 + 19.7) / 3.0, 2.0);
    CHECK_NEAR(measured_spread(18.0, 140.0), (16.9 + 16.5 + 14.6) / 3.0, 1.0);
}

int main(void)
{
    play_all();
    measure_all();
    RUN(every_row_of_the_tables_is_within_what_drummers_do);
    RUN(white_noise_would_be_told);
    RUN(the_first_model_would_be_told);
    RUN(looseness_is_the_standard_deviation_that_a_person_measures);
    RUN(slow_playing_strays_further_than_fast_as_measured);
    return tests_end();
}
