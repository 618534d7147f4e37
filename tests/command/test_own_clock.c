// SPDX-License-Identifier: ISC
/* test_own_clock.c - what is rendered of the plugin's own clock (a tempo map, made by
   the command line) against that clock itself, left to run in the plugin: the same
   notes at the same time, within the frames that each bar's tempo is rounded to. */
#include "../../ui/command/performance.h"
#include "../help/check.h"
#include "../plugin/played.h"

#include <math.h>

enum { BARS = 40 };

static Played played; /* too large for a stack */

/* Four bars at each tempo, from 90 by 5 to 120; counted in, on every beat. */
static const ControlSetting settings[] = {
    {"groove", 3.0f},       {"clock", 1.0f},        {"tempo", 90.0f},   {"ladder_step", 5.0f},
    {"ladder_every", 1.0f}, {"ladder_top", 120.0f}, {"count_in", 2.0f}, {"click", 2.0f},
    {"looseness", 0.0f},    {"phrase_bars", 4.0f},  {"liberty", 0.0f},
};
enum { SETTING_COUNT = sizeof settings / sizeof *settings };

static void play_clock(Host* const host, const double seconds)
{
    host_set_defaults(host);
    for (int i = 0; i < SETTING_COUNT; ++i) {
        char why[HOST_WHY_ROOM] = "";
        CHECK(host_set(host, settings[i].symbol, settings[i].value, why));
    }
    host_reset(host);
    played = (Played){.frames = 0};
    run_frames(host, &played, (int64_t)(seconds * RATE));
    CHECK_INT(played.lost, 0);
}

static void render(Performance* const performance)
{
    static Section section; /* too large for a stack */
    Rendition rendition;
    section = (Section){.bars = BARS};
    for (int i = 0; i < SETTING_COUNT; ++i) {
        section.settings[section.setting_count++] = settings[i];
    }
    performance_begin(performance, "Test");
    CHECK_INT(performance_play(performance, &section, &rendition), 0);
    CHECK_NEAR(rendition.first.tempo, 90.0, 1e-6);
    CHECK_NEAR(rendition.last_tempo, 120.0, 1e-6);
    Bytes file = {.bytes = NULL};
    CHECK(reel_end(&performance->song, &file));
    bytes_free(&file);
}

static bool is_on(const ReelEvent* const event)
{
    return (event->bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
}

static void a_rendered_ladder_is_what_the_own_clock_plays(void)
{
    Performance performance;
    CHECK(performance_open(&performance, BUNDLE));
    render(&performance);
    const Reel* const song = &performance.song;
    Host* const host = bundle_host(RATE);
    play_clock(host, song->seconds - 0.01);
    /* Chords may come in another order where frames differ: each of a note's kind. */
    size_t compared = 0;
    for (int key = 0; key < 128; ++key) {
        size_t live = 0;
        for (size_t i = 0; i < song->event_count; ++i) {
            const ReelEvent* const event = &song->events[i];
            if (!is_on(event) || event->bytes[1] != key || event->seconds > song->seconds - 0.02) {
                continue;
            }
            while (live < played.count &&
                   !(is_note_on(played.events[live]) && played.events[live].bytes[1] == key)) {
                ++live;
            }
            if (!CHECK(live < played.count)) {
                break;
            }
            check_case("key %d at %.4f s", key, event->seconds);
            CHECK_NEAR((double)played.events[live].frame / RATE, event->seconds, 2.0 / RATE);
            CHECK_INT(played.events[live].bytes[2], event->bytes[2]);
            ++live;
            ++compared;
        }
    }
    CHECK(compared > 400);
    host_close(host);
    performance_close(&performance);
}

int main(void)
{
    RUN(a_rendered_ladder_is_what_the_own_clock_plays);
    return tests_end();
}
