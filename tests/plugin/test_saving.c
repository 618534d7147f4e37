// SPDX-License-Identifier: ISC
/* test_saving.c - figures and kit maps saved into the user's bank by messages: the
   control picks them at once, here and in other instances. */
#define _GNU_SOURCE
#include "sessions.h"

#include <dlfcn.h>

static void a_saved_figure_has_an_id_that_its_control_picks_at_once(void)
{
    const char* const home = fresh_home();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_stop(keeper);
    keeper_saves(keeper, feet_text(190, "Salt Gallop", "O..o .oo. O..o .oo."), 1000);
    keeper->controls[CONTROL_FEET] = 1000.0f;
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o..o.oo.o..o.oo.");
    check_case("saved again over the same id");
    keeper_stop(keeper);
    keeper_saves(keeper, feet_text(1000, "Salt Gallop", "oooo .... .... ...."), 1000);
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "oooo............");
    keeper_close(keeper);
    check_case("another instance has it from the file");
    Keeper* const other = keeper_open(NO_WORKER);
    other->controls[CONTROL_FEET] = 1000.0f;
    keeper_play(other, 1);
    CHECK_TEXT(bar_steps(other, 0, KICK), "oooo............");
    keeper_close(other);
    remove_home(home);
}

static void a_saved_kit_map_is_picked_at_once(void)
{
    const char* const home = fresh_home();
    Bank* const bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    Kit kit = *library_kit(bank_library(bank), 1);
    kit.notes[VOICE_KICK] = 20;
    char* const text = write_entry(ENTRY_KIT, &kit, &(EntryInfo){.label = "Attic"});
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    check_refused(keeper, FL "saveFigure", text, "fl:saveKit");
    keeper_set(keeper, FL "saveKit", text);
    CHECK(keeper_await(keeper, FL "savedKit"));
    CHECK_INT(keeper_told_long(keeper, FL "savedKit"), 1000);
    keeper->controls[CONTROL_KIT] = 1000.0f;
    keeper_play(keeper, 1);
    CHECK(begins(&keeper->played, 0, 20));
    CHECK(!begins(&keeper->played, 0, KICK));
    keeper_close(keeper);
    free(text);
    bank_free(bank);
    remove_home(home);
}

static const char* groove_text(const char* const feet)
{
    static char text[1024];
    snprintf(text, sizeof text,
             "@prefix fl: <urn:fourlimb:terms#> .\n"
             "<urn:test:groove> a fl:Groove ; "
             "<http://www.w3.org/2000/01/rdf-schema#label> \"Salt Groove\" ; fl:tempo 120 ; "
             "fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"A\" ; "
             "fl:part [ fl:letter \"A\" ; fl:feet <%s> ] .\n",
             feet);
    return text;
}

/* A groove names figures of the bank; what it plays isn't deleted before it. */
static void a_groove_is_saved_over_the_bank_and_entries_are_deleted(void)
{
    const char* const home = fresh_home();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    const char* const salt = groove_text("urn:fourlimb:mine:salt-gallop-1000");
    check_refused(keeper, FL "saveGroove", salt, "is not in the bank");
    keeper_saves(keeper, feet_text(0, "Salt Gallop", "O..o .oo. O..o .oo."), 1000);
    check_refused(keeper, FL "saveFigure", salt, "expected one subject");
    check_refused(keeper, FL "saveGroove", feet_text(0, "Fog", "O..."), "fl:saveFigure");
    keeper_set(keeper, FL "saveGroove", salt);
    CHECK(keeper_await(keeper, FL "savedGroove"));
    CHECK_INT(keeper_told_long(keeper, FL "savedGroove"), 1001);
    keeper->controls[CONTROL_GROOVE] = 1001.0f;
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o..o.oo.o..o.oo.");
    keeper_stop(keeper);
    check_refused(keeper, FL "deleteEntry", "feet 1000", "\"Salt Groove\" plays it");
    check_refused(keeper, FL "deleteEntry", "feet", "expected a kind and an id");
    check_refused(keeper, FL "deleteEntry", "shoes 1000", "expected a kind and an id");
    check_refused(keeper, FL "deleteEntry", "feet 1", "isn't one of your own");
    keeper_set(keeper, FL "deleteEntry", "groove 1001");
    CHECK(keeper_await(keeper, FL "deletedEntry"));
    CHECK_INT(keeper_told_long(keeper, FL "deletedEntry"), 1001);
    keeper_play(keeper, 1); /* the bank's first groove plays in its place */
    CHECK(strcmp(bar_steps(keeper, 0, KICK), "o..o.oo.o..o.oo.") != 0);
    keeper_close(keeper);
    remove_home(home);
}

