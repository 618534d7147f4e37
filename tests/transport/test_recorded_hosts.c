// SPDX-License-Identifier: ISC
/* Replays recordings of real hosts to the built plugin, with a click on every
   sixteenth: every stroke and click that ought to sound does, once, where it belongs, however the blocks are cut. */
#include "../help/check.h"
#include "comparison.h"
#include "replay.h"
#include "same_notes.h"
#include "scenarios.h"

#include <dirent.h>

/* Half a frame of rounding; the rest is for tempo sent as a 32-bit float, whose
   last digit is a hundredth of a frame after ten seconds. */
static const double half_a_frame = 0.52;

static const char recordings[] = FOURLIMB_SOURCE "/tests/transport/recorded";

/* Made before the first test, removed after the last. */
static GrooveFolder folder;

/* The click on every sixteenth, beside the hat. */
static bool set_click(const Player* const player)
{
    char why[HOST_WHY_ROOM];
    return CHECK(host_set(player->host, "click", 2.0f, why)) &&
           CHECK(host_set(player->host, "click_grid", 3.0f, why));
}

static bool open_with_click(Player* const player, const double rate)
{
    return CHECK(player_open(player, folder.path, rate)) && set_click(player);
}

/* A recording and a player for it; false, and the test has failed, if either
   isn't to be had. */
static bool set_up(const char* const name, Recording* const recording, Player* const player)
{
    check_case("%s", name);
    *player = (Player){.host = NULL};
    return CHECK(recording_read(recordings, name, recording)) &&
           open_with_click(player, recording->rate);
}

static void tear_down(Recording* const recording, Player* const player)
{
    player_close(player);
    recording_free(recording);
}

/* -v as the first argument prints every recording's numbers. */
static bool verbose;

static void judge(const Scenario* const scenario, const Comparison* const found)
{
    if (verbose) {
        printf("# %-40s wanted %4zu  lost %3zu  extra %3zu  off by %7.3f at most\n", scenario->name,
               found->wanted, found->lost, found->extra, found->worst);
    }
    check_case("%s, first lost at frame %" PRId64, scenario->name, found->first_lost);
    CHECK_INT(found->lost, 0);
    check_case("%s, first extra at frame %" PRId64, scenario->name, found->first_extra);
    CHECK_INT(found->extra, 0);
    check_case("%s, worst at frame %" PRId64, scenario->name, found->worst_at);
    CHECK_NEAR(found->worst, 0.0, half_a_frame + scenario->slack);
}

static void play_as_recorded(const Scenario* const scenario, const bool sounds)
{
    Recording recording;
    Player player;
    Expected expected = {.slowed = 1.0};
    if (set_up(scenario->name, &recording, &player)) {
        replay(&player, &recording, AS_RECORDED, recording.frames);
        expected_make(&expected, scenario, &recording);
        const Comparison found = compare(scenario, &player, &expected);
        CHECK(!player.overflowed);
        CHECK_INT(found.wanted > 0, sounds);
        judge(scenario, &found);
    }
    expected_free(&expected);
    tear_down(&recording, &player);
}

/* Every row whose recording is of this host. */
static void play_host(const ScenarioList list, const char* const host)
{
    size_t played = 0;
    for (size_t i = 0; i < list.count; ++i) {
        if (!strncmp(list.rows[i].name, host, strlen(host))) {
            play_as_recorded(&list.rows[i], true);
            ++played;
        }
    }
    CHECK(played > 0);
}

static const ScenarioList steady = LIST(steady_scenarios);
static const ScenarioList moving = LIST(moving_scenarios);
static const ScenarioList eighths = LIST(eighths_scenarios);

static void ardour_in_steady_time_is_exact_to_the_sample(void)
{
    play_host(steady, "ardour");
}

static void jalv_in_steady_time_is_exact_to_the_sample(void)
{
    play_host(steady, "jalv");
}

static void muse_in_steady_time_is_exact_to_the_sample(void)
{
    play_host(steady, "muse");
}

static void qtractor_in_steady_time_is_exact_to_the_sample(void)
{
    play_host(steady, "qtractor");
}

static void ardour_may_locate_loop_stop_and_reverse(void)
{
    play_host(moving, "ardour");
}

static void jalv_may_locate_loop_stop_and_miss_cycles(void)
{
    play_host(moving, "jalv");
}

static void muse_may_locate_loop_early_and_stop(void)
{
    play_host(moving, "muse");
}

static void qtractor_may_locate_unsaid_and_loop_late(void)
{
    play_host(moving, "qtractor");
}

static void ardour_in_eighths_loses_and_doubles_nothing(void)
{
    play_host(eighths, "ardour");
}

static void muse_in_eighths_loses_and_doubles_nothing(void)
{
    play_host(eighths, "muse");
}

static void qtractor_in_eighths_loses_and_doubles_nothing(void)
{
    play_host(eighths, "qtractor");
}

static void a_change_of_meter_keeps_the_bar_lines(void)
{
    play_host((ScenarioList)LIST(meter_change_scenarios), "");
}

static void a_change_of_tempo_loses_and_doubles_nothing(void)
{
    play_host((ScenarioList)LIST(tempo_change_scenarios), "");
}

static void a_tempo_ramp_is_followed(void)
{
    play_host((ScenarioList)LIST(ramp_scenarios), "");
}

static void a_master_against_its_frames_is_believed_where_it_starts(void)
{
    play_host((ScenarioList)LIST(contradicting_scenarios), "");
}

