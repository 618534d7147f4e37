// SPDX-License-Identifier: ISC
/* test_playability.c - what a song asks of a person: all small patterns against a count
   of each stroke against each, limits against published rates. */
#include "../../plugin/engine/writing/playability.h"
#include "../data/tsv.h"
#include "../engine/library.h"
#include "counted.h"

static Playability playability;

static const Meter four_four = {4.0, 4};

/* ---- Every pattern of up to eight sixteenths for two feet */

enum { BARS = 3, SONG_STEPS = 16 * BARS };

/* Strokes of the limbs in `mask`, of which a step's bits say who strikes. */
static Counted count_steps(const uint32_t* const steps, const uint32_t count, const uint32_t mask,
                           const double step, const PlayStream stream)
{
    const PlayLimits limits = play_limits_default();
    double times[SONG_STEPS];
    uint32_t struck = 0;
    for (uint32_t i = 0; i < SONG_STEPS; ++i) {
        if (steps[i % count] & mask) {
            times[struck++] = i * step;
        }
    }
    return count_stream(times, struck, limits.run_gap_ms[stream] / 1000.0, limits.rate[stream],
                        burst_rate_of(stream, limits.rate[stream]), 1e-9);
}

static Figure rolling(const uint32_t count)
{
    return (Figure){
        .id = 1, .step_ticks = TICKS_PER_QUARTER / 4, .cycle_ticks = count * TICKS_PER_QUARTER / 4};
}

static void look_through(const Figure* const hands, const Figure* const feet, const double tempo)
{
    const PlayLimits limits = play_limits_default();
    const Groove groove = one_letter(hands, feet, four_four, BARS);
    Selection selection = selection_of_groove(&groove);
    selection.realign = REALIGN_NEVER;
    playability_run(&playability, &selection, four_four, tempo, BARS, &limits);
}

/* Two bits a step: right foot, left foot. */
static void check_feet(const uint32_t pattern, const uint32_t count, const double tempo)
{
    Stroke strokes[16];
    uint32_t steps[8];
    Figure feet = rolling(count);
    feet.strokes = strokes;
    for (uint32_t i = 0; i < count; ++i) {
        steps[i] = pattern >> 2 * i & 3U;
        for (uint8_t foot = 0; foot < 2; ++foot) {
            if (steps[i] >> foot & 1U) {
                strokes[feet.stroke_count++] = (Stroke){i * feet.step_ticks, RIGHT_FOOT + foot,
                                                        VOICE_KICK, LEVEL_NORMAL, true};
            }
        }
    }
    look_through(NULL, &feet, tempo);
    check_case("pattern %x of %u steps at %g", pattern, count, tempo);
    const PlayStream streams[] = {(PlayStream)RIGHT_FOOT, (PlayStream)LEFT_FOOT, PLAY_FEET};
    for (uint32_t i = 0; i < 3; ++i) {
        const Counted counted = count_steps(steps, count, i + 1, 15.0 / tempo, streams[i]);
        check_counted(&playability, streams[i], &counted, 1e-6);
        CHECK_NEAR(playability.found[streams[i]].mean,
                   counted.strokes / (SONG_STEPS * 15.0 / tempo), 1e-6);
        CHECK_INT(playability.found[streams[i]].torn, 0);
    }
}

/* At 210 a second is fourteen steps to the tick, at 120 a run's longest gap two. */
static void all_patterns_of_two_feet_are_counted_as_one_by_one(void)
{
    static const double tempos[] = {210.0, 120.0, 331.0};
    for (uint32_t count = 1; count <= 8; ++count) {
        for (uint32_t pattern = 0; pattern < 1U << 2 * count; ++pattern) {
            check_feet(pattern, count, tempos[pattern % 3]);
        }
    }
}

/* ---- Every pattern of up to four sixteenths for two hands on two drums */

/* By the words of play_limits.h, from places written down once more: snare to floor tom. */
static double way_ms(void)
{
    const double cm = sqrt(65.0 * 65.0 + 10.0 * 10.0);
    return 20.0 + cm; /* 10 m/s is 1 cm/ms */
}

