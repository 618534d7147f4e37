// SPDX-License-Identifier: ISC
/* test_own_clock.c - the plugin on its own clock: where each click stands while
   the ladder rises, from when to when it plays, and that a host has no say. */
#include "clicks.h"

static Stage stage, other;

static const Ladderway ways[] = {
    {120.0L, 0.0L, 200.0L, 4, 4, 0, 4.0L, 1.0L},
    {97.25L, 7.5L, 131.0L, 1, 2, 1, 4.0L, 1.0L},
    {200.0L, 20.0L, 400.0L, 2, 1, 4, 4.0L, 1.0L},
    {60.5L, 0.25L, 61.0L, 1, 1, 2, 4.0L, 1.0L},
    {151.0L, 10.0L, 400.0L, 1, 1, 0, 4.0L, 0.75L},
    {300.0L, 50.0L / 4.0L, 200.0L, 1, 1, 0, 4.0L, 0.5L}, /* the top is below */
};

enum { WAYS = sizeof ways / sizeof *ways, WAY_FRAMES = 40 * STAGE_RATE };

/* The practice_rate port's value of a rate. */
static int rate_value(const long double rate)
{
    return rate < 0.6L ? 2 : rate < 0.9L ? 4 : 5;
}

static void begin_way(Stage* const on, const Ladderway way)
{
    stage_open(on, 120.0, 4, 4);
    set_way(on, way);
    stage_set(on, "practice_rate", rate_value(way.rate));
}

static void every_click_of_a_ladder_is_within_half_a_frame_of_its_place(void)
{
    for (int i = 0; i < WAYS; ++i) {
        begin_way(&stage, ways[i]);
        stage_run(&stage, WAY_FRAMES, 1024);
        Ladderway way = ways[i];
        way.step = way.top < way.tempo ? 0.0L : way.step;
        const uint32_t clicks = check_way(&stage, way, 0);
        check_case("way %d", i);
        CHECK(clicks > 80);
        CHECK_INT(stage.faults, 0);
    }
}

static void check_same(const Stage* const got, const Stage* const want)
{
    CHECK_INT(got->count, want->count);
    for (uint32_t i = 0; i < got->count && i < want->count; ++i) {
        if (!CHECK_INT(got->notes[i].frame, want->notes[i].frame) ||
            !CHECK(!memcmp(got->notes[i].bytes, want->notes[i].bytes, 3))) {
            return;
        }
    }
}

/* At the feel's default, so that its tempo is in it. */
static void any_blocks_give_the_same_notes(void)
{
    static const uint32_t blocks[] = {64, 441, 1024, 8192, 100000};
    begin_way(&stage, ways[1]);
    stage_set(&stage, "looseness", 18);
    stage_set(&stage, "swing_ratio", 2);
    stage_set(&stage, "swing_follow", 1);
    stage_run(&stage, WAY_FRAMES, 17);
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; ++i) {
        begin_way(&other, ways[1]);
        stage_set(&other, "looseness", 18);
        stage_set(&other, "swing_ratio", 2);
        stage_set(&other, "swing_follow", 1);
        stage_run(&other, WAY_FRAMES, blocks[i]);
        check_case("blocks of %u", blocks[i]);
        check_same(&other, &stage);
    }
}

static int64_t first_drum(const Stage* const on)
{
    for (uint32_t i = 0; i < on->count; ++i) {
        if (note_is_on(on->notes[i]) && !is_click(on->notes[i])) {
            return on->notes[i].frame;
        }
    }
    return -1;
}

static void the_groove_comes_in_after_the_bars_of_count_in(void)
{
    for (int bars = 0; bars <= 4; ++bars) {
        stage_open(&stage, 120.0, 4, 4);
        stage_set(&stage, "clock", 1);
        stage_set(&stage, "count_in", bars);
        stage_run(&stage, 12 * STAGE_RATE, 512); /* bars of two seconds */
        check_case("%d bars", bars);
        CHECK_INT(first_drum(&stage), bars * 2 * STAGE_RATE);
        CHECK_INT(stage_struck(&stage, BELL_KEY, 0, stage.now), bars);
        CHECK_INT(stage_struck(&stage, CLICK_KEY, 0, stage.now), bars * 3);
    }
}

