// SPDX-License-Identifier: ISC
/* test_fill_lean.c - fills lean forward at their end and on the line after, and nowhere else.
   How far: data/drummers.tsv, rows of fills "offset less the two bars before, ms", medians.
   One stroke is asked of with a fill before the line and without: what chance does is the
   same in both, so what is left is the lean. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "performance.h"

#include <math.h>

static const Stroke roll[] = {
    {0, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true},
    {TICKS_PER_QUARTER, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true},
};
enum { ROLL_BEATS = 2, PHRASE_BARS = 4, TAKES = 200 };
static const Figure fill = {.id = 1,
                            .kind = FIGURE_TURNAROUND,
                            .cycle_ticks = ROLL_BEATS * TICKS_PER_QUARTER,
                            .step_ticks = TICKS_PER_QUARTER,
                            .stroke_count = sizeof roll / sizeof *roll,
                            .strokes = roll};
static const Groove groove = {.id = 1, .meter = {4, 4}, .form_bars = PHRASE_BARS};
/* The row is of all tempi together; spread falls with tempo (timing-by-tempo.tsv: 1.2 to 0.9 of
   its middle), and what leans with it.  Half a millisecond at every tempo was asked first. */
static const double slack = 0.25;

/* The median of a row, by what it is of. */
static double published(const char* const of)
{
    double median = 0.0;
    bool is_there = false;
    Tsv table = tsv_open("drummers.tsv");
    while (tsv_next(&table)) {
        if (!strcmp(table.fields[0], "fills") && !strcmp(table.fields[2], of) &&
            !strncmp(table.fields[1], "offset less", 11)) {
            median = tsv_number(&table, 4);
            is_there = true;
        }
    }
    CHECK(is_there);
    return median;
}

static double offset_ms(const Meter meter, const double tempo, const Figure* const turnaround,
                        const uint32_t take, const int64_t tick)
{
    const Feel feel = default_feel(take);
    const Selection selection = {
        .groove = &groove, .turnaround = turnaround, .phrase_bars = PHRASE_BARS, .feel = feel};
    const Score score = {.selection = &selection, .feel = &feel, .meter = meter, .tempo = tempo};
    const Stroke stroke = {tick, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true};
    StrokeList around = {.count = 0};
    stroke_list_add(&around, stroke);
    Hit hits[ARTICULATION_MAX];
    articulation_of(&score, stroke, &around, hits);
    return (double)(hits[0].tick - hits[0].written) / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
}

/* The mean over takes of what the fill adds, `quarters` from the first phrase's end. */
static double lean_ms(const Meter meter, const double tempo, const double quarters)
{
    const int64_t line = PHRASE_BARS * meter_bar_ticks(meter);
    const int64_t tick = line + (int64_t)(quarters * (double)TICKS_PER_QUARTER);
    double sum = 0.0;
    for (uint32_t take = 1; take <= TAKES; ++take) {
        sum +=
            offset_ms(meter, tempo, &fill, take, tick) - offset_ms(meter, tempo, NULL, take, tick);
    }
    return sum / TAKES;
}

static const Meter meters[] = {{4, 4}, {3, 4}, {7, 8}, {12, 8}, {7, 16}};
static const double tempi[] = {70.0, 120.0, 200.0};

static void check_lean(const double quarters, const double want_ms)
{
    for (size_t m = 0; m < sizeof meters / sizeof *meters; ++m) {
        for (size_t t = 0; t < sizeof tempi / sizeof *tempi; ++t) {
            check_case("%.2f quarters from the line of %g/%d at %g", quarters,
                       meters[m].beats_per_bar, meters[m].beat_unit, tempi[t]);
            CHECK_NEAR(lean_ms(meters[m], tempi[t], quarters), want_ms, slack * fabs(want_ms));
        }
    }
}

static void a_fill_s_last_beat_comes_early_as_measured(void)
{
    const double want = published("last beat of the fill");
    CHECK(want < -3.0);
    check_lean(-1.0, want);
    check_lean(-0.25, want);
}

static void the_beat_after_a_fill_comes_early_as_measured(void)
{
    const double want = published("beat 1 after");
    CHECK(want < -3.0);
    check_lean(0.0, want);
    check_lean(0.75, want);
}

static void other_beats_do_not_lean(void)
{
    check_lean(-1.25, 0.0);
    check_lean(1.0, 0.0);
}

int main(void)
{
    RUN(a_fill_s_last_beat_comes_early_as_measured);
    RUN(the_beat_after_a_fill_comes_early_as_measured);
    RUN(other_beats_do_not_lean);
    return tests_end();
}
