// SPDX-License-Identifier: ISC
/* test_given_ids.c - ids of saved figures: none is given twice, and none blocks others. */
#include "user_bank_folder.h"

static void an_id_is_not_given_again_after_its_entry_was_deleted(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    save(folder.path, gallop("Two", 0, "Oo.."));
    remove(feet_file(&folder, FIRST));
    remove(feet_file(&folder, FIRST + 1));
    CHECK_INT(save(folder.path, gallop("Three", 0, "Ooo.")), FIRST + 2);
    check_case("one of another file that was seen once neither");
    const char* const other = gallop("By hand", FIRST + 3, "O...");
    bank_folder_write(&folder, "other.ttl", other, strlen(other));
    CHECK_INT(save(folder.path, gallop("Four", 0, "Ooo.")), FIRST + 4);
    remove(bank_folder_file(&folder, "other.ttl"));
    CHECK_INT(save(folder.path, gallop("Five", 0, "Ooo.")), FIRST + 5);
    check_case("unless its owner says so");
    CHECK(remove(bank_folder_file(&folder, IDS_RECORD)) == 0);
    CHECK_INT(save(folder.path, gallop("Six", 0, "Ooo.")), FIRST);
    bank_folder_remove(&folder);
}

static void ids_of_other_files_and_of_the_session_are_not_given_again(void)
{
    const BankFolder folder = bank_folder_make();
    const char* const other = gallop("By hand", FIRST, "O...");
    OwnIds sessions = {{false}};
    bank_folder_write(&folder, "other.ttl", other, strlen(other));
    CHECK_INT(save(folder.path, gallop("Mine", 0, "O...")), FIRST + 1);
    ids_add(&sessions, FIRST + 2);
    ids_add(&sessions, FIRST + 3);
    const char* const text = gallop("After the session's", 0, "O...");
    CHECK_INT(user_bank_save(folder.path, text, strlen(text), &sessions, why).id, FIRST + 4);
    check_case("what the session alone has becomes that entry");
    const char* const its = gallop("The session's", FIRST + 2, "O...");
    CHECK_INT(user_bank_save(folder.path, its, strlen(its), &sessions, why).id, FIRST + 2);
    bank_folder_remove(&folder);
}

/* Years, tempi, comments: only what is given as an id is one, and the highest of all
   blocks none but itself. */
static void no_number_anywhere_blocks_saving(void)
{
    static const char* const around[][2] = {
        {"# ", "\n"},
        {"# fl:id ", "\n"},
        {"<urn:a> <urn:b> ", " .\n"},
        {"<urn:a> <urn:b> \"", "\" .\n"},
        {"@prefix fl: <urn:fourlimb:terms#> .\n<urn:a> a fl:FeetFigure ; fl:id ", " .\n"},
        {"<urn:a> <urn:fourlimb:terms#id>", " .\n"}};
    for (size_t i = 0; i < sizeof around / sizeof *around; ++i) {
        const BankFolder folder = bank_folder_make();
        char text[256];
        check_case("%sN", around[i][0]);
        snprintf(text, sizeof text, "%s%d%s", around[i][0], ID_MOST, around[i][1]);
        bank_folder_write(&folder, "other.ttl", text, strlen(text));
        bank_folder_write(&folder, "mine.ttl.lock", text, strlen(text));
        CHECK_INT(save(folder.path, gallop("Mine", 0, "O...")), FIRST);
        bank_folder_remove(&folder);
    }
    const BankFolder folder = bank_folder_make();
    char text[256];
    check_case("in the record");
    snprintf(text, sizeof text, "%d\n%d and more\n\xFF%d\n", ID_MOST, FIRST, FIRST + 1);
    bank_folder_write(&folder, IDS_RECORD, text, strlen(text));
    CHECK_INT(save(folder.path, gallop("Mine", 0, "O...")), FIRST + 1);
    bank_folder_remove(&folder);
}

static void when_all_ids_are_taken_it_says_so_and_what_helps(void)
{
    const BankFolder folder = bank_folder_make();
    char* const text = malloc((size_t)OWN_IDS * 16);
    char* at = text;
    char most[16];
    for (int id = FIRST; id <= ID_MOST; ++id) {
        at += sprintf(at, "%d\n", id);
    }
    bank_folder_write(&folder, IDS_RECORD, text, (size_t)(at - text));
    CHECK_INT(save(folder.path, gallop("One more", 0, "O...")), 0);
    snprintf(most, sizeof most, "to %d", ID_MOST);
    CHECK(strstr(why, most) && strstr(why, "delete " IDS_RECORD));
    CHECK(remove(bank_folder_file(&folder, IDS_RECORD)) == 0);
    CHECK_INT(save(folder.path, gallop("One more", 0, "O...")), FIRST);
    free(text);
    bank_folder_remove(&folder);
}

/* A link there leads nowhere, and saving needs no record. */
static void the_record_is_never_written_through_a_link(void)
{
    const BankFolder folder = bank_folder_make();
    const BankFolder elsewhere = bank_folder_make();
    bank_folder_write(&elsewhere, "letter.txt", "Dear all", 8);
    char target[PATH_ROOM];
    snprintf(target, sizeof target, "%s", bank_folder_file(&elsewhere, "letter.txt"));
    CHECK(symlink(target, bank_folder_file(&folder, IDS_RECORD)) == 0);
    CHECK(symlink(target, bank_folder_file(&folder, "mine.ttl.lock")) == 0);
    CHECK_INT(save(folder.path, gallop("One", 0, "O...")), FIRST);
    CHECK_INT(save(folder.path, gallop("Two", 0, "O...")), FIRST + 1);
    CHECK_TEXT(contents(target), "Dear all");
    bank_folder_remove(&elsewhere);
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(an_id_is_not_given_again_after_its_entry_was_deleted);
    RUN(ids_of_other_files_and_of_the_session_are_not_given_again);
    RUN(no_number_anywhere_blocks_saving);
    RUN(when_all_ids_are_taken_it_says_so_and_what_helps);
    RUN(the_record_is_never_written_through_a_link);
    return tests_end();
}
