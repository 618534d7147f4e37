// SPDX-License-Identifier: ISC
/* test_every_pair.c - each hands figure with each feet figure of the bank, in one meter
   after the other, shuffled or not: what playability finds is what counting each stroke
   against each finds. */
#include "../bank/factory.h"
#include "../rhythm/fraction.h"
#include "counted.h"

enum { BARS = 2 };

static const Meter meters[] = {{4.0, 4}, {3.0, 4},  {7.0, 8},  {5.0, 4}, {6.0, 8},
                               {9.0, 8}, {11.0, 8}, {13.0, 8}, {2.0, 2}, {7.0, 16}};

static Played played;
static Playability playability;

/* Whether the stream hears the limb. */
static bool hears(const PlayStream stream, const uint8_t limb)
{
    return stream == PLAY_HANDS  ? !limb_is_foot(limb)
           : stream == PLAY_FEET ? limb_is_foot(limb)
                                 : limb == (uint8_t)stream;
}

static Counted count_played(const PlayStream stream, const double tempo)
{
    static double times[PLAYED_MAX];
    const PlayLimits limits = play_limits_default();
    uint32_t count = 0;
    for (uint32_t i = 0; i < played.count; ++i) {
        const Stroke stroke = played.strokes[i];
        const double at = (double)stroke.tick / 1441440.0 * 60.0 / tempo;
        if (hears(stream, stroke.limb) && (!count || at > times[count - 1] + 1e-9)) {
            times[count++] = at;
        }
    }
    return count_stream(times, count, limits.run_gap_ms[stream] / 1000.0, limits.rate[stream],
                        burst_rate_of(stream, limits.rate[stream]), 1e-7);
}

static void check_pair(const Figure* const hands, const Figure* const feet, const uint32_t turn)
{
    const PlayLimits limits = play_limits_default();
    const Meter meter = meters[turn % (sizeof meters / sizeof *meters)];
    const double tempo = 90.0 + turn % 12 * 10.0;
    const Groove groove = plain_groove(hands, feet);
    Selection selection = plain_choice(&groove, BARS);
    selection.swing.ratio = turn % 3 ? 1.0 : 2.0;
    play(&selection, meter, BARS * meter_bar_ticks(meter), &played);
    playability_run(&playability, &selection, meter, tempo, BARS, &limits);
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        const Counted counted = count_played((PlayStream)stream, tempo);
        check_counted(&playability, (PlayStream)stream, &counted, 1e-6);
    }
}

static void every_pair_of_the_bank_asks_what_one_by_one_counts(void)
{
    Bank* const bank = factory_open();
    uint32_t turn = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_HANDS); ++i) {
        for (uint32_t j = 0; j < bank_count(bank, ENTRY_FEET); ++j, ++turn) {
            check_case("%s over %s, turn %u", bank_entry(bank, ENTRY_HANDS, i)->label,
                       bank_entry(bank, ENTRY_FEET, j)->label, turn);
            check_pair(factory_figure(bank, ENTRY_HANDS, i), factory_figure(bank, ENTRY_FEET, j),
                       turn);
        }
    }
    printf("# %u pairs\n", turn);
    CHECK(turn > 10000);
    bank_free(bank);
}

int main(void)
{
    RUN(every_pair_of_the_bank_asks_what_one_by_one_counts);
    return tests_end();
}
