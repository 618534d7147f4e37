// SPDX-License-Identifier: ISC
#include "xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

enum { START_MS = 5000, HELD = 40, BROKEN = 41 };

static pid_t server;

/* The server's number, once it listens; empty if it never does. */
static void read_number(const int from, char number[16])
{
    struct pollfd ready = {.fd = from, .events = POLLIN};
    int length = 0;
    while (length < 15 && poll(&ready, 1, START_MS) == 1 && read(from, number + length, 1) == 1 &&
           number[length] != '\n') {
        ++length;
    }
    number[length] = '\0';
}

bool xvfb_start(const char* const without)
{
    int ends[2];
    if (pipe(ends)) {
        test_skip("no pipe");
        return false;
    }
    char to[16];
    char number[16];
    snprintf(to, sizeof to, "%d", ends[1]);
    const char* const argv[] = {
        "Xvfb",         "-displayfd", to,          "-screen", "0",
        "2000x1200x24", "-noreset",   "-nolisten", "tcp",     without ? "-extension" : NULL,
        without,        NULL};
    server = child_start(argv, "/dev/null");
    close(ends[1]);
    read_number(ends[0], number);
    close(ends[0]);
    if (!*number) {
        test_skip("Xvfb doesn't start: install xvfb");
        xvfb_end();
        return false;
    }
    char display[20];
    snprintf(display, sizeof display, ":%s", number);
    setenv("DISPLAY", display, 1);
    return true;
}

void xvfb_end(void)
{
    child_end(server);
    server = 0;
    unsetenv("DISPLAY");
}

int apart(bool (*const part)(void))
{
    fflush(stdout);
    const pid_t pid = fork();
    if (pid == 0) {
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        const bool held = part();
        fflush(stdout);
        _exit(held ? HELD : BROKEN);
    }
    int status = 0;
    if (pid < 0 || waitpid(pid, &status, 0) != pid) {
        return 2;
    }
    if (WIFSIGNALED(status)) {
        return -WTERMSIG(status);
    }
    return WEXITSTATUS(status) == HELD ? 1 : WEXITSTATUS(status) == BROKEN ? 0 : 2;
}

/* Not by child_start: that keeps a list, and who waits must tell it. */
int run_program(const char* const argv[])
{
    const pid_t pid = fork();
    if (pid == 0) {
        const int nothing = open("/dev/null", O_RDWR);
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        dup2(nothing, STDOUT_FILENO);
        dup2(nothing, STDERR_FILENO);
        char* const* arguments = NULL; /* exec changes nothing, whatever its type says */
        memcpy(&arguments, &argv, sizeof arguments);
        execvp(argv[0], arguments);
        _exit(127);
    }
    int status = 0;
    return pid > 0 && waitpid(pid, &status, 0) == pid && WIFEXITED(status) ? WEXITSTATUS(status)
                                                                           : -1;
}
