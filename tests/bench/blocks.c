// SPDX-License-Identifier: ISC
/* blocks.c - runs the built plugin for measuring from outside.
   Usage: blocks silent|position|busy|dense|gap|fastest|wound BLOCKS     blocks instantiate TIMES
   silent: stopped.  position: rolling over an empty bar with a position in each
   block.  busy: the default groove at 160.  dense: sextuplets at 240.
   fastest: the default groove at 2000.  wound: that, and 1000 times the speed.
   gap: busy, with a click on sixteenths that is silent but for the first bar. */
#include "../../ui/command/host.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { BLOCK = 64 };

static const char bundle[] = FOURLIMB_BUILD "/lv2/fourlimb.lv2";

static void send_position(Host* const host, const int64_t frame, const double tempo,
                          const float speed)
{
    const double beats = (double)frame * tempo / 60.0 / 48000.0;
    const int64_t bar = (int64_t)(beats / 4.0);
    host_send_position(host, (HostPosition){.frame = frame,
                                            .speed = speed,
                                            .tempo = (float)tempo,
                                            .beats_per_bar = 4.0f,
                                            .beat_unit = 4,
                                            .has_place = true,
                                            .bar = bar,
                                            .bar_beat = (float)(beats - 4.0 * (double)bar)});
}

static int fail(const char* const why)
{
    fprintf(stderr, "blocks: %s\n", why);
    return 1;
}

static bool set_gap(Host* const host, char* const why)
{
    return host_set(host, "click", 2.0f, why) && host_set(host, "click_grid", 3.0f, why) &&
           host_set(host, "gap_play", 1.0f, why) && host_set(host, "gap_rest", 32.0f, why);
}

static int run_blocks(const char* const kind, const long blocks)
{
    char why[HOST_WHY_ROOM];
    Host* const host = host_open(bundle, 48000.0, why);
    const bool dense = !strcmp(kind, "dense");
    const bool empty = !strcmp(kind, "position");
    const bool gap = !strcmp(kind, "gap");
    if (!host || (gap && !set_gap(host, why)) || (dense && !host_set(host, "feet", 152.0f, why)) ||
        (empty && !host_set(host, "enabled", 0.0f, why))) {
        return fail(why);
    }
    const bool wound = !strcmp(kind, "wound");
    const bool fastest = wound || !strcmp(kind, "fastest");
    const double tempo = fastest ? 2000.0 : dense ? 240.0 : 160.0;
    if (strcmp(kind, "silent")) {
        send_position(host, 0, tempo, wound ? 1000.0f : 1.0f);
    }
    for (long block = 0; block < blocks; ++block) {
        if (empty) {
            send_position(host, block * BLOCK, tempo, 1.0f);
        }
        host_run(host, BLOCK);
    }
    host_close(host);
    return 0;
}

static int instantiate(const long times)
{
    char why[HOST_WHY_ROOM];
    struct timespec begin, end;
    for (long i = 0; i < times; ++i) {
        clock_gettime(CLOCK_MONOTONIC, &begin);
        Host* const host = host_open(bundle, 48000.0, why);
        clock_gettime(CLOCK_MONOTONIC, &end);
        if (!host) {
            return fail(why);
        }
        host_close(host);
        printf("%.2f\n", (double)(end.tv_sec - begin.tv_sec) * 1e3 +
                             (double)(end.tv_nsec - begin.tv_nsec) / 1e6);
    }
    return 0;
}

int main(const int count, char** const arguments)
{
    if (count != 3) {
        return fail("usage: blocks silent|position|busy|dense|gap|fastest|wound|instantiate COUNT");
    }
    const long times = strtol(arguments[2], NULL, 10);
    return strcmp(arguments[1], "instantiate") ? run_blocks(arguments[1], times)
                                               : instantiate(times);
}