/* A step of a hand: 1 snare, 2 floor tom, 3 both, which goes on from the tom. */
static void check_hand(const uint32_t* const steps, const uint32_t count, const uint8_t hand,
                       const double step_ms)
{
    uint32_t torn = 0, moves = 0, before = 0, since = 0;
    for (uint32_t i = 0; i < SONG_STEPS; ++i, ++since) {
        const uint32_t here = steps[i % count] >> 2 * hand & 3U;
        const uint32_t goes_to = here == 3 ? 1 : here;
        torn += here == 3;
        moves += here && before && goes_to != before && since * step_ms < way_ms() - 1e-9;
        since = here ? 0 : since;
        before = here == 3 ? 2 : here ? here : before;
    }
    const PlayDemand* const found = &playability.found[hand];
    CHECK_INT(found->torn, torn);
    CHECK_INT(found->moves, moves);
    CHECK_INT(!(playability_faults(&playability, (PlayStream)hand) & PLAY_TORN), !torn);
    CHECK_INT(!(playability_faults(&playability, (PlayStream)hand) & PLAY_TOO_FAR), !moves);
}

static void check_hands(const uint32_t pattern, const uint32_t count, const double tempo)
{
    Stroke strokes[16];
    uint32_t steps[4], most = 0;
    Figure hands = rolling(count);
    hands.strokes = strokes;
    for (uint32_t i = 0; i < count; ++i) {
        uint32_t at_once = 0;
        steps[i] = pattern >> 4 * i & 15U;
        for (uint8_t bit = 0; bit < 4; ++bit) {
            if (steps[i] >> bit & 1U) {
                strokes[hands.stroke_count++] =
                    (Stroke){i * hands.step_ticks, bit / 2, bit % 2 ? VOICE_TOM_FLOOR : VOICE_SNARE,
                             LEVEL_NORMAL, true};
                ++at_once;
            }
        }
        most = at_once > most ? at_once : most;
    }
    look_through(&hands, NULL, tempo);
    check_case("pattern %x of %u steps at %g", pattern, count, tempo);
    CHECK_INT(playability.at_once, most);
    for (uint8_t hand = 0; hand < 2; ++hand) {
        check_hand(steps, count, hand, 15000.0 / tempo);
    }
}

static void all_patterns_of_two_hands_on_two_drums_are_told_apart(void)
{
    static const double tempos[] = {130.0, 200.0, 400.0}; /* the way takes 0, 1, 2 steps */
    for (uint32_t count = 1; count <= 4; ++count) {
        for (uint32_t pattern = 0; pattern < 1U << 4 * count; ++pattern) {
            check_hands(pattern, count, tempos[pattern % 3]);
        }
    }
}

/* Common practice, no source: a fill that ends on the floor tom, and the crash. */
static void a_fill_reaches_the_crash_up_to_200(void)
{
    const PlayLimits limits = play_limits_default();
    const double two_sixteenths_ms = 2.0 * 60000.0 / 200.0 / 4.0;
    const double needs_ms = play_limits_move_ms(&limits, VOICE_TOM_FLOOR, VOICE_CRASH);
    CHECK(needs_ms <= two_sixteenths_ms && needs_ms > two_sixteenths_ms / 1.1);
    CHECK_NEAR(play_limits_move_ms(&limits, VOICE_HAT_CLOSED, VOICE_HAT_OPEN), 0.0, 0.0);
    CHECK_NEAR(play_limits_move_ms(&limits, VOICE_SNARE, VOICE_SNARE), 0.0, 0.0);
    check_case("a hand that chokes has to grip, and to let go before it goes elsewhere");
    CHECK_NEAR(play_limits_move_ms(&limits, VOICE_CRASH, VOICE_CHOKE), limits.grip_ms, 0.0);
    CHECK_NEAR(play_limits_move_ms(&limits, VOICE_CHINA, VOICE_CHOKE), limits.grip_ms, 0.0);
    CHECK_NEAR(play_limits_move_ms(&limits, VOICE_CHOKE, VOICE_SNARE),
               limits.grip_ms + play_limits_move_ms(&limits, VOICE_CRASH, VOICE_SNARE), 1e-9);
}

/* ---- Limits */

/* A feet figure of even sixteenths, in 4/4 for so many minutes. */
static uint32_t faults_of_running_feet(const double tempo, const double minutes)
{
    const PlayLimits limits = play_limits_default();
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "o.o.");
    add_line(&own, LEFT_FOOT, VOICE_KICK, 4, 1, ".o.o");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    const Selection selection = selection_of_groove(&groove);
    playability_run(&playability, &selection, four_four, tempo,
                    playability_bars(minutes, four_four, tempo), &limits);
    return playability_faults(&playability, PLAY_FEET);
}

/* Half of a hundredth faster than the record is over it, as much slower isn't.  The first
   second, in which the count grows, leaves the minutes a little off. */
