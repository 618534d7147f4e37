// SPDX-License-Identifier: ISC
/* test_every_pair.c - each hands figure with each feet figure of the bank, in each
   meter of the bank, shuffled or not: what playability finds is what counting each stroke
   against each finds. */
#include "../bank/factory.h"
#include "../rhythm/fraction.h"
#include "counted.h"

enum { BARS = 2 };

/* Those of the bank's grooves. */
static Meter meters[32];
static uint32_t meter_count;

static void find_meters(const Library* const library)
{
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const Meter meter = library->grooves[i].meter;
        uint32_t at = 0;
        while (at < meter_count && !meter_equal(meters[at], meter)) {
            ++at;
        }
        if (at == meter_count && CHECK(at < sizeof meters / sizeof *meters)) {
            meters[meter_count++] = meter;
        }
    }
}

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

static void check_pair(const Figure* const hands, const Figure* const feet, const Meter meter,
                       const uint32_t turn)
{
    const PlayLimits limits = play_limits_default();
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

/* So many cases take seconds; of more, each pair is tried in every `apart`th meter, the next
   pair in the others. */
enum { CASES_MOST = 400000 };

static uint32_t check_in_meters(const Figure* const hands, const Figure* const feet,
                                const uint32_t turn, const uint32_t apart)
{
    uint32_t cases = 0;
    for (uint32_t i = turn % apart; i < meter_count; i += apart, ++cases) {
        check_pair(hands, feet, meters[i], turn + i);
    }
    return cases;
}

static void every_pair_of_the_bank_asks_what_one_by_one_counts(void)
{
    Bank* const bank = factory_open();
    find_meters(bank_library(bank));
    const uint32_t pairs = bank_count(bank, ENTRY_HANDS) * bank_count(bank, ENTRY_FEET);
    const uint32_t apart = (pairs * meter_count + CASES_MOST - 1) / CASES_MOST;
    uint32_t turn = 0, cases = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_HANDS); ++i) {
        for (uint32_t j = 0; j < bank_count(bank, ENTRY_FEET); ++j, ++turn) {
            check_case("%s over %s, turn %u", bank_entry(bank, ENTRY_HANDS, i)->label,
                       bank_entry(bank, ENTRY_FEET, j)->label, turn);
            cases += check_in_meters(factory_figure(bank, ENTRY_HANDS, i),
                                     factory_figure(bank, ENTRY_FEET, j), turn, apart);
        }
    }
    printf("# %u pairs, %u meters, %u cases\n", pairs, meter_count, cases);
    CHECK(turn > 10000 && meter_count >= 10 && cases >= turn);
    bank_free(bank);
}

int main(void)
{
    RUN(every_pair_of_the_bank_asks_what_one_by_one_counts);
    return tests_end();
}
