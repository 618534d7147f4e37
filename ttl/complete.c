// SPDX-License-Identifier: ISC
/* complete.c - build tool: copies a file of presets from standard input to
   standard output and completes them.  "@feet:gallop@" becomes the entry's id, and
   "@others@" the ports that the preset doesn't name, at their defaults, so that
   nothing of a preset before stays; the user's own On, take, MIDI output and fill_now
   are left alone.  Usage: complete BANK_FOLDER < TEMPLATE */
#include "../plugin/bank/bank.h"
#include "../plugin/engine/groove/controls.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_ROOM = 4096 };

/* Controls that the preset at hand has named. */
typedef struct {
    bool named[CONTROL_COUNT];
} PresetControls;

static bool is_the_users(const int control)
{
    return control == CONTROL_ENABLED || control == CONTROL_TAKE || control == CONTROL_CHANNEL ||
           control == CONTROL_CLICK_CHANNEL || control == CONTROL_KIT ||
           control == CONTROL_FILL_NOW || control == CONTROL_SPLIT_FEET ||
           control == CONTROL_THROUGH;
}

static void fail(const char* const what, const char* const subject, const size_t length)
{
    fprintf(stderr, "complete: %s \"%.*s\"\n", what, (int)length, subject);
    exit(1);
}

static void note_symbols(PresetControls* const named, const char* const line)
{
    static const char mark[] = "lv2:symbol \"";
    for (const char* at = strstr(line, mark); at; at = strstr(at + 1, mark)) {
        const char* const symbol = at + sizeof mark - 1;
        const size_t length = strcspn(symbol, "\"");
        int control = 0;
        while (control < CONTROL_COUNT &&
               (strlen(control_rows[control].symbol) != length ||
                strncmp(control_rows[control].symbol, symbol, length) != 0)) {
            ++control;
        }
        if (control == CONTROL_COUNT || is_the_users(control) || named->named[control]) {
            fail("a preset can't set, or sets twice,", symbol, length);
        }
        named->named[control] = true;
    }
}

static void print_others(const PresetControls* const named)
{
    const char* between = "";
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (!named->named[i] && !is_the_users(i)) {
            printf("%s[ lv2:symbol \"%s\" ; pset:value %.1f ]", between, control_rows[i].symbol,
                   (double)control_rows[i].normal);
            between = " ,\n\t\t";
        }
    }
}

static void print_id(const Bank* const bank, const char* const name, const size_t length)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const EntryInfo* const entry = bank_entry(bank, (EntryKind)kind, i);
            if (strlen(entry->name) == length && !strncmp(entry->name, name, length)) {
                printf("%u", entry->id);
                return;
            }
        }
    }
    fail("the bank has no", name, length);
}

static void print_line(const Bank* const bank, PresetControls* const named, const char* line)
{
    note_symbols(named, line);
    for (const char* begin = strchr(line, '@'); begin; begin = strchr(line, '@')) {
        const size_t length = strcspn(begin + 1, "@");
        printf("%.*s", (int)(begin - line), line);
        if (!strncmp(begin, "@others@", 8)) {
            print_others(named);
            *named = (PresetControls){{false}};
        } else {
            print_id(bank, begin + 1, length);
        }
        line = begin + 1 + length + (begin[1 + length] == '@');
    }
    fputs(line, stdout);
}

int main(const int argc, char** const argv)
{
    Bank* const bank = argc == 2 ? bank_open((BankSources){.factory = argv[1]}) : NULL;
    if (!bank) {
        fprintf(stderr, "usage: complete BANK_FOLDER < TEMPLATE\n");
        return 1;
    }
    PresetControls named = {{false}};
    char line[LINE_ROOM];
    while (fgets(line, sizeof line, stdin)) {
        if (!strncmp(line, "@prefix", 7)) {
            fputs(line, stdout);
        } else if (line[0] != '#') { /* what speaks of the template stays there */
            print_line(bank, &named, line);
        }
    }
    bank_free(bank);
    return ferror(stdout) || fflush(stdout) ? 1 : 0;
}
