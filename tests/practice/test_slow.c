// SPDX-License-Identifier: ISC
/* test_slow.c - the plugin slowed against a host at 120 in 4/4: the groove's bars
   end on the host's, the same place sounds the same however it was reached; a
   repeated bar and gaps likewise. */
#include "clicks.h"

static Stage stage, other;

enum { HOST_BAR = 2 * STAGE_RATE, RATES = 6 };

/* The port's values, by its scale points. */
static const struct {
    int64_t over, under;
} rates[RATES] = {{1, 4}, {1, 3}, {1, 2}, {2, 3}, {3, 4}, {1, 1}};

static void open_at(Stage* const on, const int rate)
{
    stage_open(on, 120.0, 4, 4);
    stage_set(on, "click", HOST_ALWAYS);
    stage_set(on, "click_grid", SIXTEENTHS);
    stage_set(on, "practice_rate", rate);
}

/* From bar 0 on, through so many host bars. */
static void play_bars(Stage* const on, const int rate, const int bars, const uint32_t block)
{
    open_at(on, rate);
    stage_tell(on, 0.0, 1.0);
    stage_run(on, (int64_t)bars * HOST_BAR, block);
}

/* Sixteenths of 6000 frames at 120, times under / over, in whole numbers. */
static void clicks_stand_at_their_place_in_the_slowed_bar(void)
{
    for (int rate = 0; rate < RATES; ++rate) {
        play_bars(&stage, rate, 24, 1024);
        uint32_t at = next_click(&stage, 0);
        for (int64_t step = 0; step * 6000 * rates[rate].under < stage.now * rates[rate].over;
             ++step, at = next_click(&stage, at + 1)) {
            check_case("rate %d, sixteenth %d", rate, (int)step);
            CHECK(at < stage.count);
            CHECK_INT(stage.notes[at].frame, step * 6000 * rates[rate].under / rates[rate].over);
            CHECK_INT(stage.notes[at].bytes[1], step % 16 ? CLICK_KEY : BELL_KEY);
        }
        CHECK_INT(at, stage.count);
        CHECK_INT(stage.faults, 0);
    }
}

/* `over` bars of the groove last `under` of the host's, to the frame. */
static void its_bars_end_on_host_bars(void)
{
    for (int rate = 0; rate < RATES; ++rate) {
        play_bars(&stage, rate, 24, 441);
        for (int64_t bar = 0; bar < 24; bar += rates[rate].under) {
            check_case("rate %d, host bar %d", rate, (int)bar);
            CHECK_INT(stage_struck(&stage, BELL_KEY, bar * HOST_BAR, bar * HOST_BAR + 1), 1);
        }
        CHECK_INT(stage_struck(&stage, BELL_KEY, 0, stage.now),
                  24 * rates[rate].over / rates[rate].under);
    }
}

/* Every stroke of the groove is where it is at full speed, times the rate. */
static void the_groove_is_the_same_but_slower(void)
{
    play_bars(&other, RATES - 1, 8, 512);
    for (int rate = 0; rate < RATES - 1; ++rate) {
        const int64_t over = rates[rate].over, under = rates[rate].under;
        uint32_t full = 0;
        open_at(&stage, rate);
        stage_tell(&stage, 0.0, 1.0);
        stage_run(&stage, 8 * HOST_BAR * under / over, 512);
        for (uint32_t i = 0; i < stage.count; ++i) {
            if (note_is_on(stage.notes[i])) {
                while (full < other.count && !note_is_on(other.notes[full])) {
                    ++full;
                }
                const double want = (double)(other.notes[full].frame * under) / (double)over;
                check_case("rate %d, note %u", rate, i);
                CHECK_NEAR(stage.notes[i].frame, want, 1.0);
                CHECK(!memcmp(stage.notes[i].bytes, other.notes[full].bytes, 3));
                ++full;
            }
        }
    }
}

static void any_blocks_give_the_same_notes(void)
{
    static const uint32_t blocks[] = {1, 64, 441, 8192, 100000};
    for (int rate = 0; rate < RATES; ++rate) {
        play_bars(&other, rate, 3, 1024);
        for (size_t b = 0; b < sizeof blocks / sizeof *blocks; ++b) {
            play_bars(&stage, rate, 3, blocks[b]);
            check_case("rate %d, blocks of %u", rate, blocks[b]);
            CHECK_INT(stage.count, other.count);
            CHECK(same_stage_notes(&stage, &other));
        }
    }
}

/* What a stage heard in [begin, end) against what another did `later` before;
   note-ons only, since a jump cuts what sounds. */
