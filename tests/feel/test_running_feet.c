// SPDX-License-Identifier: ISC
/* Feet that run are even, in every figure of the factory that has such runs: under 120 ms from
   stroke to stroke nine in ten stand within 6 ms of the middle of their neighbours, which is
   what is just noticed below 240 ms (Friberg & Sundberg 1995, JASA 98(5), 2524-2531).  That
   players aim at it is common practice, no source. */
#include "../../plugin/engine/play/articulation.h"
#include "../bank/factory.h"
#include "../help/check.h"
#include "performance.h"

enum { TAKES = 6, BARS = 8, SLOWEST = 120, FASTEST = 240, FEET_MOST = 1024 };

typedef struct {
    int64_t written;
    double ms; /* where it is played */
} Foot;

typedef struct {
    int runs;
    int noticed;
} Count;

/* The feet's strokes of some bars, as felt. */
static int play_feet(const Score* const score, Foot feet[FEET_MOST])
{
    static StrokeList around;
    const double ms = 60000.0 / score->tempo / (double)TICKS_PER_QUARTER;
    int count = 0;
    for (int64_t beat = 0; beat < 4 * BARS; ++beat) {
        const int64_t from = beat * TICKS_PER_QUARTER, to = from + TICKS_PER_QUARTER;
        groove_strokes(score->selection, score->meter, from - TICKS_PER_QUARTER,
                       to + TICKS_PER_QUARTER, &around);
        for (uint32_t i = 0; i < around.count; ++i) {
            const Stroke stroke = around.strokes[i];
            Hit hits[ARTICULATION_MAX];
            if (stroke.voice <= VOICE_KICK_LEFT && stroke.tick >= from && stroke.tick < to &&
                count < FEET_MOST) {
                articulation_of(score, stroke, &around, hits);
                feet[count++] = (Foot){stroke.tick, (double)hits[0].tick * ms};
            }
        }
    }
    return count;
}

/* Of strokes with two even gaps on each side, all under 120 ms. */
static void count_runs(const Foot* const feet, const int n, const double tempo, Count* const count)
{
    for (int i = 2; i + 2 < n; ++i) {
        const int64_t gap = feet[i].written - feet[i - 1].written;
        const bool even = feet[i + 1].written - feet[i].written == gap &&
                          feet[i - 1].written - feet[i - 2].written == gap &&
                          feet[i + 2].written - feet[i + 1].written == gap;
        if (even && gap > 0 && (double)gap / (double)TICKS_PER_QUARTER * 60000.0 / tempo < 120.0) {
            const double between = (feet[i - 1].ms + feet[i + 1].ms) / 2.0;
            ++count->runs;
            count->noticed += fabs(feet[i].ms - between) > 6.0;
        }
    }
}

static Count count_figure(const Figure* const figure, const int tempo)
{
    static Foot feet[FEET_MOST];
    const Groove groove = plain_groove(NULL, figure);
    const Selection selection = plain_choice(&groove, 4);
    Count count = {0, 0};
    for (uint32_t take = 1; take <= TAKES; ++take) {
        const Feel feel = default_feel(take);
        const Score score = {
            .selection = &selection, .feel = &feel, .meter = groove.meter, .tempo = tempo};
        count_runs(feet, play_feet(&score, feet), tempo, &count);
    }
    return count;
}

static void runs_of_the_factory_s_feet_are_even_at_every_tempo(void)
{
    Bank* const bank = factory_open();
    const Library* const library = bank_library(bank);
    int figures = 0;
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_FEET]; ++i) {
        const Figure* const figure = &library->figures[FIGURE_FEET][i];
        bool runs = false;
        for (int tempo = SLOWEST; tempo <= FASTEST; tempo += 10) {
            const Count count = count_figure(figure, tempo);
            check_case("feet %u at %d: %d of %d noticed", figure->id, tempo, count.noticed,
                       count.runs);
            /* Of few a tenth says nothing. */
            CHECK(count.runs < 100 || count.noticed * 10 <= count.runs);
            runs |= count.runs >= 100;
        }
        figures += runs;
    }
    bank_free(bank);
    check_case("%d figures run", figures);
    CHECK(figures >= 10);
}

int main(void)
{
    RUN(runs_of_the_factory_s_feet_are_even_at_every_tempo);
    return tests_end();
}
