// SPDX-License-Identifier: ISC
#include "child.h"

#include "../help/wait.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

/* More than any machine takes: a run is to be ended that would never end. */
enum { CHILDREN_MAX = 4, GRACE_TURNS = 6000, GUARD_SECONDS = 1800 };

/* A signal handler gets at them no other way. */
static pid_t running[CHILDREN_MAX];
static int last_status;
static void (*at_end)(void);

static void forget(const pid_t pid)
{
    for (int i = 0; i < CHILDREN_MAX; ++i) {
        running[i] = running[i] == pid ? 0 : running[i];
    }
}

bool child_runs(const pid_t pid)
{
    int status = 0;
    const pid_t ended = pid > 0 ? waitpid(pid, &status, WNOHANG) : -1;
    if (ended != 0) {
        last_status = ended == pid ? status : last_status;
        forget(pid);
        return false;
    }
    return true;
}

int child_last_status(void)
{
    return WIFSIGNALED(last_status) ? -WTERMSIG(last_status) : WEXITSTATUS(last_status);
}

void child_end(const pid_t pid)
{
    if (pid <= 0 || !child_runs(pid)) {
        return;
    }
    kill(pid, SIGTERM);
    for (int i = 0; i < GRACE_TURNS; ++i) {
        if (!child_runs(pid)) {
            return;
        }
        poll(NULL, 0, 5); /* safe in a signal handler too */
    }
    kill(pid, SIGKILL);
    waitpid(pid, NULL, 0);
    forget(pid);
}

/* Only calls that POSIX lists as safe in a signal handler. */
static void say(const char* const text)
{
    if (write(STDOUT_FILENO, text, strlen(text)) < 0) {
        return; /* there is nobody to tell */
    }
}

static void end_all(const int signal_number)
{
    say(signal_number == SIGALRM ? "\n# ended after half an hour" : "\n# ended by a signal");
    say("; the last wait was until ");
    say(wait_last());
    say("\n");
    for (int i = CHILDREN_MAX - 1; i >= 0; --i) {
        child_end(running[i]);
    }
    if (at_end) {
        at_end();
    }
    _exit(128 + signal_number);
}

void child_guard(void (*const on_end)(void))
{
    const int signals[] = {SIGALRM, SIGHUP, SIGINT, SIGTERM};
    struct sigaction action = {.sa_handler = end_all};
    sigfillset(&action.sa_mask);
    at_end = on_end;
    for (size_t i = 0; i < sizeof signals / sizeof *signals; ++i) {
        sigaction(signals[i], &action, NULL);
    }
    alarm(GUARD_SECONDS);
}

static void become(const char* const argv[], const char* const log, const pid_t parent)
{
    const int in = open("/dev/null", O_RDONLY);
    const int out = open(log, O_WRONLY | O_CREAT | O_APPEND, 0600);
    prctl(PR_SET_PDEATHSIG, SIGTERM); /* so that they may still tidy up */
    if (in < 0 || out < 0 || getppid() != parent) {
        _exit(127);
    }
    dup2(in, STDIN_FILENO);
    dup2(out, STDOUT_FILENO);
    dup2(out, STDERR_FILENO);
    /* exec takes char* const* for its age alone; it changes nothing. */
    char* const* arguments = NULL;
    memcpy(&arguments, &argv, sizeof arguments);
    execvp(argv[0], arguments);
    dprintf(STDERR_FILENO, "%s: no such program\n", argv[0]);
    _exit(127);
}

pid_t child_start(const char* const argv[], const char* const log)
{
    int place = 0;
    while (place < CHILDREN_MAX && running[place]) {
        ++place;
    }
    if (place == CHILDREN_MAX) {
        return -1;
    }
    const pid_t parent = getpid();
    const pid_t pid = fork();
    if (pid == 0) {
        become(argv, log, parent);
    }
    running[place] = pid > 0 ? pid : 0;
    return pid;
}
