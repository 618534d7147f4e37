// SPDX-License-Identifier: ISC
/* Windows come and go, and nothing stays behind: the second fault of Debian 12's
   Pugl that ui/pane/pane.c cures (the others are in test_pane.c).  Seen from
   outside, by /proc/self.  WINDOW=1 prints the figures; an
   argument is another number of windows. */
#include "host.h"
#include "xvfb.h"

#include "../help/check.h"
#include "../help/footprint.h"
#include "../live/child.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

enum { SETTLED = 20, WIDTH = 960, HEIGHT = 540 };

/* A part run apart takes no arguments. */
static int cycles = 200;

/* One in four shows something: drawing costs most of a window's time. */
static bool a_cycle(Host* const host, const uint32_t* const picture, const bool draw)
{
    Pane* const pane = host_open(host, WIDTH, HEIGHT);
    bool good = pane;
    if (good && draw) {
        good = pane_upload(pane, PANE_PLAIN, (const unsigned char*)picture, WIDTH, HEIGHT,
                           4 * WIDTH, (PaneRect){0});
        pane_poll(pane);
    }
    pane_close(pane);
    return good;
}

static bool they_leave_nothing(void)
{
    Host host;
    uint32_t* const picture = host_picture(WIDTH, HEIGHT, 0);
    bool held = host_start(&host) && picture;
    long kib = 0;
    int files = 0;
    for (int i = 0; held && i < cycles; ++i) {
        held = CHECK(a_cycle(&host, picture, i % 4 == 0));
        if (i + 1 == SETTLED) {
            kib = resident_kib();
            files = open_files();
        }
    }
    free(picture);
    /* The fault costs 4 MB a window, 720 MB here; the cure is to cost nothing, and
       allocators stray by some pages a window: 8 MB are 45 kB a window. */
    held = held && CHECK_NEAR(resident_kib() - kib, 0, 8 * 1024) && CHECK_INT(open_files(), files);
    if (getenv("WINDOW")) {
        printf("# after %d windows %ld KiB, after %d %ld KiB\n", SETTLED, kib, cycles,
               resident_kib());
    }
    host_end(&host);
    return held;
}

static void two_hundred_windows_leave_neither_memory_nor_files_behind(void)
{
    CHECK_INT(apart(they_leave_nothing), 1);
}

int main(const int count, char** const arguments)
{
    cycles = count > 1 ? atoi(arguments[1]) : cycles;
    child_guard(NULL);
    if (xvfb_open()) {
        RUN(two_hundred_windows_leave_neither_memory_nor_files_behind);
        xvfb_end();
    }
    return tests_end();
}
