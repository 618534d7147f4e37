// SPDX-License-Identifier: ISC
/* killed.h - a child that is killed where it enters or leaves a call to the kernel: the
   nth such event, whatever the clock says.  ptrace(2). */
#pragma once

#include <signal.h>
#include <stdbool.h>
#include <sys/ptrace.h>
#include <sys/wait.h>
#include <unistd.h>

typedef enum { KILLED, ENDED, NOT_TRACED } Killing;

/* Runs `work` in a child and kills it at its event number `event`, from 1. */
static inline Killing kill_at(const int event, void (*const work)(void* context),
                              void* const context)
{
    int status = 0;
    const pid_t child = fork();
    if (child == 0) {
        if (ptrace(PTRACE_TRACEME, 0, NULL, NULL)) {
            _exit(99);
        }
        raise(SIGSTOP);
        work(context);
        _exit(0);
    }
    waitpid(child, &status, 0);
    if (!WIFSTOPPED(status)) {
        return NOT_TRACED;
    }
    for (int i = 0; i < event; ++i) {
        if (ptrace(PTRACE_SYSCALL, child, NULL, NULL) || waitpid(child, &status, 0) < 0 ||
            !WIFSTOPPED(status)) {
            return WIFEXITED(status) ? ENDED : NOT_TRACED;
        }
    }
    kill(child, SIGKILL);
    waitpid(child, &status, 0);
    return WIFSIGNALED(status) ? KILLED : NOT_TRACED;
}
