// SPDX-License-Identifier: ISC
/* test_automation.c - every control thrown about at every block while the
   transport starts, stops and leaps: whatever comes of it is sound MIDI. */
#include "../../plugin/engine/groove/settings.h"
#include "../help/exact.h"
#include "stage.h"

static Stage stage;

typedef struct {
    uint32_t state;
    bool rolling;
    double quarters; /* of the transport */
} Chance;

static double share(Chance* const chance)
{
    chance->state = chance->state * 1664525U + 1013904223U;
    return (chance->state >> 8) / (double)(1U << 24);
}

/* The range that the bundle states for a control. */
typedef struct {
    double least, most;
} Range;

static Range range_of(const int control)
{
    const LilvPlugin* const plugin = host_plugin(stage.host);
    const LilvPort* const port =
        lilv_plugin_get_port_by_index(plugin, (uint32_t)(PORT_FIRST_CONTROL + control));
    LilvNode *least = NULL, *most = NULL;
    lilv_port_get_range(plugin, port, NULL, &least, &most);
    const Range range = {(double)lilv_node_as_float(least), (double)lilv_node_as_float(most)};
    lilv_node_free(least);
    lilv_node_free(most);
    return range;
}

static Range ranges[CONTROL_COUNT];

/* Any value of the range, whole or not. */
static double any_value(const int control, Chance* const chance)
{
    const Range range = ranges[control];
    const double value = range.least + (range.most - range.least) * share(chance);
    return share(chance) < 0.7 ? (double)(int64_t)value : value;
}

/* Most blocks change a control or two, some all of them. */
static void throw_controls(Chance* const chance)
{
    const bool all = share(chance) < 0.1;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (all || share(chance) < 0.05) {
            const float value = (float)any_value(i, chance);
            CHECK(host_write(stage.host, control_rows[i].symbol, value));
        }
    }
    if (share(chance) < 0.5) {
        stage_set(&stage, "enabled", 1);
    }
}

static void throw_transport(Chance* const chance)
{
    if (share(chance) < 0.02) {
        chance->rolling = !chance->rolling;
        stage_tell(&stage, chance->quarters, chance->rolling);
    } else if (share(chance) < 0.01) {
        chance->quarters = (double)(int)(share(chance) * 400.0) / 4.0;
        stage_tell(&stage, chance->quarters, chance->rolling);
    }
}

static void throw_block(Chance* const chance, const uint32_t most)
{
    const uint32_t frames = 1U + (uint32_t)(share(chance) * most);
    throw_controls(chance);
    throw_transport(chance);
    stage.count = 0; /* only what the stage counts matters */
    stage_block(&stage, frames);
    if (chance->rolling) {
        chance->quarters += frames * stage.tempo / 60.0 / STAGE_RATE;
    }
}

static void begin(const double tempo, const int beats, const int unit, Chance* const chance)
{
    stage_open(&stage, tempo, beats, unit);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        ranges[i] = range_of(i);
    }
    chance->rolling = true;
    stage_tell(&stage, 0.0, 1.0);
}

/* Blocks of all sizes: 64 frames on average, or up to 8192. */
static void throw_blocks(const int blocks, const uint32_t most, const uint32_t seed)
{
    static const int meters[][2] = {{4, 4}, {7, 8}, {5, 4}, {12, 8}};
    Chance chance = {.state = seed};
    begin(60.0 + seed * 37.0, meters[seed % 4][0], meters[seed % 4][1], &chance);
    for (int i = 0; i < blocks; ++i) {
        throw_block(&chance, most);
    }
    check_case("seed %u, up to %u frames", seed, most);
}

static void no_automation_begins_a_sounding_key_or_ends_a_silent_one(void)
{
    for (uint32_t seed = 1; seed <= 4; ++seed) {
        throw_blocks(5000, 128, seed);
        CHECK_INT(stage.faults, 0);
        throw_blocks(1000, 8192, seed);
        CHECK_INT(stage.faults, 0);
    }
}

static void after_any_automation_a_stop_ends_every_note(void)
{
    int ended = 0;
    for (uint32_t seed = 1; seed <= 400; ++seed) {
        throw_blocks(60, 512, seed);
        ended += stage.sounding > 0;
        stage_set(&stage, "clock", 0); /* the own one doesn't stop with the host */
        stage_stop(&stage, 0.0);
        CHECK_INT(stage.sounding, 0);
    }
    check_case("there were notes to end");
    CHECK(ended > 0);
}

static void after_any_automation_switched_off_every_note_ends(void)
{
    for (uint32_t seed = 1; seed <= 100; ++seed) {
        throw_blocks(60, 512, seed);
        stage_set(&stage, "enabled", 0);
        stage_block(&stage, 64);
        CHECK_INT(stage.sounding, 0);
    }
}

static void after_any_automation_the_plugin_plays_as_one_that_saw_none(void)
{
    static Stage fresh;
    for (uint32_t seed = 1; seed <= 20; ++seed) {
        throw_blocks(200, 512, seed);
        stage_stop(&stage, 0.0);
        host_play_exactly(stage.host);
        stage_stop(&stage, 0.0);
        const int64_t began = stage.now;
        stage.count = 0;
        stage_tell(&stage, 0.0, 1.0);
        stage_run(&stage, 10 * STAGE_RATE, 1024);
        stage_open(&fresh, stage.tempo, stage.beats, stage.unit);
        stage_tell(&fresh, 0.0, 1.0);
        stage_run(&fresh, 10 * STAGE_RATE, 1024);
        CHECK_INT(stage.count, fresh.count);
        for (uint32_t i = 0; i < fresh.count && i < stage.count; ++i) {
            CHECK_INT(stage.notes[i].frame - began, fresh.notes[i].frame);
            CHECK(!memcmp(stage.notes[i].bytes, fresh.notes[i].bytes, 3));
        }
    }
    stage_close(&fresh);
}

int main(void)
{
    RUN(no_automation_begins_a_sounding_key_or_ends_a_silent_one);
    RUN(after_any_automation_a_stop_ends_every_note);
    RUN(after_any_automation_switched_off_every_note_ends);
    RUN(after_any_automation_the_plugin_plays_as_one_that_saw_none);
    stage_close(&stage);
    return tests_end();
}