static void what_cannot_be_saved_is_told_with_what_to_do(void)
{
    char path[1024];
    const char* const home = fresh_home();
    snprintf(path, sizeof path, "%s/fourlimb", home);
    fclose(fopen(path, "w")); /* a file where the folder should be */
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    check_refused(keeper, FL "saveFigure", feet_text(0, "Salt Gallop", "O..."), "move it away");
    check_refused(keeper, FL "saveFigure", feet_text(0, "", "O..."), "has no name");
    keeper_close(keeper);
    remove(path);
    remove_home(home);
}

static void what_one_instance_saved_another_finds_when_it_is_picked(void)
{
    const char* const home = fresh_home();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    Keeper* const other = keeper_open(WORKER_THREAD);
    keeper_stop(other);
    keeper_set(keeper, FL "saveFigure", feet_text(0, "Salt Gallop", "O..o .oo. O..o .oo."));
    CHECK(keeper_await(keeper, FL "savedFigure"));
    other->controls[CONTROL_FEET] = 1000.0f;
    keeper_run(other, BLOCK);
    CHECK(keeper_rests(other));
    keeper_play(other, 1);
    CHECK_TEXT(bar_steps(other, 0, KICK), "o..o.oo.o..o.oo.");
    keeper_close(keeper);
    keeper_close(other);
    remove_home(home);
}

/* Instances of one host share a process: their locks must hold among threads. */
static void instances_that_save_at_once_lose_nothing(void)
{
    enum { INSTANCES = 4, EACH = 8 };
    const char* const home = fresh_home();
    Keeper* keepers[INSTANCES];
    int64_t sum = 0;
    for (int i = 0; i < INSTANCES; ++i) {
        keepers[i] = keeper_open(WORKER_THREAD);
        for (int figure = 0; figure < EACH; ++figure) {
            keeper_set(keepers[i], FL "saveFigure", feet_text(0, "Salt Gallop", "O..."));
        }
        keeper_run(keepers[i], 64);
    }
    for (int i = 0; i < INSTANCES; ++i) {
        for (int figure = 0; figure < EACH;) {
            keeper_run(keepers[i], 64);
            LV2_ATOM_SEQUENCE_FOREACH (&keepers[i]->notify.sequence, event) {
                const LV2_Atom* value = NULL;
                lv2_atom_object_get((const LV2_Atom_Object*)&event->body,
                                    urid(keepers[i], FL "savedFigure"), &value, 0);
                if (long_of(keepers[i], value) >= 0) {
                    sum += long_of(keepers[i], value);
                    ++figure;
                } else if (keeper_told(keepers[i], FL "refused")) {
                    CHECK_TEXT(keeper_told_text(keepers[i], FL "refused"), NULL);
                    ++figure;
                }
            }
            pause_ms(1);
        }
    }
    for (int i = 0; i < INSTANCES; ++i) {
        keeper_close(keepers[i]);
    }
    const int64_t count = INSTANCES * EACH;
    CHECK_INT(sum, count * 1000 + count * (count - 1) / 2);
    char users[BANK_FOLDER_ROOM];
    bank_users_folder(users);
    Bank* const bank = bank_open((BankSources){BUNDLE "/bank", users, NULL});
    CHECK(bank_info(bank, ENTRY_FEET, 1000 + (uint32_t)count - 1));
    bank_free(bank);
    remove_home(home);
}

/* ---- What the owner writes */

/* The file of the user's that has the words in it, "" if none has; its name is in `path`. */
static const char* file_with(const char* const words, char path[2 * BANK_FOLDER_ROOM])
{
    static char text[1 << 16];
    bool found = false;
    DIR* const directory = opendir(users_folder());
    for (struct dirent* entry; directory && !found && (entry = readdir(directory));) {
        snprintf(path, 2 * BANK_FOLDER_ROOM, "%s/%s", users_folder(), entry->d_name);
        FILE* const file = strstr(entry->d_name, ".ttl") ? fopen(path, "r") : NULL;
        const size_t size = file ? fread(text, 1, sizeof text - 1, file) : 0;
        text[size] = '\0';
        found = strstr(text, words);
        if (file) {
            fclose(file);
        }
    }
    if (directory) {
        closedir(directory);
    }
    return found ? text : "";
}

static void what_its_owner_wrote_into_a_saved_file_outlives_saving_over_it(void)
{
    static const char note[] = "\n# for the second verse\n<urn:my:note> <urn:my:says> \"more\" .\n";
    char path[2 * BANK_FOLDER_ROOM];
    const char* const home = fresh_home();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_saves(keeper, feet_text(0, "Salt Gallop", "O..o .oo. O..o .oo."), 1000);
    CHECK(*file_with("Salt Gallop", path));
    FILE* const file = fopen(path, "a");
    CHECK(file && fputs(note, file) >= 0 && fclose(file) == 0);
    char* const before = strdup(file_with("Salt Gallop", path));
    keeper_saves(keeper, feet_text(1000, "Salt Gallop", "oooo .... .... ...."), 1001);
    CHECK_TEXT(file_with("second verse", path), before);
    check_case("both can be picked");
    keeper->controls[CONTROL_FEET] = 1000.0f;
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o..o.oo.o..o.oo.");
    keeper->controls[CONTROL_FEET] = 1001.0f;
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "oooo............");
    free(before);
    keeper_close(keeper);
    remove_home(home);
}

