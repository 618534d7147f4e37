// SPDX-License-Identifier: ISC
/* test_fills_reach.c - a person gets from the groove into each fill, through it and to the
   crash after it, at its highest tempo. */
#include "../../plugin/engine/writing/playability.h"
#include "../help/check.h"
#include "fills.h"

static Bank* bank;

/* The first meter in the list that a fill is at home in. */
static Meter home_of(const Fill fill)
{
    static const Meter meters[] = {{4.0, 4},  {5.0, 4},  {6.0, 8},  {7.0, 8},  {9.0, 8},
                                   {11.0, 8}, {12.0, 8}, {13.0, 8}, {15.0, 8}, {7.0, 16}};
    size_t home = 0;
    while (home + 1 < sizeof meters / sizeof *meters && !fill_fits(fill, meters[home])) {
        ++home;
    }
    check_case("%u %s is at home somewhere", fill.info->id, fill.info->label);
    CHECK(fill_fits(fill, meters[home]));
    return meters[home];
}

/* Between closed hats in eighths over kicks in quarters, a crash after it. */
static uint32_t faults_of(const Fill fill, const double tempo)
{
    static const Stroke hat[] = {{0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL, true}};
    static const Stroke kick[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true}};
    static const Figure hands = {.id = 1,
                                 .kind = FIGURE_HANDS,
                                 .cycle_ticks = QUARTER / 2,
                                 .step_ticks = QUARTER / 2,
                                 .stroke_count = 1,
                                 .strokes = hat,
                                 .plays_limb = {[RIGHT_HAND] = true},
                                 .keeps_time = VOICE_HAT_CLOSED};
    static const Figure feet = {.id = 1,
                                .kind = FIGURE_FEET,
                                .cycle_ticks = QUARTER,
                                .step_ticks = QUARTER,
                                .stroke_count = 1,
                                .strokes = kick,
                                .plays_limb = {[RIGHT_FOOT] = true}};
    static Playability playability; /* too large for a stack */
    const PlayLimits limits = play_limits_default();
    const Meter meter = home_of(fill);
    Groove groove = plain_groove(&hands, &feet);
    groove.meter = meter;
    groove.form_bars = 4;
    groove.turnaround = fill.figure;
    groove.crash_start = true;
    const Selection selection = plain_choice(&groove, 4);
    playability_run(&playability, &selection, meter, tempo, 16, &limits);
    uint32_t faults = 0;
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        faults |= playability_faults(&playability, (PlayStream)stream);
    }
    return faults;
}

static void a_person_plays_every_fill_at_its_highest_tempo_into_the_crash(void)
{
    uint32_t beyond = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        const uint32_t faults = faults_of(fill, fill.info->tempo_high);
        check_case("%u %s at %d", fill.info->id, fill.info->label, fill.info->tempo_high);
        CHECK_INT(faults, 0);
        beyond += faults_of(fill, 2.0 * fill.info->tempo_high) != 0;
    }
    check_case("%u of them twice as fast are too fast", beyond);
    CHECK(beyond >= fill_count(bank) / 2);
}

int main(void)
{
    bank = factory_open();
    RUN(a_person_plays_every_fill_at_its_highest_tempo_into_the_crash);
    bank_free(bank);
    return tests_end();
}
