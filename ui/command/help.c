// SPDX-License-Identifier: ISC
#include "help.h"

#include <string.h>

enum { WIDTH = 80, WORDS_AT = 24 };

const char help_what[] = "plays drum grooves, limb by limb, through the Fourlimb plugin";

const char* const help_notes[] = {
    "A NAME is a label in any case, an id, or a name from the Turtle such as feet:gallop.",
    "Your own figures are Turtle files in ~/.local/share/fourlimb, or $XDG_DATA_HOME/fourlimb.",
    "Playing loud hurts hearing and playing long hurts limbs: see the cautions in README.md.",
    NULL,
};

const char* const help_examples[] = {
    "fourlimb render --groove \"Lower Station\" --bars 8 --tempo 180 --out part.mid",
    "fourlimb render --groove 1 --feet gallop --set right_hand=0 --set left_hand=0 --out feet.mid",
    "fourlimb render --groove \"Lower Station\" --bars 16 --groove 3 --bars 4 --out song.wav",
    "fourlimb show --groove 1 --feet herta",
    "fourlimb chart --groove \"The Switchman\" --out switchman.pdf",
    "fourlimb practice --groove \"Brine Stair\" --from 100 --to 160 --out brine-stair",
    "fourlimb list feet --meter 7/8",
    "fourlimb list feet gallop under 7 at 180",
    "fourlimb list --presets",
    "fourlimb vary --groove \"Lower Station\" --feet gallop --tempo 180",
    "fourlimb check my-feet.ttl",
    "fourlimb listen played.mid --groove \"Lower Station\" --tempo 120",
    "fourlimb song --new \"Try\" --sections \"intro 4, verse 8, chorus 8\" --out try.ttl",
    "fourlimb song try.ttl --out try.mid",
    "fourlimb check --groove \"Lower Station\" --tempo 200 --minutes 4 --lighten 6",
    NULL,
};

/* Words from a column on, in lines of WIDTH; `at`: where the line stands. */
static void print_words(FILE* const out, const char* words, int at, const int column)
{
    while (*words) {
        const int length = (int)strcspn(words, " ");
        if (at + 1 + length > WIDTH && at > column) {
            fputc('\n', out);
            at = 0;
        }
        const int room = at < column ? column - at : at > column;
        fprintf(out, "%*s%.*s", room, "", length, words);
        at += room + length;
        words += length + (words[length] == ' ');
    }
    fputc('\n', out);
}

/* Words beside a name; below it, if it is long. */
static void print_row(FILE* const out, const char* const name, const char* const words)
{
    int at = fprintf(out, "  %s", name);
    if (at + 2 > WORDS_AT) {
        fputc('\n', out);
        at = 0;
    }
    print_words(out, words, at, WORDS_AT);
}

static void print_option(FILE* const out, const OptionRow* const row, const char* const words)
{
    char name[64];
    snprintf(name, sizeof name, "--%s%s%s", row->name, row->value ? " " : "",
             row->value ? row->value : "");
    print_row(out, name, words);
}

/* The words, and in brackets the commands that take it, if not all do. */
static void print_option_of_all(FILE* const out, const OptionRow* const row)
{
    char words[512];
    int length = snprintf(words, sizeof words, "%s", row->words);
    if (row->commands != (1U << COMMAND_COUNT) - 1U) {
        const char* between = " [";
        for (int i = 0; i < COMMAND_COUNT; ++i) {
            if (row->commands & 1U << i) {
                length += snprintf(words + length, sizeof words - (size_t)length, "%s%s", between,
                                   command_rows[i].name);
                between = ", ";
            }
        }
        snprintf(words + length, sizeof words - (size_t)length, "]");
    }
    print_option(out, row, words);
}

static void print_command(FILE* const out, const CommandRow* const row)
{
    char name[64];
    snprintf(name, sizeof name, "fourlimb %s%s%s", row->name, *row->operand ? " " : "",
             row->operand);
    print_row(out, name, row->words);
}

static void print_examples(FILE* const out, const char* const begin)
{
    fputs("\nExamples\n", out);
    for (int i = 0; help_examples[i]; ++i) {
        if (!strncmp(help_examples[i], begin, strlen(begin))) {
            fprintf(out, "  %s\n", help_examples[i]);
        }
    }
}

static void print_notes(FILE* const out)
{
    fputc('\n', out);
    for (int i = 0; help_notes[i]; ++i) {
        print_words(out, help_notes[i], 0, 0);
    }
}

void help_print(FILE* const out)
{
    fprintf(out, "fourlimb %s.\n\nCommands\n", help_what);
    for (int i = 0; i < COMMAND_COUNT; ++i) {
        print_command(out, &command_rows[i]);
    }
    fputs("  fourlimb --help, fourlimb COMMAND --help, fourlimb --version\n\nOptions\n", out);
    for (size_t i = 0; i < option_count; ++i) {
        if (option_rows[i].words) {
            print_option_of_all(out, &option_rows[i]);
        }
    }
    print_notes(out);
    print_examples(out, "");
}

void help_print_command(FILE* const out, const Command command)
{
    print_command(out, &command_rows[command]);
    fputs("\nOptions\n", out);
    for (size_t i = 0; i < option_count; ++i) {
        if (option_rows[i].commands & 1U << command && option_rows[i].words) {
            print_option(out, &option_rows[i], option_rows[i].words);
        }
    }
    print_notes(out);
    char begin[64];
    snprintf(begin, sizeof begin, "fourlimb %s ", command_rows[command].name);
    print_examples(out, begin);
}
