// SPDX-License-Identifier: ISC
/* What the plugin's window costs in a host that runs the plugin in time: the
   process's own time, GL's threads included, the plugin's and the X server's not.
   Usage: window [SECONDS], 8 of them a row. */
#include "../window/rig.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>

enum { OPENINGS = 10 };

static double used(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
           (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1e6;
}

/* A host waits for the longest call, at a new bar; part of it is GL's and the X
   server's, on a busy machine most. */
static void measure(const char* const name, Rig* const rig, const int rate, const int seconds)
{
    const double start = rig_now();
    const double before = used() - rig->others;
    rig->longest = 0.0;
    rig->hardest = 0.0;
    rig_play(rig, seconds, rate);
    printf("  %-34s %2d Hz  %5.1f   longest call %4.1f ms, most work in one %4.1f\n", name, rate,
           100.0 * (used() - rig->others - before) / (rig_now() - start), 1e3 * rig->longest,
           1e3 * rig->hardest);
    fflush(stdout);
}

static int by_size(const void* const a, const void* const b)
{
    const double left = *(const double*)a;
    const double right = *(const double*)b;
    return (left > right) - (left < right);
}

/* From instantiate to the end of the first idle call. */
static void measure_opening(Rig* const rig)
{
    double times[OPENINGS];
    for (int i = 0; i < OPENINGS; ++i) {
        const double start = rig_now();
        rig_open_window(rig);
        const double opened = rig_now();
        rig_idle(rig);
        times[i] = rig_now() - start;
        if (getenv("WINDOW")) {
            printf("# open %.1f ms, picture %.1f ms\n", 1e3 * (opened - start),
                   1e3 * (times[i] - (opened - start)));
        }
        rig_close_window(rig);
    }
    qsort(times, OPENINGS, sizeof *times, by_size);
    printf("  from instantiate to the first picture, ms: least %.0f  median %.0f  most %.0f\n",
           1e3 * times[0], 0.5e3 * (times[OPENINGS / 2 - 1] + times[OPENINGS / 2]),
           1e3 * times[OPENINGS - 1]);
    fflush(stdout);
}

static void open_list(Rig* const rig)
{
    run_program((const char* const[]){"xdotool", "mousemove", "950", "535", "click", "1", NULL});
    rig_waits(rig, rig_has_keys);
    run_program((const char* const[]){"xdotool", "key", "f", NULL});
}

static bool all(const int seconds)
{
    static Rig rig;
    const RigOffer offer = {.features = RIG_ALL};
    if (!rig_prepare(&rig, &offer) || !rig.display) {
        return false;
    }
    measure_opening(&rig);
    const bool good = rig_open_window(&rig) && rig_play(&rig, 0.5, 60);
    if (good) {
        measure("stopped", &rig, 60, seconds);
        rig_roll(&rig, 0, 120.0f, 1.0f);
        rig_play(&rig, 0.5, 60);
        measure("the default groove at 120", &rig, 30, seconds);
        measure("the default groove at 120", &rig, 60, seconds);
        open_list(&rig);
        rig_play(&rig, 0.5, 60);
        measure("the same, the feet's list open", &rig, 30, seconds);
    }
    rig_close(&rig);
    return good;
}

int main(const int count, char** const arguments)
{
    child_guard(NULL);
    const bool done = xvfb_open() && all(count > 1 ? atoi(arguments[1]) : 8);
    xvfb_end();
    return done ? 0 : 1;
}
