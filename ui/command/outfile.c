// SPDX-License-Identifier: ISC
#include "outfile.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static const int interruptions[] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGPIPE};

enum { INTERRUPTIONS = sizeof interruptions / sizeof *interruptions };

/* Whoever started us may have them ignored, as nohup has: then they don't count, though
   one that is held back waits like any other. */
static bool is_ignored(const int number)
{
    struct sigaction action;
    return sigaction(number, NULL, &action) == 0 && action.sa_handler == SIG_IGN;
}

static void hold(sigset_t* const before)
{
    sigset_t set;
    sigemptyset(&set);
    for (int i = 0; i < INTERRUPTIONS; ++i) {
        if (!is_ignored(interruptions[i])) {
            sigaddset(&set, interruptions[i]);
        }
    }
    sigprocmask(SIG_BLOCK, &set, before);
}

bool outfile_is_interrupted(void)
{
    sigset_t waiting;
    if (sigpending(&waiting)) {
        return false;
    }
    for (int i = 0; i < INTERRUPTIONS; ++i) {
        if (sigismember(&waiting, interruptions[i]) == 1) {
            return true;
        }
    }
    return false;
}

bool outfile_refuses(const char* const path, const bool replace, char why[SAVE_WHY_ROOM])
{
    if (!save_refuses(path, replace, why)) {
        return false;
    }
    if (!replace) {
        const size_t length = strlen(why);
        snprintf(why + length, SAVE_WHY_ROOM - length, ", or add --force to replace it");
    }
    return true;
}

bool outfile_save_by(const char* const path, const SaveWriter writer, void* const context,
                     const bool replace, char why[SAVE_WHY_ROOM])
{
    sigset_t before;
    hold(&before);
    const bool good = save_by(path, writer, context, replace, why);
    sigprocmask(SIG_SETMASK, &before, NULL);
    if (!good) {
        outfile_refuses(path, replace, why); /* if that is why, what to do is said */
    }
    return good;
}

bool outfile_save(const char* const path, const void* const bytes, const size_t size,
                  const bool replace, char why[SAVE_WHY_ROOM])
{
    SaveText text = {bytes, size};
    return outfile_save_by(path, save_text, &text, replace, why);
}
