// SPDX-License-Identifier: ISC
/* test_bad_folders.c - folders and files that no text file in bad/ can show:
   nothing there, nothing readable, no text at all, far too much of it, and files
   that get in each other's way.  The factory's hands lie beside each. */
#include "../help/check.h"
#include "bank_folder.h"

enum { MEGABYTE = 1 << 20, SANE_COMPLAINT = 2000, FACTORY_HANDS_AT_LEAST = 40 };

static const char prefixes[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n";

static const char one_hand[] =
    "<urn:test:hand> a fl:HandsFigure ; fl:id 1001 ; rdfs:label \"Hand\" ;\n"
    "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:ride ; fl:grid 1 ; fl:steps \"O\" ] .\n";

static BankFolder folder_with_hands(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_link(&folder, "presets/hands.ttl", "hands.ttl");
    return folder;
}

static bool complains_of(const Bank* const bank, const char* const what)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        if (strstr(diagnostics->texts[i], what)) {
            return true;
        }
    }
    return false;
}

static void check_hands_are_whole(const Bank* const bank)
{
    CHECK(entries_beginning(bank, "urn:fourlimb:hands:") >= FACTORY_HANDS_AT_LEAST);
    CHECK(!complains_of(bank, "hands.ttl"));
}

static void check_complaints_are_sane(const Bank* const bank)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        CHECK(strlen(diagnostics->texts[i]) < SANE_COMPLAINT);
        CHECK(is_utf8(diagnostics->texts[i]));
    }
}

/* The folder with one more file; what is told of it; nothing else is lost. */
static void check_beside_hands(const BankFolder* const folder, const char* const told)
{
    Bank* const bank = bank_folder_open(folder);
    if (told) {
        CHECK(complains_of(bank, told));
    } else {
        CHECK_INT(bank_diagnostics(bank)->count, 0);
    }
    check_hands_are_whole(bank);
    check_complaints_are_sane(bank);
    bank_free(bank);
    bank_folder_remove(folder);
}

static void check_text_beside_hands(const char* const name, const char* const text,
                                    const char* const told)
{
    const BankFolder folder = folder_with_hands();
    bank_folder_write(&folder, name, text, strlen(text));
    check_beside_hands(&folder, told);
}

static void check_empty(const char* const path)
{
    Bank* const bank = bank_open((BankSources){.factory = path});
    CHECK(bank);
    if (bank) {
        CHECK_INT(bank_diagnostics(bank)->count, 1);
        CHECK(complains_of(bank, path));
        CHECK_INT(bank_library(bank)->groove_count, 0);
        CHECK_INT(bank_library(bank)->kit_count, 0);
    }
    bank_free(bank);
}

static void an_empty_folder_is_a_bank_of_nothing_with_a_complaint(void)
{
    const BankFolder folder = bank_folder_make();
    check_empty(folder.path);
    bank_folder_remove(&folder);
}

static void a_missing_folder_is_a_bank_of_nothing_with_a_complaint(void)
{
    const BankFolder folder = bank_folder_make();
    check_empty(bank_folder_file(&folder, "nowhere"));
    bank_folder_remove(&folder);
}

static void an_empty_file_is_no_mistake(void)
{
    check_text_beside_hands("empty.ttl", "", NULL);
}

static void files_of_other_names_are_not_read(void)
{
    check_text_beside_hands("notes.txt", "this is no Turtle", NULL);
    check_text_beside_hands("bank.ttl~", "this is no Turtle", NULL);
    check_text_beside_hands(".ttl", "this is no Turtle", NULL);
}

static void a_link_to_nothing_is_complained_of(void)
{
    const BankFolder folder = folder_with_hands();
    CHECK(symlink("/nowhere/at/all", bank_folder_file(&folder, "gone.ttl")) == 0);
    check_beside_hands(&folder, "gone.ttl");
}

static void a_file_that_may_not_be_read_is_complained_of(void)
{
    if (geteuid() == 0) {
        test_skip("the superuser may read everything");
        return;
    }
    const BankFolder folder = folder_with_hands();
    bank_folder_write(&folder, "secret.ttl", prefixes, strlen(prefixes));
    chmod(bank_folder_file(&folder, "secret.ttl"), 0);
    check_beside_hands(&folder, "secret.ttl");
}

static void a_folder_with_the_name_of_a_file_is_complained_of(void)
{
    const BankFolder folder = folder_with_hands();
    CHECK(mkdir(bank_folder_file(&folder, "folder.ttl"), 0700) == 0);
    check_beside_hands(&folder, "folder.ttl");
}

