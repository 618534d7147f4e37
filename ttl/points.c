// SPDX-License-Identifier: ISC
/* points.c - build tool: copies a Turtle template from standard input to
   standard output and puts bank entries in it: "@points feet@" becomes a scale
   point for each, and "@points variation@" one for each variation.  Usage: points BANK_FOLDER < TEMPLATE */
#include "../plugin/bank/bank.h"
#include "../plugin/engine/varied/variation.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_ROOM = 4096 };

static EntryKind kind_of(const char* const word, const size_t length)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        if (strlen(kind_rows[kind].name) == length &&
            !strncmp(kind_rows[kind].name, word, length)) {
            return (EntryKind)kind;
        }
    }
    fprintf(stderr, "points: the template asks for \"%.*s\", which no bank has\n", (int)length,
            word);
    exit(1);
}

static void print_label(const char* const label)
{
    for (const char* c = label; *c; ++c) {
        if (*c == '"' || *c == '\\') {
            putchar('\\');
        }
        putchar(*c);
    }
}

static void print_points(const Bank* const bank, const EntryKind kind)
{
    const uint32_t count = bank_count(bank, kind);
    printf("lv2:scalePoint");
    for (uint32_t i = 0; i < count; ++i) {
        const EntryInfo* const entry = bank_entry(bank, kind, i);
        printf("%s\n\t\t\t[ rdfs:label \"", i ? " ," : "");
        print_label(entry->label);
        printf("\" ; rdf:value %u ]", entry->id);
    }
}

static void print_variations(void)
{
    printf("lv2:scalePoint");
    for (uint32_t number = 0; number < VARIATION_COUNT; ++number) {
        printf("%s\n\t\t\t[ rdfs:label \"%s\" ; rdf:value %u ]", number ? " ," : "",
               variation_words(number), number);
    }
}

static void print_line(const Bank* const bank, const char* line)
{
    static const char mark[] = "@points ";
    const char* const begin = strstr(line, mark);
    const char* const word = begin ? begin + sizeof mark - 1 : NULL;
    const char* const end = word ? strchr(word, '@') : NULL;
    if (end) {
        printf("%.*s", (int)(begin - line), line);
        if (!strncmp(word, "variation@", sizeof "variation@" - 1)) {
            print_variations();
        } else {
            print_points(bank, kind_of(word, (size_t)(end - word)));
        }
        line = end + 1;
    }
    fputs(line, stdout);
}

int main(const int argc, char** const argv)
{
    Bank* const bank = argc == 2 ? bank_open((BankSources){.factory = argv[1]}) : NULL;
    if (!bank) {
        fprintf(stderr, "usage: points BANK_FOLDER < TEMPLATE\n");
        return 1;
    }
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        fprintf(stderr, "%s\n", diagnostics->texts[i]);
    }
    char line[LINE_ROOM];
    bool comment = true; /* the template's first lines speak of the template */
    while (fgets(line, sizeof line, stdin)) {
        comment = comment && line[0] == '#';
        if (!comment) {
            print_line(bank, line);
        }
    }
    const int status = diagnostics->count ? 1 : 0;
    bank_free(bank);
    return status;
}
