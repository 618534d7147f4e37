// SPDX-License-Identifier: ISC
/* main.c - the command line: help, version, and the choice of a command. */
#include "arguments.h"
#include "commands.h"
#include "help.h"
#include "presets.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

/* A command that is listed is there. */
#define COMMAND_RUN(name, word, operand, value, words) [COMMAND_##name] = command_##word,
static int (*const runs[COMMAND_COUNT])(const Request* request) = {COMMANDS(COMMAND_RUN)};
#undef COMMAND_RUN

static int run(const Command command, const int count, char** const arguments)
{
    static Request request; /* too large for a stack */
    if (!arguments_read(&request, command, count, arguments)) {
        return ASKED_WRONGLY;
    }
    if (request.help) {
        help_print_command(stdout, command);
        return DONE;
    }
    if (request.section_count > 1 && command != COMMAND_RENDER) {
        fprintf(stderr,
                "fourlimb: %s takes one groove; `fourlimb render` makes a song of several\n",
                command_rows[command].name);
        return ASKED_WRONGLY;
    }
    return presets_resolve(&request) ? runs[command](&request) : ASKED_WRONGLY;
}

int main(const int count, char** const arguments)
{
    signal(SIGXFSZ, SIG_IGN); /* a file over the limit is an error to tell, not an end */
    const char* const name = count > 1 ? arguments[1] : "--help";
    if (!strcmp(name, "--help") || !strcmp(name, "help") || !strcmp(name, "-h")) {
        help_print(stdout);
        return count > 1 ? DONE : ASKED_WRONGLY;
    }
    if (!strcmp(name, "--version")) {
        puts("fourlimb " FOURLIMB_VERSION);
        return DONE;
    }
    const Command command = options_command(name);
    if (command < COMMAND_COUNT) {
        return run(command, count - 1, arguments + 1);
    }
    fprintf(stderr, "fourlimb: there is no command \"%s\"; `fourlimb --help` names them\n", name);
    return ASKED_WRONGLY;
}
