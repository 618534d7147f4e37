// SPDX-License-Identifier: ISC
/* test_swing_live.c - the shuffle through the built plugin while it plays.  At
   120 a quarter lasts 24,000 frames; kit 2 has a key for each voice. */
#include "stage.h"

enum { QUARTER = 24000, HAT = 55, KICK = 48, PLAIN_GROOVE = 3, EIGHTH_HATS = 1, RUNNING_FEET = 50 };
enum { SHUFFLED_HATS = 65 };

static Stage stage, other;

/* Hats in eighths over running sixteenths, and nothing else. */
static void open_running(Stage* const opened, const double tempo, const int beats, const int unit)
{
    stage_open(opened, tempo, beats, unit);
    stage_set(opened, "groove", PLAIN_GROOVE);
    stage_set(opened, "hands", EIGHTH_HATS);
    stage_set(opened, "feet", RUNNING_FEET);
    stage_set(opened, "turnaround", -1);
    stage_set(opened, "kit", 2);
}

static double random_share(uint32_t* const state)
{
    *state = *state * 1664525U + 1013904223U;
    return (*state >> 8) / (double)(1U << 24);
}

/* Each pair of a bar must have its strokes, and all of them. */
static void check_bar(const int64_t begin, const int64_t length)
{
    for (int64_t at = 0; at < length; at += QUARTER) {
        const int64_t pair = length - at < QUARTER ? length - at : QUARTER;
        const int64_t from = begin + at - 1; /* a frame for rounding */
        check_case("the pair at frame %d", (int)(begin + at));
        CHECK_INT(stage_struck(&stage, HAT, from, from + pair), 2 * pair / QUARTER);
        CHECK_INT(stage_struck(&stage, KICK, from, from + pair), 4 * pair / QUARTER);
    }
}

/* Plays bars with a new ratio, grid and follow for every block. */
static void check_automation(const int beats, const int unit, const uint32_t block)
{
    enum { BARS = 16 };
    const int64_t bar = (int64_t)QUARTER * 4 * beats / unit;
    uint32_t state = block;
    open_running(&stage, 120.0, beats, unit);
    stage_tell(&stage, 0.0, 1.0);
    while (stage.now < BARS * bar) {
        stage_set(&stage, "swing_ratio", 1.0 + 2.0 * random_share(&state));
        stage_set(&stage, "swing_grid", random_share(&state) < 0.5);
        stage_set(&stage, "swing_follow", random_share(&state) < 0.5);
        stage_block(&stage, block);
    }
    for (int i = 0; i < BARS; ++i) {
        check_bar(i * bar, bar);
    }
    CHECK_INT(stage.faults, 0);
}

static void a_swing_that_changes_with_every_block_loses_and_doubles_nothing(void)
{
    check_automation(4, 4, 64);
    check_automation(4, 4, 1000);
    check_automation(4, 4, 8192);
}

static void nor_in_seven_eight_whose_bar_cuts_a_pair(void)
{
    check_automation(7, 8, 64);
    check_automation(7, 8, 1000);
}

/* Plays two bars; inside the second quarter, at a share of it, the ratio
   changes together with another control. */
static void change_together(const double share, const double from, const double to,
                            const char* const symbol, const double value)
{
    open_running(&stage, 120.0, 4, 4);
    stage_set(&stage, "change_at", 0);
    stage_set(&stage, "swing_ratio", from);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, (int64_t)((1.0 + share) * QUARTER), 64);
    stage_set(&stage, "swing_ratio", to);
    stage_set(&stage, symbol, value);
    stage_run(&stage, 3 * QUARTER, 64);
}

static void check_hats_of_the_second_quarter(const double share, const double from, const double to)
{
    change_together(share, from, to, "feet", 51);
    check_case("%g to 1 becomes %g to 1 at %g of a beat, with other feet", from, to, share);
    CHECK_INT(stage_struck(&stage, HAT, QUARTER - 1, 2 * QUARTER - 1), 2);
}

