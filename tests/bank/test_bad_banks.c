// SPDX-License-Identifier: ISC
/* test_bad_banks.c - every file in bad/ has something wrong in it, and says on
   its first line what people must be told ("# expect:", parts between bars must
   stand in one diagnostic) and on its second what must still load ("# still:",
   how many of its entries, and the URIs of some).  Each is read beside the
   factory's hands, of which nothing may be lost. */
#include "../help/check.h"
#include "bank_folder.h"

enum { LINE_ROOM = 1024, PARTS_ROOM = 8, FILES_AT_LEAST = 20 };

typedef struct {
    char expect[LINE_ROOM];
    char still[LINE_ROOM];
} Head;

static bool read_line(FILE* const file, const char* const mark, char text[LINE_ROOM])
{
    const size_t length = strlen(mark);
    if (!file || !fgets(text, LINE_ROOM, file) || strncmp(text, mark, length)) {
        return false;
    }
    memmove(text, text + length, strlen(text + length) + 1);
    text[strcspn(text, "\n")] = '\0';
    return true;
}

static Head read_head(const char* const path)
{
    Head head = {"", ""};
    FILE* const file = fopen(path, "rb");
    CHECK(read_line(file, "# expect: ", head.expect) && read_line(file, "# still: ", head.still));
    if (file) {
        fclose(file);
    }
    return head;
}

/* True if the diagnostic has every part of `expect`. */
static bool says_all(const char* const diagnostic, const char* const expect)
{
    char parts[LINE_ROOM];
    snprintf(parts, sizeof parts, "%s", expect);
    for (char* part = parts; part;) {
        char* const bar = strstr(part, " | ");
        if (bar) {
            *bar = '\0';
        }
        if (!strstr(diagnostic, part)) {
            return false;
        }
        part = bar ? bar + 3 : NULL;
    }
    return true;
}

static void check_complaints(const Diagnostics* const diagnostics, const char* const expect,
                             const char* const file_name)
{
    const char* fits = diagnostics->count ? diagnostics->texts[0] : "no complaint";
    for (size_t i = 0; i < diagnostics->count; ++i) {
        fits = says_all(diagnostics->texts[i], expect) ? diagnostics->texts[i] : fits;
        CHECK(strstr(diagnostics->texts[i], file_name)); /* of this file, not of the factory's */
        CHECK(is_utf8(diagnostics->texts[i]));
    }
    if (!says_all(fits, expect)) {
        CHECK_TEXT(fits, expect);
    }
}

static bool has_entry(const Bank* const bank, const char* const uri)
{
    bool found = false;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            found |= !strcmp(bank_entry(bank, (EntryKind)kind, i)->uri, uri);
        }
    }
    return found;
}

static void check_still(const Bank* const bank, char still[LINE_ROOM])
{
    char* rest = NULL;
    const char* word = strtok_r(still, " ", &rest);
    CHECK_INT(entries_beginning(bank, "urn:test:"), word ? atoi(word) : -1);
    while ((word = strtok_r(NULL, " ", &rest))) {
        if (!has_entry(bank, word)) {
            CHECK_TEXT("not in the bank", word);
        }
    }
}

/* How many hands the factory's file holds by itself. */
static uint32_t factory_hands(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_link(&folder, "presets/hands.ttl", "hands.ttl");
    Bank* const bank = bank_folder_open(&folder);
    const uint32_t count = bank_count(bank, ENTRY_HANDS);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    bank_free(bank);
    bank_folder_remove(&folder);
    return count;
}

/* The file that the test going on is about. */
static const char* name;
static uint32_t hands;

static void the_bad_file(void)
{
    char path[2 * PATH_ROOM], source[FOLDER_ROOM];
    snprintf(source, sizeof source, "tests/bank/bad/%s", name);
    snprintf(path, sizeof path, "%s/%s", FOURLIMB_SOURCE, source);
    const BankFolder folder = bank_folder_make();
    bank_folder_link(&folder, "presets/hands.ttl", "hands.ttl");
    bank_folder_link(&folder, source, name);
    Head head = read_head(path);
    Bank* const bank = bank_folder_open(&folder);
    check_complaints(bank_diagnostics(bank), head.expect, name);
    check_still(bank, head.still);
    CHECK_INT(entries_beginning(bank, "urn:fourlimb:hands:"), hands);
    bank_free(bank);
    bank_folder_remove(&folder);
}

static int is_turtle(const struct dirent* const entry)
{
    const size_t length = strlen(entry->d_name);
    return length > 4 && !strcmp(entry->d_name + length - 4, ".ttl");
}

static void the_factory_hands_load_by_themselves(void)
{
    hands = factory_hands();
    CHECK(hands > 0);
}

static int file_count;

static void there_are_bad_files_enough(void)
{
    CHECK(file_count >= FILES_AT_LEAST);
}

int main(void)
{
    struct dirent** files = NULL;
    file_count = scandir(FOURLIMB_SOURCE "/tests/bank/bad", &files, is_turtle, alphasort);
    RUN(the_factory_hands_load_by_themselves);
    RUN(there_are_bad_files_enough);
    for (int i = 0; i < file_count; ++i) {
        char sentence[LINE_ROOM];
        name = files[i]->d_name;
        snprintf(sentence, sizeof sentence, "%s is complained of and takes nothing down", name);
        test_run(sentence, the_bad_file);
        free(files[i]);
    }
    free(files);
    return tests_end();
}
