// SPDX-License-Identifier: ISC
/* child.h - programs that a test starts, and ends again by process id whatever
   happens: at its end, on a signal, when its time is up, and even if it is
   killed (the kernel then asks them to). */
#pragma once

#include <stdbool.h>
#include <sys/types.h>

/* From here on the test has half an hour left, then it and its children end, and it says
   what it waited for.  `on_end` is called then or on a signal, so it may only do what a
   signal handler may. */
void child_guard(void (*on_end)(void));

/* Starts argv[0] with no input and its output in `log`; -1 if it can't. */
pid_t child_start(const char* const argv[], const char* log);

/* Whether it still runs. */
bool child_runs(pid_t pid);

/* Of the child that was last found to have ended: its exit status, or -N if signal N
   ended it. */
int child_last_status(void);

/* Asks it to end, and makes it if it still hasn't half a minute later. */
void child_end(pid_t pid);