static void running_feet_may_go_as_long_as_the_record_went(void)
{
    Tsv table = tsv_open("feet-endurance.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        const double minutes = tsv_number(&table, 0);
        const double tempo = tsv_number(&table, 2) * 60.0 / 4.0;
        check_case("%g minutes", minutes);
        CHECK_NEAR(faults_of_running_feet(tempo * 0.995, minutes * 1.02), 0, 0.0);
        CHECK_NEAR(faults_of_running_feet(tempo * 1.005, minutes * 1.02), PLAY_TOO_LONG, 0.0);
    }
    CHECK_INT(rows, 8);
    CHECK_INT(faults_of_running_feet(268.0, 0.5), 0); /* 17.9 a second: 18 in some */
    CHECK_INT(faults_of_running_feet(272.0, 0.5), PLAY_TOO_FAST);
}

/* Five strokes in a fifth of a second, once a bar: more than a minute of them in all. */
static void bursts_in_slow_seconds_are_not_a_rate_kept_up(void)
{
    const PlayLimits limits = play_limits_default();
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 8, 1, "o.o.o... ........ ........ ........");
    add_line(&own, LEFT_FOOT, VOICE_KICK, 8, 1, ".o.o.... ........ ........ ........");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    const Selection selection = selection_of_groove(&groove);
    playability_run(&playability, &selection, four_four, 150.0, 500, &limits);
    CHECK_NEAR(playability_minutes_at(&playability, PLAY_FEET, 2), 500 * 0.2 / 60.0, 1e-6);
    CHECK_NEAR(playability_kept_at(&playability, PLAY_FEET, 2), 2.0, 0.0);
    CHECK_INT(playability_faults(&playability, PLAY_FEET), 0);
}

static void the_share_of_a_minute_s_rate_is_the_record_s(void)
{
    const PlayLimits limits = play_limits_default();
    Tsv table = tsv_open("feet-endurance.tsv");
    while (tsv_next(&table)) {
        CHECK_NEAR(play_limits_share(&limits, tsv_number(&table, 0)), tsv_number(&table, 3), 6e-4);
    }
    CHECK_NEAR(play_limits_share(&limits, 0.1), 1.0, 0.0);
    CHECK_NEAR(play_limits_share(&limits, 0.0), 1.0, 0.0);
    CHECK(play_limits_share(&limits, 60.0) < play_limits_share(&limits, 15.0));
}

static void the_limits_are_the_published_ones(void)
{
    const PlayLimits limits = play_limits_default();
    Tsv table = tsv_open("human-limits.tsv");
    while (tsv_next(&table)) {
        const double most = tsv_number(&table, 1);
        const char* const name = table.fields[0];
        const double held = !strcmp(name, "one_hand")    ? limits.rate[LEFT_HAND]
                            : !strcmp(name, "one_foot")  ? limits.rate[LEFT_FOOT]
                            : !strcmp(name, "two_feet")  ? limits.rate[PLAY_FEET]
                            : !strcmp(name, "two_hands") ? limits.rate[PLAY_HANDS]
                                                         : 1000.0 / limits.closest_ms[RIGHT_FOOT];
        check_case("%s", name);
        CHECK_NEAR(held, most, 0.051); /* the table is rounded to a tenth */
    }
}

/* ---- Single cases */

static void look_through_foot(const int grid, const char* const steps, const double tempo,
                              const uint32_t bars, const PlayLimits limits)
{
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, grid, 1, steps);
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    const Selection selection = selection_of_groove(&groove);
    playability_run(&playability, &selection, four_four, tempo, bars, &limits);
}

/* At 150 a thirty-second is 50 ms, a sixteenth 100 ms, 116 the foot's limit. */
static void a_foot_may_double_and_not_triple(void)
{
    const PlayLimits limits = play_limits_default();
    const PlayStream foot = (PlayStream)RIGHT_FOOT;
    look_through_foot(8, "oo...... o.......", 150.0, 4, limits);
    CHECK_INT(playability_faults(&playability, foot), 0);
    CHECK_INT(playability.found[foot].doubles, 8);
    look_through_foot(8, "ooo..... o.......", 150.0, 4, limits);
    CHECK_INT(playability_faults(&playability, foot), PLAY_TOO_CLOSE);
    CHECK_INT(playability.found[foot].burst, 3);
    look_through_foot(8, "oo...... o.......", 190.0, 4, limits); /* 39 ms */
    CHECK_INT(playability_faults(&playability, foot), PLAY_TOO_CLOSE);
}

