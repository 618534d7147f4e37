// SPDX-License-Identifier: ISC
/* manual.c - build tool: the manual page, or the completion for bash, from the table of
   options.  Usage: manual man|bash */
#include "../command/help.h"

#include <string.h>

/* ---- The page, in the man macros that every troff has */

/* A text as troff shows it: dashes that can be copied, no line of it a request. */
static void print_text(const char* text)
{
    for (; *text; ++text) {
        fputs(*text == '-'    ? "\\-"
              : *text == '\\' ? "\\e"
              : *text == '\'' ? "\\(aq"
              : *text == '`'  ? "\\(ga"
              : *text == '~'  ? "\\(ti"
                              : (const char[]){*text, '\0'},
              stdout);
    }
}

static void print_line(const char* const text)
{
    fputs("\\&", stdout);
    print_text(text);
    putchar('\n');
}

static void print_entry(const char* const begin, const char* const name, const char* const value,
                        const char* const words)
{
    printf(".TP\n\\fB");
    print_text(begin);
    print_text(name);
    fputs("\\fR", stdout);
    if (value && *value) {
        fputs(" \\fI", stdout);
        print_text(value);
        fputs("\\fR", stdout);
    }
    putchar('\n');
    print_line(words);
}

static void print_options(const Command command)
{
    printf(".SS %s\n", command_rows[command].name);
    for (size_t i = 0; i < option_count; ++i) {
        const OptionRow* const row = &option_rows[i];
        if (row->words && row->commands & 1U << command) {
            print_entry("--", row->name, row->value, row->words);
        }
    }
}

static void print_page(void)
{
    printf(".TH FOURLIMB 1 \"\" \"Fourlimb %s\" \"User Commands\"\n.SH NAME\nfourlimb \\- ",
           FOURLIMB_VERSION);
    print_text(help_what);
    fputs("\n.SH SYNOPSIS\n", stdout);
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        printf(".B fourlimb %s\n%s%s[\\fIoption\\fR]...\n.br\n", command_rows[i].name,
               command_rows[i].operand, *command_rows[i].operand ? " " : "");
    }
    fputs(".B fourlimb \\-\\-help\n.br\n.B fourlimb \\-\\-version\n.SH COMMANDS\n", stdout);
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        print_entry("", command_rows[i].name, command_rows[i].operand, command_rows[i].words);
    }
    fputs(".SH OPTIONS\n", stdout);
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        print_options((Command)i);
    }
    fputs(".SH NOTES\n", stdout);
    for (int i = 0; help_notes[i]; ++i) {
        fputs(i ? ".PP\n" : "", stdout);
        print_line(help_notes[i]);
    }
    fputs(".SH \"EXIT STATUS\"\n0 done, 1 asked wrongly, 2 it could not be done.\n.SH "
          "EXAMPLES\n.nf\n",
          stdout);
    for (int i = 0; help_examples[i]; ++i) {
        print_line(help_examples[i]);
    }
    fputs(".fi\n", stdout);
}

/* ---- Completion: first what an option's value can be, then what a command takes. */

/* Words between bars, as bash has them: between spaces. */
static void print_words(const char* text)
{
    for (; *text; ++text) {
        putchar(*text == '|' ? ' ' : *text);
    }
}

/* What completes a value: files, folders, one of some words, or nothing. */
static void print_value(const char* const value)
{
    if (!strncmp(value, "FILE", 4)) {
        fputs("files=-f", stdout);
    } else if (!strcmp(value, "FOLDER")) {
        fputs("files=-d", stdout);
    } else if (strchr(value, '|')) {
        fputs("words='", stdout);
        print_words(value);
        putchar('\'');
    }
    fputs(" ;;\n", stdout);
}

static void print_values(const OptionRow* const row)
{
    const char* between = "\t";
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        if (row->commands & 1U << i) {
            printf("%s%s:--%s", between, command_rows[i].name, row->name);
            between = " | ";
        }
    }
    fputs(") ", stdout);
    print_value(row->value);
}

static void print_names(const Command command)
{
    printf("\t%s:*) words='", command_rows[command].name);
    for (size_t i = 0; i < option_count; ++i) {
        const OptionRow* const row = &option_rows[i];
        if (row->words && row->commands & 1U << command) {
            printf("--%s ", row->name);
        }
    }
    const char* const operand = command_rows[command].value;
    print_words(strchr(operand, '|') ? operand : "");
    printf("'%s ;;\n", strncmp(operand, "FILE", 4) ? "" : " files=-f");
}

static void print_completion(void)
{
    fputs("# Completion of fourlimb for bash; made from its table of options.\n"
          "_fourlimb() {\n"
          "\tlocal word=${COMP_WORDS[COMP_CWORD]} words= files=\n"
          "\tcase $([ \"$COMP_CWORD\" -gt 1 ] && echo \"${COMP_WORDS[1]}\"):"
          "${COMP_WORDS[COMP_CWORD - 1]} in\n"
          "\t:*) words='",
          stdout);
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        printf("%s ", command_rows[i].name);
    }
    fputs("--help --version' ;;\n", stdout);
    for (size_t i = 0; i < option_count; ++i) {
        if (option_rows[i].words && option_rows[i].value) {
            print_values(&option_rows[i]);
        }
    }
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        print_names((Command)i);
    }
    fputs("\tesac\n"
          "\tmapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\"; "
          "[ -z \"$files\" ] || compgen \"$files\" -- \"$word\")\n"
          "\t[ -z \"$files\" ] || compopt -o filenames 2>/dev/null\n"
          "}\n"
          "complete -F _fourlimb fourlimb\n",
          stdout);
}

int main(const int count, char** const arguments)
{
    const char* const what = count == 2 ? arguments[1] : "";
    if (!strcmp(what, "man")) {
        print_page();
    } else if (!strcmp(what, "bash")) {
        print_completion();
    } else {
        fputs("usage: manual man|bash\n", stderr);
        return 1;
    }
    return 0;
}
