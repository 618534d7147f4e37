// SPDX-License-Identifier: ISC
#include "wait.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { MOMENT_NS = 5000000 };

/* A signal handler gets at it no other way. */
static const char* volatile last = "nothing";

double wait_clock(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

static int patience(void)
{
    const char* const told = getenv("FOURLIMB_PATIENCE");
    return told ? atoi(told) : WAIT_SECONDS;
}

Wait wait_until(const char* const what)
{
    last = what;
    return (Wait){what, wait_clock() + patience()};
}

bool wait_goes_on(Wait* const wait)
{
    if (wait_clock() > wait->end) {
        printf("# waited %d seconds in vain until %s\n", patience(), wait->what);
        return false;
    }
    nanosleep(&(struct timespec){0, MOMENT_NS}, NULL);
    return true;
}

const char* wait_last(void)
{
    return last;
}