static void write_into(const char* const name, const char* const text)
{
    char path[BANK_FOLDER_ROOM + 64];
    mkdir(users_folder(), 0700);
    snprintf(path, sizeof path, "%s/%s", users_folder(), name);
    FILE* const file = fopen(path, "w");
    CHECK(file && fputs(text, file) >= 0 && fclose(file) == 0);
}

static void the_highest_id_in_a_comment_blocks_no_saving(void)
{
    const char* const home = fresh_home();
    write_into("other.ttl", "# since 1999\n");
    write_into("mine.ttl.lock", "1999\n");
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_saves(keeper, feet_text(0, "Salt Gallop", "O..."), 1000);
    keeper_close(keeper);
    remove_home(home);
}

/* A file of people's that comes first has the id: what was saved can't be picked. */
static void what_is_saved_but_cannot_be_picked_is_told_at_once(void)
{
    const char* const home = fresh_home();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_saves(keeper, feet_text(0, "Salt Gallop", "O..o .oo. O..o .oo."), 1000);
    write_into("a-copy.ttl", feet_text(1000, "A copy", "o..."));
    check_refused(keeper, FL "saveFigure", feet_text(1000, "Salt Gallop", "oooo"),
                  "can't be picked");
    const char* const told = keeper_told_text(keeper, FL "refused");
    CHECK(told && strstr(told, "feet-1000.ttl:"));
    keeper_close(keeper);
    remove_home(home);
}

/* ---- A slow disk: fsync stands still until it is let go */

static atomic_bool disk_stands;
static atomic_int waiting; /* in fsync */

__attribute__((visibility("default"))) int fsync(const int file)
{
    static int (*next)(int);
    if (!next) {
        *(void**)&next = dlsym(RTLD_NEXT, "fsync");
    }
    atomic_fetch_add(&waiting, 1);
    while (atomic_load(&disk_stands)) {
        pause_ms(1);
    }
    atomic_fetch_sub(&waiting, 1);
    return next(file);
}

static void await_disk(void)
{
    while (!atomic_load(&waiting)) {
        pause_ms(1);
    }
}

/* The host's thread saves and restores its session while the worker waits for a disk: did
   it wait for that, this test would never end. */
static void a_session_is_saved_and_restored_while_the_disk_stands_still(void)
{
    const char* const home = fresh_home();
    const char* const folder = folder_make();
    Keeper* const keeper = keeper_open(WORKER_THREAD);
    keeper_draft(keeper, FL "feetDraft", feet_text(190, "Draft", "o..o .... .... ...."));
    atomic_store(&disk_stands, true);
    for (int i = 0; i < 4; ++i) {
        keeper_set(keeper, FL "saveFigure", feet_text(0, "Salt Gallop", "O..."));
    }
    keeper_run(keeper, 64);
    alarm(300); /* ends a test that would hang, and judges nothing */
    await_disk();
    save_session(keeper, folder);
    load_session(keeper, folder);
    save_session(keeper, folder);
    CHECK(atomic_load(&waiting));
    atomic_store(&disk_stands, false);
    alarm(0);
    check_case("and what was to be saved is");
    for (int i = 0; i < 4;) {
        CHECK(keeper_await(keeper, FL "savedFigure"));
        LV2_ATOM_SEQUENCE_FOREACH (&keeper->notify.sequence, event) {
            const LV2_Atom* value = NULL;
            lv2_atom_object_get((const LV2_Atom_Object*)&event->body,
                                urid(keeper, FL "savedFigure"), &value, 0);
            i += long_of(keeper, value) >= 0;
        }
    }
    keeper->controls[CONTROL_FEET] = 1003.0f;
    keeper_play(keeper, 1);
    CHECK_TEXT(bar_steps(keeper, 0, KICK), "o...o...o...o...");
    keeper_close(keeper);
    folder_remove(folder);
    remove_home(home);
}

int main(void)
{
    char home[512];
    snprintf(home, sizeof home, "%s", fresh_home());
    RUN(a_saved_figure_has_an_id_that_its_control_picks_at_once);
    RUN(a_saved_kit_map_is_picked_at_once);
    RUN(a_groove_is_saved_over_the_bank_and_entries_are_deleted);
    RUN(what_cannot_be_saved_is_told_with_what_to_do);
    RUN(what_one_instance_saved_another_finds_when_it_is_picked);
    RUN(instances_that_save_at_once_lose_nothing);
    RUN(what_its_owner_wrote_into_a_saved_file_outlives_saving_over_it);
    RUN(the_highest_id_in_a_comment_blocks_no_saving);
    RUN(what_is_saved_but_cannot_be_picked_is_told_at_once);
    RUN(a_session_is_saved_and_restored_while_the_disk_stands_still);
    remove_home(home);
    return tests_end();
}