static void a_host_that_stands_still_plays_one_block(void)
{
    play_host((ScenarioList)LIST(still_scenarios), "");
}

static void a_host_that_tells_nothing_hears_nothing(void)
{
    play_as_recorded(&silent_scenarios[0], false);
}

static void where_nothing_tells_tempo_counts_quarters(void)
{
    play_host((ScenarioList)LIST(untold_scenarios), "");
}

/* ---- Rules that hold for every recording */

static size_t scenario_count(void)
{
    size_t count = 0;
    for (size_t i = 0; i < sizeof all_scenarios / sizeof *all_scenarios; ++i) {
        count += all_scenarios[i].count;
    }
    return count;
}

static const char* scenario_name(size_t index)
{
    size_t list = 0;
    for (; index >= all_scenarios[list].count; ++list) {
        index -= all_scenarios[list].count;
    }
    return all_scenarios[list].rows[index].name;
}

static void every_recording_has_its_scenario(void)
{
    size_t files = 0;
    DIR* const dir = opendir(recordings);
    CHECK(dir != NULL);
    for (const struct dirent* file; dir && (file = readdir(dir));) {
        files += strstr(file->d_name, ".txt") != NULL;
    }
    if (dir) {
        closedir(dir);
    }
    CHECK_INT(scenario_count(), files);
}

static void no_recording_breaks_a_rule_of_midi(void)
{
    for (size_t i = 0; i < scenario_count(); ++i) {
        Recording recording;
        Player player;
        if (set_up(scenario_name(i), &recording, &player)) {
            replay(&player, &recording, AS_RECORDED, recording.frames);
            replay_stop(&player);
            CHECK_TEXT(player.fault, "none");
        }
        tear_down(&recording, &player);
    }
}

/* ---- The same notes in any blocks */

static void cut_anew(const char* const name, const uint32_t cut, const int64_t frames)
{
    Recording recording;
    Player as_recorded, anew = {.host = NULL};
    if (set_up(name, &recording, &as_recorded) && open_with_click(&anew, recording.rate)) {
        replay(&as_recorded, &recording, AS_RECORDED, frames);
        replay(&anew, &recording, cut, frames);
        CHECK(!anew.overflowed);
        check_same_notes(&anew, &as_recorded);
    }
    player_close(&anew);
    tear_down(&recording, &as_recorded);
}

static void cut_all(const uint32_t cut, const int64_t frames)
{
    for (size_t i = 0; i < scenario_count(); ++i) {
        cut_anew(scenario_name(i), cut, frames);
    }
}

static void blocks_of_one_frame_give_the_same_notes(void)
{
    /* A run for every frame takes its time: the start of each, and then one
       with jumps to its end. */
    cut_all(1, 40000);
    cut_anew("jalv_locate", 1, INT64_MAX);
}

static void blocks_of_16_give_the_same_notes(void)
{
    cut_all(16, INT64_MAX);
}

static void blocks_of_64_give_the_same_notes(void)
{
    cut_all(64, INT64_MAX);
}

static void blocks_of_441_give_the_same_notes(void)
{
    cut_all(441, INT64_MAX);
}

static void blocks_of_1024_give_the_same_notes(void)
{
    cut_all(1024, INT64_MAX);
}

static void blocks_of_8192_give_the_same_notes(void)
{
    cut_all(8192, INT64_MAX);
}

static void random_blocks_give_the_same_notes(void)
{
    for (uint32_t seed = 1; seed <= 3; ++seed) {
        cut_all(RANDOM_CUTS | seed, INT64_MAX);
    }
}

static void run_all(void)
{
    RUN(ardour_in_steady_time_is_exact_to_the_sample);
    RUN(jalv_in_steady_time_is_exact_to_the_sample);
    RUN(muse_in_steady_time_is_exact_to_the_sample);
    RUN(qtractor_in_steady_time_is_exact_to_the_sample);
    RUN(ardour_may_locate_loop_stop_and_reverse);
    RUN(jalv_may_locate_loop_stop_and_miss_cycles);
    RUN(muse_may_locate_loop_early_and_stop);
    RUN(qtractor_may_locate_unsaid_and_loop_late);
    RUN(ardour_in_eighths_loses_and_doubles_nothing);
    RUN(muse_in_eighths_loses_and_doubles_nothing);
    RUN(qtractor_in_eighths_loses_and_doubles_nothing);
    RUN(a_change_of_meter_keeps_the_bar_lines);
    RUN(a_change_of_tempo_loses_and_doubles_nothing);
    RUN(a_tempo_ramp_is_followed);
    RUN(a_master_against_its_frames_is_believed_where_it_starts);
    RUN(a_host_that_stands_still_plays_one_block);
    RUN(a_host_that_tells_nothing_hears_nothing);
    RUN(where_nothing_tells_tempo_counts_quarters);
    RUN(every_recording_has_its_scenario);
    RUN(no_recording_breaks_a_rule_of_midi);
    RUN(blocks_of_one_frame_give_the_same_notes);
    RUN(blocks_of_16_give_the_same_notes);
    RUN(blocks_of_64_give_the_same_notes);
    RUN(blocks_of_441_give_the_same_notes);
    RUN(blocks_of_1024_give_the_same_notes);
    RUN(blocks_of_8192_give_the_same_notes);
    RUN(random_blocks_give_the_same_notes);
}

int main(const int count, char** const arguments)
{
    verbose = count > 1 && !strcmp(arguments[1], "-v");
    if (!groove_folder_make(&folder)) {
        return 1;
    }
    run_all();
    groove_folder_remove(&folder);
    return tests_end();
}
