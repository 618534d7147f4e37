// SPDX-License-Identifier: ISC
#include "xvfb.h"

#include "../help/check.h"
#include "../help/wait.h"
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

enum { HELD = 40, BROKEN = 41, NO_SUCH_PROGRAM = 127 };

static pid_t server;

/* The number that the server writes, with a line's end, once it listens. */
static bool read_number(const int from, char number[16])
{
    struct pollfd ready = {.fd = from, .events = POLLIN};
    int length = 0;
    Wait wait = wait_until("Xvfb says its display's number");
    while (length < 15 && wait_goes_on(&wait)) {
        if (poll(&ready, 1, 0) != 1) {
            continue;
        }
        if (read(from, number + length, 1) != 1) { /* it has ended */
            return false;
        }
        if (number[length] == '\n') {
            number[length] = '\0';
            return length > 0;
        }
        ++length;
    }
    return false;
}

static void print_file(const char* const path)
{
    char line[256];
    FILE* const file = fopen(path, "r");
    while (file && fgets(line, sizeof line, file)) {
        printf("# Xvfb: %s", line);
    }
    if (file) {
        fclose(file);
    }
}

static bool start(const char* const without, const char* const log)
{
    int ends[2];
    if (pipe(ends)) {
        return false;
    }
    char to[16];
    char number[16];
    snprintf(to, sizeof to, "%d", ends[1]);
    const char* const argv[] = {
        "Xvfb",         "-displayfd", to,          "-screen", "0",
        "2000x1200x24", "-noreset",   "-nolisten", "tcp",     without ? "-extension" : NULL,
        without,        NULL};
    server = child_start(argv, log);
    close(ends[1]);
    const bool good = read_number(ends[0], number);
    close(ends[0]);
    char display[20];
    snprintf(display, sizeof display, ":%s", good ? number : "");
    if (good) {
        setenv("DISPLAY", display, 1);
    }
    return good;
}

bool xvfb_start(const char* const without, bool* const missing)
{
    char log[512];
    const char* const temporary = getenv("TMPDIR");
    snprintf(log, sizeof log, "%s/fourlimb-xvfb-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    const int file = mkstemp(log);
    const bool good = file >= 0 && start(without, log);
    *missing = !good && server > 0 && !child_runs(server) && child_last_status() == NO_SUCH_PROGRAM;
    if (!good) {
        print_file(log);
        xvfb_end();
    }
    if (file >= 0) {
        close(file);
        unlink(log);
    }
    return good;
}

bool xvfb_here(const char* const without)
{
    bool missing = false;
    const bool good = xvfb_start(without, &missing);
    if (missing) {
        test_skip("there is no Xvfb: install xvfb");
    } else {
        CHECK(good);
    }
    return good;
}

/* A test takes no arguments. */
static bool up;

static void an_x_server_without_a_screen_starts(void)
{
    up = xvfb_here(NULL);
}

bool xvfb_open(void)
{
    RUN(an_x_server_without_a_screen_starts);
    return up;
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
    wait_until("a part of the test in a process of its own has ended");
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