static void check_from(const int64_t begin, const int64_t end, const int64_t later)
{
    uint32_t i = 0, j = 0;
    for (;; ++i, ++j) {
        while (i < stage.count && !(note_is_on(stage.notes[i]) && stage.notes[i].frame >= begin)) {
            ++i;
        }
        while (j < other.count &&
               !(note_is_on(other.notes[j]) && other.notes[j].frame >= begin - later)) {
            ++j;
        }
        const bool more = i < stage.count && stage.notes[i].frame < end;
        if (!CHECK_INT(more, j < other.count && other.notes[j].frame < end - later) || !more) {
            return;
        }
        CHECK_INT(stage.notes[i].frame - later, other.notes[j].frame);
        CHECK(!memcmp(stage.notes[i].bytes, other.notes[j].bytes, 3));
    }
}

static void a_locate_gives_what_playing_through_does(void)
{
    for (int rate = 0; rate < RATES; ++rate) {
        open_at(&other, rate);
        stage_set(&other, "gap_rest", 1);
        stage_tell(&other, 0.0, 1.0);
        stage_run(&other, 30 * HOST_BAR, 512);
        open_at(&stage, rate);
        stage_set(&stage, "gap_rest", 1);
        stage_tell(&stage, 0.0, 1.0);
        stage_run(&stage, HOST_BAR + 1234, 512);
        const int64_t here = stage.now;
        stage_tell(&stage, 12.0 * 4.0, 1.0);
        stage_run(&stage, 14 * HOST_BAR, 512);
        check_case("rate %d", rate);
        check_from(here, stage.now, here - 12 * (int64_t)HOST_BAR);
        CHECK_INT(stage.faults, 0);
    }
}

/* Two bars with, one without: by the bar's number, wherever one starts. */
static void gaps_go_by_the_place_after_locates(void)
{
    open_at(&stage, RATES - 1);
    stage_set(&stage, "gap_play", 2);
    stage_set(&stage, "gap_rest", 1);
    static const int bars[] = {0, 2, 7, 3, 5, 2, 11, 4};
    for (size_t i = 0; i < sizeof bars / sizeof *bars; ++i) {
        const int64_t began = stage.now;
        stage_tell(&stage, bars[i] * 4.0, 1.0);
        stage_run(&stage, HOST_BAR, 512);
        check_case("bar %d", bars[i]);
        CHECK_INT(stage_struck(&stage, CLICK_KEY, began, stage.now), bars[i] % 3 == 2 ? 0 : 15);
        CHECK_INT(stage_struck(&stage, BELL_KEY, began, stage.now), bars[i] % 3 == 2 ? 0 : 1);
    }
    CHECK_INT(stage.faults, 0);
}

/* The host loops the first two bars: one slow bar, again and again. */
static void a_host_s_loop_gives_the_same_each_time(void)
{
    play_bars(&other, 2, 2, 512);
    open_at(&stage, 2);
    for (int turn = 0; turn < 4; ++turn) {
        const int64_t began = stage.now;
        stage_tell(&stage, 0.0, 1.0);
        stage_run(&stage, 2 * (int64_t)HOST_BAR, 512);
        check_case("turn %d", turn);
        check_from(began, stage.now, began);
    }
    CHECK_INT(stage.faults, 0);
}

static void the_groove_s_own_tempo_is_read_out(void)
{
    for (int rate = 0; rate < RATES; ++rate) {
        play_bars(&stage, rate, 1, 512);
        check_case("rate %d", rate);
        CHECK_NEAR(host_get(stage.host, "tempo_now"),
                   120.0 * (double)rates[rate].over / (double)rates[rate].under, 1e-3);
    }
}

static void another_speed_on_the_way_leaves_no_note_and_finds_its_place(void)
{
    play_bars(&stage, RATES - 1, 0, 512);
    stage_tell(&stage, 0.0, 1.0);
    for (int turn = 0; turn < 60; ++turn) {
        stage_set(&stage, "practice_rate", turn % RATES);
        stage_run(&stage, 5000 + turn * 911 % 9000, 300);
    }
    CHECK_INT(stage.faults, 0);
    stage.count = 0;
    stage_set(&stage, "practice_rate", 2);
    stage_run(&stage, 8 * (int64_t)HOST_BAR, 512);
    for (uint32_t i = next_click(&stage, 0); i < stage.count; i = next_click(&stage, i + 1)) {
        CHECK_INT(stage.notes[i].frame % 12000, 0);
        CHECK_INT(stage.notes[i].bytes[1] == BELL_KEY, stage.notes[i].frame % (2 * HOST_BAR) == 0);
    }
    stage_stop(&stage, 0.0);
    CHECK_INT(stage.sounding, 0);
}

