// SPDX-License-Identifier: ISC
/* test_bounds.c - what a bank reads at most: whoever comes to a bound is told so by the
   name of the file, before all else that is wrong, and what was read before is whole. */
#include "../../plugin/bank/bounds.h"
#include "user_bank_folder.h"

enum { MEGABYTE = 1 << 20, FACTORY_ENTRIES_AT_LEAST = 200 };

static const char prefixes[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n";

static const char one_hand[] =
    "<urn:test:hand> a fl:HandsFigure ; fl:id 1001 ; rdfs:label \"Hand\" ;\n"
    "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:ride ; fl:grid 1 ; fl:steps \"O\" ] .\n";

/* The user's folder beside the factory's bank. */
static Bank* open_users(const BankFolder* const folder)
{
    reading_may_take(READING_SECONDS_MOST);
    Bank* const bank =
        bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", folder->path, NULL});
    reading_may_take(0);
    if (!bank) {
        printf("# bank_open found no memory\n");
        exit(2);
    }
    return bank;
}

static void check_first_complaint(const BankFolder* const folder, const char* const told)
{
    Bank* const bank = open_users(folder);
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    if (CHECK(diagnostics->count) && !CHECK(strstr(diagnostics->texts[0], told))) {
        printf("# told: %s\n", diagnostics->texts[0]);
    }
    CHECK(entries_beginning(bank, "urn:fourlimb:") >= FACTORY_ENTRIES_AT_LEAST);
    bank_free(bank);
    bank_folder_remove(folder);
}

static int factory_files(void)
{
    DIR* const directory = opendir(FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank");
    int count = 0;
    for (const struct dirent* entry; directory && (entry = readdir(directory));) {
        count += strstr(entry->d_name, ".ttl") != NULL;
    }
    if (directory) {
        closedir(directory);
    }
    return count;
}

/* Also where there is more to complain of than is kept. */
static void files_beyond_what_a_bank_holds_are_told_before_all_else(void)
{
    enum { BEYOND = 10 };
    const int most = FILES_MOST - factory_files();
    char told[256];
    const BankFolder folder = bank_folder_make();
    for (int i = 0; i < most + BEYOND; ++i) {
        char name[32];
        snprintf(name, sizeof name, "x%04d.ttl", i);
        bank_folder_write(&folder, name, "not Turtle", strlen("not Turtle"));
    }
    snprintf(told, sizeof told,
             "x%04d.ttl: is left out, and all files behind it in order of name, %d in all: a bank "
             "holds %d files",
             most, BEYOND, FILES_MOST);
    check_first_complaint(&folder, told);
}

/* A whole bank is loaded from 70 files, the last in order of name among them. */
static void a_figure_in_the_last_of_seventy_files_is_loaded(void)
{
    const BankFolder folder = bank_folder_make();
    char text[1024];
    for (int i = 0; i < 70; ++i) {
        char name[32];
        snprintf(name, sizeof name, "x%02d.ttl", i);
        bank_folder_write(&folder, name, prefixes, strlen(prefixes));
    }
    snprintf(text, sizeof text, "%s%s", prefixes, one_hand);
    bank_folder_write(&folder, "z.ttl", text, strlen(text));
    Bank* const bank = open_users(&folder);
    CHECK_INT(entries_beginning(bank, "urn:test:"), 1);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void fill(char* const text, const size_t size, const char* const line)
{
    const size_t length = strlen(line);
    for (size_t i = 0; i < size; ++i) {
        text[i] = line[i % length];
    }
}

static void bytes_beyond_what_a_bank_reads_are_told_before_all_else(void)
{
    char* const text = malloc(FILE_BYTES_MOST + 1);
    if (!text) {
        exit(2);
    }
    fill(text, FILE_BYTES_MOST + 1, "# a comment that goes on and on\n");
    BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "large.ttl", text, FILE_BYTES_MOST + 1);
    check_first_complaint(&folder, "large.ttl: is left out: a file has 4 MB at most");
    folder = bank_folder_make();
    bank_folder_write(&folder, "i.ttl", text, FILE_BYTES_MOST);
    bank_folder_write(&folder, "j.ttl", text, FILE_BYTES_MOST);
    check_first_complaint(&folder, "j.ttl: is left out: all files of a bank have 8 MB at most");
    free(text);
}

static void statements_beyond_what_a_bank_holds_are_told_before_all_else(void)
{
    char* const text = malloc(FILE_BYTES_MOST);
    if (!text) {
        exit(2);
    }
    size_t size = 0;
    for (unsigned i = 0; i < STATEMENTS_MOST; ++i) {
        size += (size_t)snprintf(text + size, FILE_BYTES_MOST - size, "<%x> a <>.\n", i);
    }
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "many.ttl", text, size);
    bank_folder_write(&folder, "more.ttl", prefixes, strlen(prefixes));
    const char* const figure = gallop("Salt Gallop", 0, "O.oo");
    const Saved saved = user_bank_save(folder.path, figure, strlen(figure), NULL, why);
    Bank* const bank = open_users(&folder);
    CHECK_INT(saved.id, ID_FIRST_OWN);
    CHECK(user_bank_loaded(bank, &saved, why)); /* before many.ttl in order of name */
    bank_free(bank);
    bank_folder_write(&folder, "a.ttl", text, size);
    remove(bank_folder_file(&folder, "many.ttl"));
    Bank* const full = open_users(&folder);
    CHECK(!user_bank_loaded(full, &saved, why));
    CHECK(strstr(why, "feet-1000.ttl is in your folder, but can't be picked: "));
    CHECK(strstr(why, "statements at most"));
    bank_free(full);
    check_first_complaint(&folder, "is left out, and all files behind it");
    free(text);
}

/* Every use of such a name would have it written out whole. */
static void prefixes_beyond_all_need_are_told_before_all_else(void)
{
    char text[MEGABYTE / 16] = "";
    for (size_t i = 0, at = 0; i < 70; ++i) {
        at += (size_t)snprintf(text + at, sizeof text - at, "@prefix p%zu: <urn:p> .\n", i);
    }
    BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "many.ttl", text, strlen(text));
    check_first_complaint(&folder, "many.ttl:65: a file declares 64 prefixes at most");
    fill(text, 2000, "x");
    memcpy(text, "@prefix p: <urn:", 16);
    memcpy(text + 2000, "> .\n", 5);
    folder = bank_folder_make();
    bank_folder_write(&folder, "long.ttl", text, strlen(text));
    check_first_complaint(&folder, "long.ttl:1: a prefix stands for 512 bytes at most");
    memcpy(text, "@base <urn:xxxxx", 16);
    folder = bank_folder_make();
    bank_folder_write(&folder, "base.ttl", text, strlen(text));
    check_first_complaint(&folder, "base.ttl:1: a base has 512 bytes at most");
}

