// SPDX-License-Identifier: ISC
/* test_readouts.c - the output ports of the built plugin: what the feet are asked
   for, when all meet again, the tempo now. */
#include "../data/tsv.h"
#include "stage.h"

#include <math.h>

enum { PLAIN_GROOVE = 3, RUNNING_FEET = 50, SHUFFLE_FEET = 210 };

static Stage stage;

static void check_readout(const char* const symbol, const double want)
{
    check_near((double)host_get(stage.host, symbol), want, 1e-3 * want, symbol, __FILE__, __LINE__);
}

static void open_feet(const double tempo, const int beats, const int unit, const int feet)
{
    stage_open(&stage, tempo, beats, unit);
    stage_set(&stage, "groove", PLAIN_GROOVE);
    stage_set(&stage, "turnaround", -1);
    stage_set(&stage, "feet", feet);
    stage_set(&stage, "change_at", 0);
}

/* Long enough to look through four bars. */
static void roll(void)
{
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, 2 * STAGE_RATE, 512);
}

static void running_sixteenths_show_the_published_rates(void)
{
    Tsv table = tsv_open("rhythm-rates.tsv");
    while (tsv_next(&table)) {
        const double tempo = tsv_number(&table, 0);
        open_feet(tempo, 4, 4, RUNNING_FEET);
        roll();
        check_case("%g a minute", tempo);
        check_readout("right_foot_rate", ceil(tsv_number(&table, 1) / 2.0));
        check_readout("left_foot_rate", ceil(tsv_number(&table, 1) / 2.0));
        check_readout("right_foot_gap", 30000.0 / tempo);
        check_readout("left_foot_gap", 30000.0 / tempo);
        check_readout("tempo_now", tempo);
    }
}

/* 7/8 with five sixteenths: 70 of them, in phrases of one bar and of four. */
static void five_sixteenths_over_seven_eight_show_when_they_meet(void)
{
    open_feet(120.0, 7, 8, RUNNING_FEET);
    stage_set(&stage, "hands", 1);
    stage_set(&stage, "feet_cycle", 5);
    stage_set(&stage, "realign", 0);
    stage_set(&stage, "phrase_bars", 1);
    roll();
    check_readout("realign_bars", 5.0);
    stage_set(&stage, "phrase_bars", 4);
    stage_block(&stage, 512);
    check_readout("realign_bars", 20.0);
    stage_set(&stage, "realign", 1);
    stage_block(&stage, 512);
    check_readout("realign_bars", 4.0);
}

/* What is not in effect yet is not shown yet. */
static void a_change_that_waits_is_shown_from_its_line_on(void)
{
    open_feet(120.0, 4, 4, RUNNING_FEET);
    stage_set(&stage, "realign", 0);
    stage_set(&stage, "phrase_bars", 1);
    stage_set(&stage, "change_at", 2);
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, 5000, 500);
    check_readout("realign_bars", 1.0);
    stage_set(&stage, "feet_cycle", 7);
    stage_run(&stage, 90000, 500);
    check_readout("realign_bars", 1.0);
    stage_run(&stage, 2000, 500);
    check_readout("realign_bars", 7.0);
}

static void on_a_stopped_transport_a_change_is_shown_at_once(void)
{
    open_feet(120.0, 4, 4, RUNNING_FEET);
    stage_set(&stage, "realign", 0);
    stage_set(&stage, "phrase_bars", 1);
    stage_set(&stage, "change_at", 3);
    stage_stop(&stage, 0.0);
    check_readout("realign_bars", 1.0);
    stage_set(&stage, "feet_cycle", 7);
    stage_block(&stage, 64);
    check_readout("realign_bars", 7.0);
}

/* The right foot on each beat, the left on each last triplet note. */
static void lead_foot_exchanges_what_the_feet_are_asked_for(void)
{
    open_feet(120.0, 4, 4, SHUFFLE_FEET);
    stage_set(&stage, "feet_cycle", 4); /* right twice in four triplet notes, left once */
    roll();
    check_readout("right_foot_gap", 500.0 / 3.0);
    check_readout("left_foot_gap", 2000.0 / 3.0);
    stage_set(&stage, "lead_foot", 1);
    stage_run(&stage, 2 * STAGE_RATE, 512);
    check_readout("right_foot_gap", 2000.0 / 3.0);
    check_readout("left_foot_gap", 500.0 / 3.0);
}

static void a_silenced_foot_is_shown_too(void)
{
    open_feet(180.0, 4, 4, RUNNING_FEET);
    stage_set(&stage, "right_foot", 0);
    roll();
    check_readout("right_foot_rate", 6.0);
}

int main(void)
{
    RUN(running_sixteenths_show_the_published_rates);
    RUN(five_sixteenths_over_seven_eight_show_when_they_meet);
    RUN(a_change_that_waits_is_shown_from_its_line_on);
    RUN(on_a_stopped_transport_a_change_is_shown_at_once);
    RUN(lead_foot_exchanges_what_the_feet_are_asked_for);
    RUN(a_silenced_foot_is_shown_too);
    stage_close(&stage);
    return tests_end();
}