/* A bar of sixteenths foot to foot at 300 is ten a second of each foot for eight strokes: more
   than a minute's 8.6, less than the 11.6 that its line comes to at a second; 12 are more. */
static void a_bar_that_a_minute_would_not_allow_is_no_bounce(void)
{
    const PlayLimits limits = play_limits_default();
    const PlayStream foot = (PlayStream)RIGHT_FOOT;
    look_through_foot(4, "oooooooo........", 150.0, 4, limits);
    CHECK_INT(playability_faults(&playability, foot), 0);
    CHECK_INT(playability.found[foot].burst, 1);
    CHECK_INT(playability.found[foot].doubles, 4 * 7);
    look_through_foot(4, "oooooooo........", 180.0, 4, limits);
    CHECK_INT(playability_faults(&playability, foot), PLAY_TOO_CLOSE);
    CHECK_INT(playability.found[foot].burst, 8);
}

static void limits_may_be_others(void)
{
    PlayLimits limits = play_limits_default();
    limits.rate[RIGHT_FOOT] = 4.0;
    look_through_foot(4, "o", 120.0, 4, limits); /* 8 a second */
    CHECK_INT(playability_faults(&playability, (PlayStream)RIGHT_FOOT),
              PLAY_TOO_FAST | PLAY_TOO_CLOSE);
    limits.run_gap_ms[RIGHT_FOOT] = 100.0;
    look_through_foot(4, "o", 120.0, 4, limits);
    CHECK_INT(playability.found[RIGHT_FOOT].run_strokes, 1);
}

static void a_song_s_length_may_be_told_in_minutes(void)
{
    CHECK_INT(playability_bars(4.0, four_four, 200.0), 200);
    CHECK_INT(playability_bars(4.0, (Meter){7.0, 8}, 210.0), 240);
    CHECK_INT(playability_bars(1.0, four_four, 122.0), 31); /* 30.5 */
    CHECK_INT(playability_bars(0.0, four_four, 120.0), 1);
    CHECK_INT(playability_bars((double)NAN, four_four, 120.0), 1);
}

static void a_silenced_limb_is_looked_at_too(void)
{
    const PlayLimits limits = play_limits_default();
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "o...");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.limbs[RIGHT_FOOT] = false;
    playability_run(&playability, &selection, four_four, 120.0, 2, &limits);
    CHECK_INT(playability.found[RIGHT_FOOT].strokes, 8);
}

static void an_odd_tempo_or_length_ends(void)
{
    const PlayLimits limits = play_limits_default();
    static const double tempos[] = {0.0, -5.0, (double)NAN, (double)INFINITY, 1e300};
    OwnFigure own = {.figure = {.id = 1}};
    add_line(&own, RIGHT_FOOT, VOICE_KICK, 4, 1, "o...");
    const Groove groove = one_letter(NULL, &own.figure, four_four, 1);
    const Selection selection = selection_of_groove(&groove);
    for (size_t i = 0; i < sizeof tempos / sizeof *tempos; ++i) {
        playability_run(&playability, &selection, four_four, tempos[i], 1, &limits);
        CHECK_INT(playability.found[RIGHT_FOOT].strokes, 4);
        CHECK(playability.tempo >= TEMPO_LEAST && playability.tempo <= TEMPO_MOST);
    }
    playability_start(&playability, &selection, (Meter){1e30, 1}, 120.0, UINT32_MAX, &limits);
    CHECK(playability.end > 0);
    playability_run(&playability, &selection, four_four, 120.0, 0, &limits);
    CHECK_INT(playability.found[RIGHT_FOOT].strokes, 0);
    CHECK_NEAR(playability.found[RIGHT_FOOT].mean, 0.0, 0.0);
}

int main(void)
{
    RUN(all_patterns_of_two_feet_are_counted_as_one_by_one);
    RUN(all_patterns_of_two_hands_on_two_drums_are_told_apart);
    RUN(a_fill_reaches_the_crash_up_to_200);
    RUN(running_feet_may_go_as_long_as_the_record_went);
    RUN(bursts_in_slow_seconds_are_not_a_rate_kept_up);
    RUN(the_share_of_a_minute_s_rate_is_the_record_s);
    RUN(the_limits_are_the_published_ones);
    RUN(a_foot_may_double_and_not_triple);
    RUN(a_bar_that_a_minute_would_not_allow_is_no_bounce);
    RUN(limits_may_be_others);
    RUN(a_song_s_length_may_be_told_in_minutes);
    RUN(a_silenced_limb_is_looked_at_too);
    RUN(an_odd_tempo_or_length_ends);
    return tests_end();
}
