// SPDX-License-Identifier: ISC
/* test_fill_port.c - fill_now as a host turns it: a trigger is asked for where it rises, be
   it put back at once or held. */
#include "stage.h"

enum { BAR = 2 * STAGE_RATE, FOUR_SHOTS = 1, CRASH = 49 };

static Stage stage;

/* Rolls at 120 from bar 0 on; the fill's four shots crash where the groove never does. */
static void begin(void)
{
    stage_open(&stage, 120.0, 4, 4);
    stage_set(&stage, "groove", 3);
    stage_set(&stage, "phrase_bars", 16);
    stage_set(&stage, "turnaround", FOUR_SHOTS);
    stage_set(&stage, "crash", 1);
    stage_set(&stage, "looseness", 0);
    stage_tell(&stage, 0.0, 1.0);
}

/* A letter for each bar: f where it has four crashes, . where it has none. */
static const char* bars_heard(const int count)
{
    static char bars[32];
    for (int i = 0; i < count; ++i) {
        const uint32_t struck =
            stage_struck(&stage, CRASH, (int64_t)i * BAR, (int64_t)(i + 1) * BAR);
        bars[i] = struck == 4 ? 'f' : struck ? '?' : '.';
    }
    bars[count] = '\0';
    return bars;
}

static void run_to(const double bar, const uint32_t block)
{
    stage_run(&stage, (int64_t)(bar * BAR) - stage.now, block);
}

static void a_trigger_that_is_put_back_is_asked_once_each_time(void)
{
    begin();
    run_to(1.5, 256);
    stage_set(&stage, "fill_now", 1);
    stage_run(&stage, 256, 256);
    stage_set(&stage, "fill_now", 0);
    run_to(4.5, 256);
    stage_set(&stage, "fill_now", 1);
    stage_run(&stage, 256, 256);
    stage_set(&stage, "fill_now", 0);
    run_to(8.0, 256);
    CHECK_TEXT(bars_heard(8), "..f..f..");
}

static void a_trigger_that_is_held_asks_no_more(void)
{
    begin();
    run_to(1.5, 512);
    stage_set(&stage, "fill_now", 1);
    run_to(8.0, 512);
    CHECK_TEXT(bars_heard(8), "..f.....");
}

/* On from before it rolls: it is asked for in the block in which it begins to, and no more. */
static void a_trigger_of_the_block_that_starts_counts_and_one_before_does_not(void)
{
    begin();
    stage_set(&stage, "fill_now", 1);
    run_to(4.0, 512);
    CHECK_TEXT(bars_heard(4), ".f..");
    stage_open(&stage, 120.0, 4, 4);
    stage_set(&stage, "turnaround", FOUR_SHOTS);
    stage_set(&stage, "fill_now", 1);
    stage_run(&stage, 4096, 512);
    stage_set(&stage, "groove", 3);
    stage_set(&stage, "phrase_bars", 16);
    stage_set(&stage, "crash", 1);
    stage_tell(&stage, 0.0, 1.0);
    stage.now = 0;
    run_to(4.0, 512);
    CHECK_TEXT(bars_heard(4), "....");
}

int main(void)
{
    RUN(a_trigger_that_is_put_back_is_asked_once_each_time);
    RUN(a_trigger_that_is_held_asks_no_more);
    RUN(a_trigger_of_the_block_that_starts_counts_and_one_before_does_not);
    stage_close(&stage);
    return tests_end();
}