static void on_starts_it_again_from_the_count_in_and_the_first_tempo(void)
{
    begin_way(&stage, ways[1]);
    stage_run(&stage, 20 * STAGE_RATE, 512);
    stage_set(&stage, "enabled", 0);
    stage_run(&stage, 7000, 512);
    CHECK_INT(stage.sounding, 0);
    const uint32_t before = stage.count;
    stage_run(&stage, 7000, 512);
    CHECK_INT(stage.count, before);
    stage_set(&stage, "enabled", 1);
    stage.count = 0;
    const int64_t began = stage.now;
    stage_run(&stage, WAY_FRAMES, 512);
    CHECK(check_way(&stage, ways[1], began) > 80);
    begin_way(&other, ways[1]);
    stage_run(&other, WAY_FRAMES, 512);
    for (uint32_t i = 0; i < other.count; ++i) {
        other.notes[i].frame += began;
    }
    check_same(&stage, &other);
    CHECK_INT(stage.faults, 0);
}

/* 120 for a second and a half, then 60: sixteenths of an eighth, then a quarter of
   a second, and the first of them is what was left of one. */
static void another_tempo_goes_on_from_the_same_place(void)
{
    stage_open(&stage, 120.0, 4, 4);
    set_way(&stage, ways[0]);
    stage_run(&stage, 69000, 1000);
    stage_set(&stage, "tempo", 60);
    stage_run(&stage, 100000, 1000);
    uint32_t at = 0;
    for (int step = 0; step < 20; ++step) {
        const int64_t after = step - 12 > 0 ? step - 12 : 0; /* place at the change: 11.5 */
        const int64_t want = step < 12 ? step * 6000 : 69000 + 6000 + after * 12000;
        at = next_click(&stage, at);
        check_case("sixteenth %d", step);
        CHECK(at < stage.count);
        CHECK_INT(stage.notes[at++].frame, want);
    }
    CHECK_INT(stage.faults, 0);
}

static void what_a_host_tells_does_not_matter(void)
{
    begin_way(&stage, ways[2]);
    begin_way(&other, ways[2]);
    for (int i = 0; i < 400; ++i) {
        if (i % 10 == 3) {
            stage_tell(&stage, (double)(i * 7 % 50), i % 20 == 3 ? 1.0 : 0.0);
        }
        stage_block(&stage, 1000);
        stage_block(&other, 1000);
    }
    check_same(&stage, &other);
}

enum { WINTER_TIMETABLE = 140 }; /* in 7/8 */

static void it_has_the_groove_s_meter_whatever_the_host_s(void)
{
    const Ladderway way = {140.0L, 5.0L, 200.0L, 1, 2, 1, 3.5L, 1.0L};
    stage_open(&stage, 120.0, 4, 4);
    set_way(&stage, way);
    stage_set(&stage, "groove", WINTER_TIMETABLE);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, WAY_FRAMES, 777);
    CHECK(check_way(&stage, way, 0) > 80);
}

static int64_t quarters_at(const long double quarters, const long double tempo)
{
    return llroundl(quarters * 60.0L / tempo * (long double)STAGE_RATE);
}

/* A groove in 7/8 comes in at bar line 1: 4, 7.5 and 11 quarters.  At 140 the frame
   of the line is rounded up, at 130 down. */
static void another_groove_s_meter_comes_in_on_a_bar_line(void)
{
    for (int tempo = 130; tempo <= 140; tempo += 10) {
        const Ladderway way = {tempo, 0.0L, 200.0L, 1, 2, 0, 3.5L, 1.0L};
        stage_open(&stage, 120.0, 4, 4);
        set_way(&stage, way);
        stage_run(&stage, 1000, 1000);
        stage_set(&stage, "groove", WINTER_TIMETABLE);
        stage.count = 0;
        stage_run(&stage, quarters_at(12.0L, tempo), 1000);
        check_case("at %d", tempo);
        CHECK_INT(stage_struck(&stage, BELL_KEY, 1000, stage.now), 3);
        for (int bar = 0; bar < 3; ++bar) {
            const int64_t line = quarters_at(4.0L + 3.5L * bar, tempo);
            CHECK_INT(stage_struck(&stage, BELL_KEY, line, line + 1), 1);
        }
    }
}

