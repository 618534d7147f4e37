// SPDX-License-Identifier: ISC
/* Replays recordings of real hosts to the plugin slowed against them: every stroke
   and click is where a slowed song has it, through starts, locates and loops. */
#include "../help/check.h"
#include "comparison.h"
#include "replay.h"
#include "scenarios.h"

/* As in test_recorded_hosts.c. */
static const double half_a_frame = 0.52;

static const char recordings[] = FOURLIMB_SOURCE "/tests/transport/recorded";

/* Made before the first test, removed after the last. */
static GrooveFolder folder;

/* The port's values of 1/2 and 2/3, by its scale points. */
static const struct {
    int value;
    double slowed;
} rates[] = {{2, 1.0 / 2.0}, {3, 2.0 / 3.0}};

static bool set(const Player* const player, const char* const symbol, const int value)
{
    char why[HOST_WHY_ROOM];
    return CHECK(host_set(player->host, symbol, (float)value, why));
}

static bool open_slowed(Player* const player, const double frames_per_second, const int value)
{
    return CHECK(player_open(player, folder.path, frames_per_second)) && set(player, "click", 2) &&
           set(player, "click_grid", 3) && set(player, "practice_rate", value);
}

static void judge(const Scenario* const scenario, const Player* const player,
                  const Recording* const recording, const double slowed)
{
    Expected expected = {.slowed = slowed};
    expected_make(&expected, scenario, recording);
    const Comparison found = compare(scenario, player, &expected);
    check_case("%s at %g, first lost at frame %" PRId64 ", first extra at %" PRId64, scenario->name,
               slowed, found.first_lost, found.first_extra);
    CHECK(found.wanted > 0);
    CHECK_INT(found.lost, 0);
    CHECK_INT(found.extra, 0);
    CHECK_NEAR(found.worst, 0.0, half_a_frame + scenario->slack);
    CHECK_TEXT(player->fault, "none");
    expected_free(&expected);
}

static void play_slowed(const Scenario* const scenario, const size_t rate)
{
    Recording recording;
    Player player = {.host = NULL};
    check_case("%s", scenario->name);
    if (CHECK(recording_read(recordings, scenario->name, &recording)) &&
        open_slowed(&player, recording.rate, rates[rate].value)) {
        replay(&player, &recording, AS_RECORDED, recording.frames);
        judge(scenario, &player, &recording, rates[rate].slowed);
        replay_stop(&player);
        CHECK_TEXT(player.fault, "none");
    }
    player_close(&player);
    recording_free(&recording);
}

static void play_all(const ScenarioList list)
{
    for (size_t rate = 0; rate < sizeof rates / sizeof *rates; ++rate) {
        for (size_t i = 0; i < list.count; ++i) {
            play_slowed(&list.rows[i], rate);
        }
    }
}

static void in_steady_time_it_is_exact_to_the_sample(void)
{
    play_all((ScenarioList)LIST(steady_scenarios));
}

static void locates_loops_and_stops_lose_and_double_nothing(void)
{
    play_all((ScenarioList)LIST(moving_scenarios));
}

static void a_tempo_that_changes_is_followed(void)
{
    play_all((ScenarioList)LIST(tempo_change_scenarios));
    play_all((ScenarioList)LIST(ramp_scenarios));
}

int main(void)
{
    if (!groove_folder_make(&folder)) {
        return 1;
    }
    RUN(in_steady_time_it_is_exact_to_the_sample);
    RUN(locates_loops_and_stops_lose_and_double_nothing);
    RUN(a_tempo_that_changes_is_followed);
    groove_folder_remove(&folder);
    return tests_end();
}
