// SPDX-License-Identifier: ISC
#include "progress.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

Progress progress_begin(const char* const what)
{
    return (Progress){.what = what, .terminal = isatty(STDERR_FILENO) == 1, .begin = seconds_now()};
}

void progress_at(Progress* const progress, const double fraction)
{
    const double now = seconds_now();
    const double pause = progress->terminal ? 0.25 : 2.0;
    const double last = progress->told > 0.0 ? progress->told : progress->begin;
    if (now - last < pause) {
        return;
    }
    progress->told = now;
    fprintf(stderr, progress->terminal ? "\r%s: %3.0f %%" : "%s: %.0f %%\n", progress->what,
            100.0 * fraction);
    fflush(stderr);
}

void progress_end(Progress* const progress)
{
    if (progress->terminal && progress->told > 0.0) {
        fputs("\r\033[K", stderr);
    }
}
