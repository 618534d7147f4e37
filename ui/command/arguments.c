// SPDX-License-Identifier: ISC
#include "arguments.h"

#include <getopt.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_ROW = 256 }; /* numbers of rows come after those of all characters */

/* Those that have an option of this name. */
static unsigned commands_with(const char* const option, const size_t length)
{
    unsigned commands = 0;
    for (size_t i = 0; i < option_count; ++i) {
        const OptionRow* const row = &option_rows[i];
        if (row->words && strlen(row->name) == length && !strncmp(row->name, option, length)) {
            commands |= row->commands;
        }
    }
    return commands;
}

/* Says what is wrong with what getopt_long() did not take. */
static bool refuse(const Command command, const char* const typed)
{
    const char* const name = command_rows[command].name;
    const int length = (int)strcspn(typed, "=");
    const unsigned others = length > 2 ? commands_with(typed + 2, (size_t)length - 2) : 0U;
    if (!others) {
        fprintf(stderr, "fourlimb: there is no option %.*s", length, typed);
    } else if (others & 1U << command) {
        fprintf(stderr, "fourlimb: %.*s takes no value", length, typed);
    } else {
        fprintf(stderr, "fourlimb: %s has no %.*s; it is for", name, length, typed);
        for (int i = 0, told = 0; i < COMMAND_COUNT; ++i) {
            if (others & 1U << i) {
                fprintf(stderr, "%s `fourlimb %s`", told++ ? "," : "", command_rows[i].name);
            }
        }
    }
    fprintf(stderr, "; `fourlimb %s --help` says what there is\n", name);
    return false;
}

/* Words that may follow the first. */
static int words_after(const Command command)
{
    const char* const operand = command_rows[command].operand;
    return strstr(operand, "...") ? LOOKED_FOR_MAX : strchr(operand, ' ') ? 1 : 0;
}

static bool take_operand(Request* const request, const Command command, const char* const word)
{
    if (request->operand && request->looked_for_count < words_after(command)) {
        request->looked_for[request->looked_for_count++] = word;
        return true;
    }
    if (request->operand || !*command_rows[command].operand) {
        fprintf(stderr,
                "fourlimb: \"%s\" is one word too many; `fourlimb %s --help` says what there is\n",
                word, command_rows[command].name);
        return false;
    }
    request->operand = word;
    return true;
}

/* The command's rows as getopt_long() wants them, up to the one of zeros. */
static void list_options(const Command command, struct option* list)
{
    for (size_t i = 0; i < option_count; ++i) {
        const OptionRow* const row = &option_rows[i];
        if (row->commands & 1U << command) {
            *list++ = (struct option){row->name, row->value ? required_argument : no_argument, NULL,
                                      FIRST_ROW + (int)i};
        }
    }
    *list = (struct option){NULL, 0, NULL, 0};
}

static bool take(Request* const request, const Command command, const int found,
                 char** const arguments)
{
    switch (found) {
    case 'h':
        request->help = true;
        return true;
    case 1:
        return take_operand(request, command, optarg);
    case ':':
        fprintf(stderr, "fourlimb: %s needs a value after it\n", arguments[optind - 1]);
        return false;
    case '?':
        if (optopt > 0 && optopt < FIRST_ROW) {
            return refuse(command, (const char[]){'-', (char)optopt, '\0'});
        }
        return refuse(command, arguments[optind - 1]);
    default:
        return option_rows[found - FIRST_ROW].take(request, optarg);
    }
}

bool arguments_read(Request* const request, const Command command, const int count,
                    char** const arguments)
{
    struct option list[OPTIONS_MAX + 1];
    list_options(command, list);
    memset(request, 0, sizeof *request); /* an initializer may be made on the stack first */
    request->wav = (WavForm){.soundfont = NULL, .rate = 44100, .bits = 16};
    bool good = true;
    int found = 0;
    opterr = 0;
    /* "-": words between the options come in order, too; ":": no value is told apart. */
    while (good && (found = getopt_long(count, arguments, "-:h", list, NULL)) != -1) {
        good = take(request, command, found, arguments);
    }
    while (good && optind < count) { /* after "--" */
        good = take_operand(request, command, arguments[optind++]);
    }
    return good;
}