static void a_swing_that_changes_with_the_feet_doubles_no_hat(void)
{
    check_hats_of_the_second_quarter(0.6, 1.0, 3.0);
}

static void a_swing_that_changes_with_the_feet_loses_no_hat(void)
{
    check_hats_of_the_second_quarter(0.6, 3.0, 1.0);
}

/* The frames of the hats of 16 bars. */
static void play_hats(Stage* const played, const int hands, const double ratio, const double tempo)
{
    open_running(played, tempo, 4, 4);
    stage_set(played, "hands", hands);
    stage_set(played, "right_foot", 0);
    stage_set(played, "left_foot", 0);
    stage_set(played, "left_hand", 0);
    stage_set(played, "swing_ratio", ratio);
    stage_tell(played, 0.0, 1.0);
    stage_run(played, (int64_t)(64 * 60.0 / tempo * STAGE_RATE), 512);
}

static void two_to_one_is_the_triplet_to_the_frame(void)
{
    play_hats(&stage, EIGHTH_HATS, 2.0, 137.0);
    play_hats(&other, SHUFFLED_HATS, 1.0, 137.0);
    CHECK(stage.count > 250);
    CHECK_INT(stage.count, other.count);
    for (uint32_t i = 0; i < stage.count && i < other.count; ++i) {
        check_case("message %u", i);
        CHECK_INT(stage.notes[i].frame, other.notes[i].frame);
        CHECK_INT(stage.notes[i].bytes[1], other.notes[i].bytes[1]);
    }
}

/* Frames from the second hat of a quarter to the next quarter's first. */
static int64_t short_note(const double tempo)
{
    open_running(&stage, tempo, 4, 4);
    stage_set(&stage, "swing_ratio", 3.0);
    stage_set(&stage, "swing_follow", 1.0);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, 4 * STAGE_RATE, 512);
    int64_t hats[64] = {0};
    size_t count = 0;
    for (uint32_t i = 0; i < stage.count && count < 64; ++i) {
        if (note_is_on(stage.notes[i]) && stage.notes[i].bytes[1] == HAT) {
            hats[count++] = stage.notes[i].frame;
        }
    }
    return hats[2] - hats[1];
}

/* Friberg & Sundstrom 2002, Music Perception 19(3), 333-349: about 100 ms. */
static void a_swing_that_follows_the_tempo_has_a_short_note_of_100_ms(void)
{
    for (double tempo = 155.0; tempo < 300.0; tempo += 12.0) {
        check_case("%g a minute", tempo);
        CHECK_NEAR(short_note(tempo), 0.1 * STAGE_RATE, 1.0);
    }
}

static void a_swing_that_follows_is_even_from_300_on(void)
{
    CHECK_NEAR(short_note(300.0), 4800.0, 1.0);
    CHECK_NEAR(short_note(400.0), 3600.0, 1.0);
}

static void a_swing_that_follows_stays_as_asked_at_slow_tempi(void)
{
    CHECK_NEAR(short_note(100.0), 7200.0, 1.0); /* a quarter of a quarter */
    CHECK_NEAR(short_note(150.0), 4800.0, 1.0);
}

int main(void)
{
    RUN(a_swing_that_changes_with_every_block_loses_and_doubles_nothing);
    RUN(nor_in_seven_eight_whose_bar_cuts_a_pair);
    RUN(a_swing_that_changes_with_the_feet_doubles_no_hat);
    RUN(a_swing_that_changes_with_the_feet_loses_no_hat);
    RUN(two_to_one_is_the_triplet_to_the_frame);
    RUN(a_swing_that_follows_the_tempo_has_a_short_note_of_100_ms);
    RUN(a_swing_that_follows_is_even_from_300_on);
    RUN(a_swing_that_follows_stays_as_asked_at_slow_tempi);
    stage_close(&stage);
    stage_close(&other);
    return tests_end();
}