/* Kicks on every quarter, 5 ms behind: 240 frames at whatever tempo it is. */
static void feel_goes_by_the_tempo_that_its_strokes_have(void)
{
    enum { RUNNING_SIXTEENTHS = 50, BEHIND = 5 * STAGE_RATE / 1000 };
    begin_way(&stage, ways[1]);
    stage_set(&stage, "count_in", 0);
    stage_set(&stage, "click_grid", 0);
    stage_set(&stage, "feet", RUNNING_SIXTEENTHS);
    stage_set(&stage, "feet_grid", 1);
    stage_set(&stage, "right_hand", 0);
    stage_set(&stage, "left_hand", 0);
    stage_set(&stage, "push_feet", 5);
    stage_run(&stage, WAY_FRAMES, 512);
    uint32_t kicks = 0;
    uint32_t click = next_click(&stage, 0);
    for (uint32_t i = 0; i < stage.count; ++i) {
        if (note_is_on(stage.notes[i]) && !is_click(stage.notes[i])) {
            check_case("kick %u", kicks++);
            CHECK_NEAR(stage.notes[i].frame - stage.notes[click].frame, BEHIND, 1.0);
            click = next_click(&stage, click + 1);
        }
    }
    CHECK(kicks > 60);
}

static void the_tempo_reached_is_read_out(void)
{
    begin_way(&stage, ways[4]);
    for (int bar = 0; bar < 6; ++bar) {
        const long double tempo = tempo_of_bar(ways[4], bar);
        stage_run(&stage, 1000, 500);
        check_case("bar %d", bar);
        CHECK_NEAR(host_get(stage.host, "tempo_now"), tempo, 1e-3);
        stage_run(&stage, llroundl(240.0L / tempo * (long double)STAGE_RATE) - 1000, 500);
    }
}

/* Back on the host's clock the groove is where the host is, and nothing hangs. */
static void between_the_clocks_no_note_hangs_and_the_host_s_place_is_right(void)
{
    stage_open(&stage, 120.0, 4, 4);
    stage_set(&stage, "click", HOST_ALWAYS);
    stage_tell(&stage, 0.0, 1.0);
    bool own = false;
    for (int turn = 0; turn < 40; ++turn) {
        stage_run(&stage, 1 + turn * 7919 % 30000, 256);
        own = !own;
        stage_set(&stage, "clock", own);
        stage.count = 0;
    }
    CHECK(!own);
    const int64_t since = stage.now;
    stage_run(&stage, 20 * STAGE_RATE, 256);
    for (uint32_t i = next_click(&stage, 0); i < stage.count; i = next_click(&stage, i + 1)) {
        CHECK_INT(stage.notes[i].frame % 24000, 0); /* quarters at 120 */
        CHECK_INT(stage.notes[i].bytes[1] == BELL_KEY, stage.notes[i].frame % 96000 == 0);
    }
    CHECK_INT(stage_struck(&stage, BELL_KEY, since, stage.now), 10);
    CHECK_INT(stage.faults, 0);
    stage_stop(&stage, (double)stage.now / 24000.0);
    CHECK_INT(stage.sounding, 0);
}

int main(void)
{
    RUN(every_click_of_a_ladder_is_within_half_a_frame_of_its_place);
    RUN(any_blocks_give_the_same_notes);
    RUN(the_groove_comes_in_after_the_bars_of_count_in);
    RUN(on_starts_it_again_from_the_count_in_and_the_first_tempo);
    RUN(another_tempo_goes_on_from_the_same_place);
    RUN(what_a_host_tells_does_not_matter);
    RUN(it_has_the_groove_s_meter_whatever_the_host_s);
    RUN(another_groove_s_meter_comes_in_on_a_bar_line);
    RUN(feel_goes_by_the_tempo_that_its_strokes_have);
    RUN(the_tempo_reached_is_read_out);
    RUN(between_the_clocks_no_note_hangs_and_the_host_s_place_is_right);
    stage_close(&other);
    stage_close(&stage);
    return tests_end();
}
