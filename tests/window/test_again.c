// SPDX-License-Identifier: ISC
/* The whole window opens and closes, and nothing stays behind: by /proc/self.
   WINDOW=1 prints the figures; an argument is another number of windows. */
#include "rig.h"

#include "../help/check.h"
#include "../help/footprint.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

enum { SETTLED = 20 };

/* A part run apart takes no arguments. */
static int cycles = 50;

static const RigOffer usual = {.features = RIG_ALL};

static bool again_and_again(void)
{
    Rig rig;
    long kib = 0;
    int files = 0;
    bool held = rig_prepare(&rig, &usual) && CHECK(rig.display);
    for (int i = 0; held && i < cycles; ++i) {
        held = CHECK(rig_open_window(&rig));
        if (held && i % 8 == 0) { /* painting costs most of a window's time */
            held = CHECK(rig_idle(&rig));
        }
        rig_close_window(&rig);
        if (i + 1 == SETTLED) {
            kib = resident_kib();
            files = open_files();
        }
    }
    if (getenv("WINDOW")) {
        printf("# after %d windows %ld KiB, after %d %ld KiB\n", SETTLED, kib, cycles,
               resident_kib());
    }
#ifndef __SANITIZE_ADDRESS__ /* which takes its own share */
    /* A bank or a pair of pictures that stayed would be 100 MB and more; an allocator
       may keep or give back one such pair, of 4 MB. */
    held = held && CHECK_NEAR(resident_kib() - kib, 0, 8 * 1024);
#endif
    held = held && CHECK_INT(open_files(), files);
    rig_close(&rig);
    return held;
}

static void many_windows_leave_neither_memory_nor_files_behind(void)
{
    CHECK_INT(apart(again_and_again), 1);
}

int main(const int count, char** const arguments)
{
    cycles = count > 1 ? atoi(arguments[1]) : cycles;
    child_guard(NULL);
    if (xvfb_open()) {
        RUN(many_windows_leave_neither_memory_nor_files_behind);
        xvfb_end();
    }
    return tests_end();
}