/* Numbers after Marsaglia 2003, xorshift: the same bytes on every machine. */
static uint32_t next_number(uint32_t* const state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static void garbage_is_complained_of(void)
{
    static unsigned char bytes[1 << 16];
    for (uint32_t seed = 1; seed <= 8; ++seed) {
        uint32_t state = seed;
        for (size_t i = 0; i < sizeof bytes; ++i) {
            bytes[i] = (unsigned char)next_number(&state);
        }
        check_case("seed %u", seed);
        const BankFolder folder = folder_with_hands();
        bank_folder_write(&folder, "garbage.ttl", bytes, sizeof bytes);
        check_beside_hands(&folder, "garbage.ttl");
    }
}

/* A figure with a text of a megabyte in one place. */
static void write_huge(const BankFolder* const folder, const char* const before, const char sign,
                       const char* const after)
{
    const size_t room = MEGABYTE + 4096;
    char* const text = malloc(room);
    if (!text) {
        exit(2);
    }
    const int start = snprintf(text, room, "%s%s", prefixes, before);
    memset(text + start, sign, MEGABYTE);
    snprintf(text + start + MEGABYTE, room - (size_t)start - MEGABYTE, "%s", after);
    bank_folder_write(folder, "huge.ttl", text, strlen(text));
    free(text);
}

static void a_megabyte_of_steps_is_too_many_strokes(void)
{
    const BankFolder folder = folder_with_hands();
    write_huge(&folder,
               "<urn:test:huge> a fl:HandsFigure ; fl:id 1001 ; rdfs:label \"Huge\" ;\n"
               "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:ride ; fl:grid 1 ; fl:steps \"",
               'o', "\" ] .\n");
    check_beside_hands(&folder, "strokes");
}

static void a_megabyte_for_a_number_is_complained_of_briefly(void)
{
    const BankFolder folder = folder_with_hands();
    write_huge(&folder, "<urn:test:huge> a fl:HandsFigure ; fl:id ", '9', " .\n");
    check_beside_hands(&folder, "fl:id");
}

static void a_megabyte_of_name_is_complained_of_briefly(void)
{
    const BankFolder folder = folder_with_hands();
    write_huge(&folder, "<urn:test:", 'x', "> a fl:HandsFigure ; fl:id 0 .\n");
    check_beside_hands(&folder, "huge.ttl:3");
}

/* As when a log or a letter is put there by its name. */
static void a_megabyte_of_mistakes_is_read_to_its_end(void)
{
    static const char line[] = "this is not Turtle\n";
    const size_t length = sizeof line - 1;
    char* const text = malloc(MEGABYTE);
    for (size_t i = 0; text && i < MEGABYTE; ++i) {
        text[i] = line[i % length];
    }
    const BankFolder folder = folder_with_hands();
    bank_folder_write(&folder, "letter.ttl", text, text ? MEGABYTE : 0);
    check_beside_hands(&folder, "letter.ttl:1:");
    free(text);
}

static void windows_line_ends_and_byte_order_marks_are_no_mistake(void)
{
    char text[1024];
    snprintf(text, sizeof text, "\xEF\xBB\xBF%s", prefixes);
    check_text_beside_hands("marked.ttl", text, NULL);
    check_text_beside_hands("windows.ttl",
                            "@prefix fl: <urn:fourlimb:terms#> .\r\n\r\n# nothing\r\n", NULL);
}

static void a_last_line_without_an_end_is_still_read(void)
{
    char text[1024];
    snprintf(text, sizeof text, "%s%s", prefixes, one_hand);
    text[strlen(text) - 1] = '\0';
    const BankFolder folder = folder_with_hands();
    bank_folder_write(&folder, "unended.ttl", text, strlen(text));
    Bank* const bank = bank_folder_open(&folder);
    CHECK_INT(entries_beginning(bank, "urn:test:"), 1);
    bank_free(bank);
    check_beside_hands(&folder, NULL);
}

/* Turtle 1.1, section 2.4: a prefix is known from its declaration on in one
   document, so a file may not lean on what another declared. */
static void a_prefix_of_one_file_is_unknown_in_the_next(void)
{
    check_text_beside_hands("zz.ttl", one_hand, "zz.ttl");
}

/* What people call the factory's figures doesn't depend on a user's prefixes. */
static void a_prefix_of_the_users_renames_nothing_of_the_factorys(void)
{
    const char text[] = "@prefix hands: <urn:mine:> .\n";
    const BankFolder folder = folder_with_hands();
    bank_folder_write(&folder, "zz.ttl", text, strlen(text));
    Bank* const bank = bank_folder_open(&folder);
    CHECK_TEXT(bank_entry(bank, ENTRY_HANDS, 0)->name, "hands:eighth-hats");
    bank_free(bank);
    bank_folder_remove(&folder);
}

/* As it happens when a file is copied to be edited. */
static void a_copy_of_a_file_under_another_name_spoils_neither(void)
{
    const BankFolder folder = folder_with_hands();
    bank_folder_link(&folder, "presets/hands.ttl", "copy-of-mine.ttl");
    Bank* const bank = bank_folder_open(&folder);
    CHECK(entries_beginning(bank, "urn:fourlimb:hands:") >= FACTORY_HANDS_AT_LEAST);
    CHECK(bank_diagnostics(bank)->count > 0);
    bank_free(bank);
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(an_empty_folder_is_a_bank_of_nothing_with_a_complaint);
    RUN(a_missing_folder_is_a_bank_of_nothing_with_a_complaint);
    RUN(an_empty_file_is_no_mistake);
    RUN(files_of_other_names_are_not_read);
    RUN(a_link_to_nothing_is_complained_of);
    RUN(a_file_that_may_not_be_read_is_complained_of);
    RUN(a_folder_with_the_name_of_a_file_is_complained_of);
    RUN(garbage_is_complained_of);
    RUN(a_megabyte_of_steps_is_too_many_strokes);
    RUN(a_megabyte_for_a_number_is_complained_of_briefly);
    RUN(a_megabyte_of_name_is_complained_of_briefly);
    RUN(windows_line_ends_and_byte_order_marks_are_no_mistake);
    RUN(a_last_line_without_an_end_is_still_read);
    RUN(a_megabyte_of_mistakes_is_read_to_its_end);
    RUN(a_prefix_of_one_file_is_unknown_in_the_next);
    RUN(a_prefix_of_the_users_renames_nothing_of_the_factorys);
    RUN(a_copy_of_a_file_under_another_name_spoils_neither);
    return tests_end();
}
