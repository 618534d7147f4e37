// SPDX-License-Identifier: ISC
/* What a moving playhead costs: the process's own time, GL's threads included,
   the X server's not.  Usage: pane [SECONDS], 5 of them a row. */
#include "../pane/host.h"
#include "../pane/xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

enum { WIDTH = 960, HEIGHT = 540 };

static double used(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
           (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1e6;
}

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

/* Two playheads, hands and feet, and two lit strokes. */
static void show(Pane* const pane, const int frame)
{
    const int x = 332 + frame * 2 % 488;
    const PaneRect strokes[] = {{x, 100, 24, 40}, {x, 220, 24, 40}};
    const PaneQuad quads[] = {
        {.place = strokes[0], .layer = PANE_LIT, .source = strokes[0]},
        {.place = strokes[1], .layer = PANE_LIT, .source = strokes[1]},
        {.place = {x, 88, 2, 92}, .layer = PANE_COLOUR, .red = 1, .alpha = 1},
        {.place = {x, 208, 2, 92}, .layer = PANE_COLOUR, .red = 1, .alpha = 0.5F},
    };
    pane_show(pane, quads, 4);
}

typedef void (*Change)(Pane* pane, int frame);

static void measure(const char* const name, Pane* const pane, const int rate, const int seconds,
                    const Change change)
{
    const double start = now();
    const double before = used();
    for (int frame = 0; frame < rate * seconds; ++frame) {
        change(pane, frame);
        pane_poll(pane);
        const double left = start + (double)(frame + 1) / rate - now();
        if (left > 0) {
            nanosleep(&(struct timespec){0, (long)(left * 1e9)}, NULL);
        }
    }
    printf("  %-34s %2d Hz  %5.1f\n", name, rate, 100 * (used() - before) / (now() - start));
    fflush(stdout);
}

static void nothing(Pane* const pane, const int frame)
{
    (void)pane;
    (void)frame;
}

static uint32_t* picture;

static void upload(Pane* const pane, const int frame)
{
    (void)frame;
    pane_upload(pane, PANE_PLAIN, (const unsigned char*)picture, WIDTH, HEIGHT, 4 * WIDTH,
                (PaneRect){0, 0, WIDTH, HEIGHT});
}

static bool all(const int seconds)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    Pane* const pane = host_open(&host, WIDTH, HEIGHT);
    picture = host_picture(WIDTH, HEIGHT, 0);
    if (!pane || !picture) {
        return false;
    }
    upload(pane, 0);
    pane_upload(pane, PANE_LIT, (const unsigned char*)picture, WIDTH, HEIGHT, 4 * WIDTH,
                (PaneRect){0});
    host_settle(&host, pane);
    measure("at rest", pane, 60, seconds, nothing);
    measure("playhead, 4 quads", pane, 30, seconds, show);
    measure("playhead, 4 quads", pane, 60, seconds, show);
    measure("the whole picture uploaded", pane, 30, seconds, upload);
    pane_close(pane);
    free(picture);
    host_end(&host);
    return true;
}

int main(const int count, char** const arguments)
{
    child_guard(NULL);
    const bool done = xvfb_open() && all(count > 1 ? atoi(arguments[1]) : 5);
    xvfb_end();
    return done ? 0 : 1;
}