/* As a file in UTF-16 has in every other place. */
static void a_byte_that_is_0_is_told_and_reading_goes_on_behind_it(void)
{
    char text[2048];
    const int size =
        snprintf(text, sizeof text, "%s<urn:test:x> a <urn:test:\1y> .\n%s", prefixes, one_hand);
    *strchr(text, '\1') = '\0';
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "zero.ttl", text, (size_t)size);
    Bank* const bank = open_users(&folder);
    CHECK_INT(entries_beginning(bank, "urn:test:"), 1);
    bank_free(bank);
    check_first_complaint(&folder, "zero.ttl:3: not Turtle here: a byte that is 0");
}

/* Each goes on until it is nested too deep, and the next is read again. */
static void a_megabyte_of_sentences_without_an_end_is_given_up(void)
{
    char* const text = malloc(MEGABYTE);
    if (!text) {
        exit(2);
    }
    fill(text, MEGABYTE, "<s> <p> ( <o>\n");
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "unended.ttl", text, MEGABYTE);
    check_first_complaint(&folder, "too many broken sentences that run on into the next");
    free(text);
}

int main(void)
{
    RUN(files_beyond_what_a_bank_holds_are_told_before_all_else);
    RUN(a_figure_in_the_last_of_seventy_files_is_loaded);
    RUN(bytes_beyond_what_a_bank_reads_are_told_before_all_else);
    RUN(statements_beyond_what_a_bank_holds_are_told_before_all_else);
    RUN(prefixes_beyond_all_need_are_told_before_all_else);
    RUN(a_byte_that_is_0_is_told_and_reading_goes_on_behind_it);
    RUN(a_megabyte_of_sentences_without_an_end_is_given_up);
    return tests_end();
}
