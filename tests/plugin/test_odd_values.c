// SPDX-License-Identifier: ISC
/* test_odd_values.c - controls that are no number, out of range or name nothing,
   and ports left open.  LV2 core: a plugin must take any value, for least, most,
   integer and enumeration are hints.  What it then does is told in settings.h and
   groove.h. */
#include "../help/check.h"
#include "raw.h"

#include <math.h>

static Host* host;
static Raw* raw;
static Played played, normal; /* too large for a stack */

enum { FRAMES = 4 * BAR_FRAMES };

/* What is played with one control at `value` is what is played with it at
   `as_if`. */
static void check_as_if(const Control control, const float value, const float as_if)
{
    check_case("%s %g", control_rows[control].symbol, (double)value);
    raw_set_defaults(raw);
    raw->controls[control] = as_if;
    raw_play(raw, &normal, FRAMES);
    raw->controls[control] = value;
    raw_play(raw, &played, FRAMES);
    CHECK_INT(played.wrong, 0);
    CHECK_INT(played.count, normal.count);
    CHECK(same_events(&played, &normal));
}

static void what_is_no_number_is_taken_for_the_default(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        check_as_if((Control)i, NAN, control_rows[i].normal);
        check_as_if((Control)i, -NAN, control_rows[i].normal);
    }
}

static void all_controls_without_a_number_play_the_defaults(void)
{
    raw_set_defaults(raw);
    raw_play(raw, &normal, FRAMES);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        raw->controls[i] = NAN;
    }
    raw_play(raw, &played, FRAMES);
    CHECK(normal.count > 0);
    CHECK(same_events(&played, &normal));
}

static void below_the_least_counts_as_the_least(void)
{
    static const float values[] = {-70.0f, -1e30f, -INFINITY};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        for (size_t v = 0; v < sizeof values / sizeof *values; ++v) {
            check_as_if((Control)i, values[v], control_rows[i].least);
        }
    }
}

static void above_the_most_counts_as_the_most(void)
{
    static const float values[] = {20000.0f, 1e30f, INFINITY};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        for (size_t v = 0; v < sizeof values / sizeof *values; ++v) {
            if (control_rows[i].most > 0.0f) {
                check_as_if((Control)i, values[v], control_rows[i].most);
            }
        }
    }
}

/* groove.h: an id that is not in the library falls back. */
static void an_id_that_names_nothing_falls_back(void)
{
    static const float ids[] = {999.0f, 16000000.0f, 1e30f, INFINITY};
    for (size_t i = 0; i < sizeof ids / sizeof *ids; ++i) {
        check_as_if(CONTROL_GROOVE, ids[i], 1.0f);
        check_as_if(CONTROL_KIT, ids[i], 1.0f);
        check_as_if(CONTROL_HANDS, ids[i], 0.0f);
        check_as_if(CONTROL_FEET, ids[i], 0.0f);
        check_as_if(CONTROL_TURNAROUND, ids[i], 0.0f);
    }
}

/* lv2:integer: a host that sweeps a control sends what lies between. */
static void between_whole_numbers_the_nearest_counts(void)
{
    check_as_if(CONTROL_GROOVE, 2.25f, 2.0f);
    check_as_if(CONTROL_GROOVE, 1.75f, 2.0f);
    check_as_if(CONTROL_CHANNEL, 4.9f, 5.0f);
    check_as_if(CONTROL_PHRASE_BARS, 2.2f, 2.0f);
    check_as_if(CONTROL_TURNAROUND, -0.8f, -1.0f);
}

/* lv2:toggled: above 0 is on. */
static void a_switch_is_on_above_zero(void)
{
    static const Control switches[] = {CONTROL_ENABLED,    CONTROL_RIGHT_HAND, CONTROL_LEFT_HAND,
                                       CONTROL_RIGHT_FOOT, CONTROL_LEFT_FOOT,  CONTROL_SPLIT_FEET};
    for (size_t i = 0; i < sizeof switches / sizeof *switches; ++i) {
        check_as_if(switches[i], 1e-6f, 1.0f);
        check_as_if(switches[i], 1e30f, 1.0f);
        check_as_if(switches[i], 0.0f, 0.0f);
        check_as_if(switches[i], -1e-6f, 0.0f);
        raw_set_defaults(raw);
        raw_play(raw, &normal, FRAMES);
        raw->controls[switches[i]] = control_rows[switches[i]].normal > 0.0f ? 0.0f : 1.0f;
        raw_play(raw, &played, FRAMES);
        CHECK(!same_events(&played, &normal)); /* else the switch does nothing at all */
    }
}

/* Sweeps every control wildly while it plays; only the form of events counts. */
static void values_that_change_every_block_do_no_harm(void)
{
    static const float wild[] = {0.0f, 1.0f, -1.0f, 50.0f, NAN, 1e30f, -INFINITY, 0.5f, 160.0f};
    enum { WILD = sizeof wild / sizeof *wild };
    raw_set_defaults(raw);
    raw_play(raw, &played, BLOCK);
    for (int block = 0; block < 2000; ++block) {
        raw->controls[block % CONTROL_COUNT] = wild[block / 3 % WILD];
        raw_run(raw, &played, 64);
    }
    CHECK(played.count > 0);
    CHECK_INT(played.wrong, 0);
    raw_set_defaults(raw);
    raw->controls[CONTROL_ENABLED] = 0.0f;
    raw_run(raw, &played, BLOCK);
    CHECK_INT(sounding(&played), 0);
}

static void the_notify_port_may_be_left_open(void)
{
    raw_set_defaults(raw);
    raw_play(raw, &normal, FRAMES);
    lilv_instance_connect_port(raw->instance, PORT_NOTIFY, NULL);
    raw_play(raw, &played, FRAMES);
    CHECK(played.count > 0);
    CHECK(same_events(&played, &normal));
    raw_connect(raw);
}

static void a_block_of_no_frames_plays_nothing_and_moves_nothing(void)
{
    raw_set_defaults(raw);
    raw_play(raw, &normal, BAR_FRAMES);
    raw_play(raw, &played, BLOCK);
    const size_t before = played.count;
    for (int i = 0; i < 10; ++i) {
        raw_run(raw, &played, 0);
    }
    CHECK_INT(played.count, before);
    while (played.frames < normal.frames) {
        raw_run(raw, &played, BLOCK);
    }
    CHECK(same_events(&played, &normal));
}

int main(void)
{
    host = bundle_host(RATE);
    raw = raw_open(host);
    RUN(what_is_no_number_is_taken_for_the_default);
    RUN(all_controls_without_a_number_play_the_defaults);
    RUN(below_the_least_counts_as_the_least);
    RUN(above_the_most_counts_as_the_most);
    RUN(an_id_that_names_nothing_falls_back);
    RUN(between_whole_numbers_the_nearest_counts);
    RUN(a_switch_is_on_above_zero);
    RUN(values_that_change_every_block_do_no_harm);
    RUN(the_notify_port_may_be_left_open);
    RUN(a_block_of_no_frames_plays_nothing_and_moves_nothing);
    raw_close(raw);
    host_close(host);
    return tests_end();
}