/* A host's own bars of count-in are below 0; the groove keeps silent there. */
static void the_host_s_count_in_is_clicked_and_only_that(void)
{
    stage_open(&stage, 120.0, 4, 4);
    HostPosition pre_roll = {.frame = -2 * (int64_t)HOST_BAR,
                             .speed = 1.0f,
                             .tempo = 120.0f,
                             .beats_per_bar = 4.0f,
                             .beat_unit = 4,
                             .has_place = true,
                             .bar = -2};
    host_send_position(stage.host, pre_roll);
    stage_run(&stage, 4 * (int64_t)HOST_BAR, 512);
    CHECK_INT(stage_struck(&stage, BELL_KEY, 0, stage.now), 2);
    CHECK_INT(stage_struck(&stage, CLICK_KEY, 0, stage.now), 6);
    CHECK_INT(stage.notes[0].bytes[1], BELL_KEY);
    for (uint32_t i = 0; i < stage.count; ++i) {
        const bool before = stage.notes[i].frame < 2 * (int64_t)HOST_BAR;
        CHECK(!note_is_on(stage.notes[i]) || is_click(stage.notes[i]) == before);
    }
}

/* The third bar of the phrase from the second bar line on. */
static void a_repeated_bar_comes_in_at_the_line(void)
{
    open_at(&other, RATES - 1);
    stage_set(&other, "loop_bar", 3);
    stage_tell(&other, 0.0, 1.0);
    stage_run(&other, 8 * (int64_t)HOST_BAR, 512);
    open_at(&stage, RATES - 1);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, 3 * (int64_t)HOST_BAR / 2, 512);
    stage_set(&stage, "loop_bar", 3);
    stage_run(&stage, 13 * (int64_t)HOST_BAR / 2, 512);
    check_from(2 * (int64_t)HOST_BAR, stage.now, 0);
    CHECK_INT(stage.faults, 0);
    /* Before it, the bars as they are in the song. */
    play_bars(&other, RATES - 1, 2, 512);
    check_from(0, 2 * (int64_t)HOST_BAR, 0);
}

/* Sixteenths in the feet, from bar line 1 on quarters: the click goes with them,
   up to the line and from it. */
static void the_feet_s_grid_changes_where_the_feet_do(void)
{
    enum { RUNNING_SIXTEENTHS = 50, FEET_GRID = 4 };
    open_at(&stage, RATES - 1);
    stage_set(&stage, "click_grid", FEET_GRID);
    stage_set(&stage, "feet", RUNNING_SIXTEENTHS);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, HOST_BAR / 2, 512);
    stage_set(&stage, "feet_grid", 1);
    stage_run(&stage, 3 * (int64_t)HOST_BAR / 2, 512);
    for (int64_t bar = 0; bar < 2; ++bar) {
        const int64_t begin = bar * HOST_BAR;
        CHECK_INT(stage_struck(&stage, CLICK_KEY, begin, begin + HOST_BAR), bar ? 3 : 15);
        CHECK_INT(stage_struck(&stage, BELL_KEY, begin, begin + 1), 1);
    }
}

static void the_click_has_a_channel_of_its_own(void)
{
    open_at(&stage, RATES - 1);
    stage_set(&stage, "click_channel", 5);
    stage_set(&stage, "click_level", 33);
    stage_set(&stage, "channel", 2);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, 2 * (int64_t)HOST_BAR, 512);
    uint32_t clicks = 0;
    for (uint32_t i = 0; i < stage.count; ++i) {
        const Note note = stage.notes[i];
        const bool click = note.bytes[1] == CLICK_KEY || note.bytes[1] == BELL_KEY;
        CHECK_INT(note.bytes[0] & 0xF, click ? 4 : 1);
        clicks += is_click(note);
        if (is_click(note) && note.bytes[1] == CLICK_KEY) {
            CHECK_INT(note.bytes[2], 33);
        }
    }
    CHECK_INT(clicks, 32);
}

int main(void)
{
    RUN(clicks_stand_at_their_place_in_the_slowed_bar);
    RUN(its_bars_end_on_host_bars);
    RUN(the_groove_is_the_same_but_slower);
    RUN(any_blocks_give_the_same_notes);
    RUN(a_locate_gives_what_playing_through_does);
    RUN(gaps_go_by_the_place_after_locates);
    RUN(a_host_s_loop_gives_the_same_each_time);
    RUN(the_groove_s_own_tempo_is_read_out);
    RUN(another_speed_on_the_way_leaves_no_note_and_finds_its_place);
    RUN(the_host_s_count_in_is_clicked_and_only_that);
    RUN(a_repeated_bar_comes_in_at_the_line);
    RUN(the_feet_s_grid_changes_where_the_feet_do);
    RUN(the_click_has_a_channel_of_its_own);
    stage_close(&other);
    stage_close(&stage);
    return tests_end();
}
