// SPDX-License-Identifier: ISC
/* test_shelf.c - figures saved into the user's file: nothing that was there is
   lost, whoever else saves, whatever stands in the file, and wherever the program
   is killed. */
#include "../../plugin/bank/shelf.h"
#include "../../plugin/bank/single.h"
#include "../help/check.h"
#include "bank_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>

enum { FILE_ROOM = 1 << 20, BOTH = 2, FIGURES_EACH = 50, KILLS = 60 };

static char why[SHELF_WHY_ROOM];

static const char* gallop(const char* const label, const uint32_t id, const char* const steps)
{
    static char text[1024];
    char number[32] = "";
    if (id) {
        snprintf(number, sizeof number, "fl:id %u ; ", id);
    }
    snprintf(text, sizeof text,
             "@prefix fl: <urn:fourlimb:terms#> .\n"
             "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
             "<urn:test:draft> a fl:FeetFigure ; %srdfs:label \"%s\" ;\n"
             "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"%s\" ] "
             ".\n",
             number, label, steps);
    return text;
}

static uint32_t save(const char* const folder, const char* const text)
{
    why[0] = '\0';
    return shelf_save(folder, text, strlen(text), 0, why);
}

static const char* contents(const char* const path)
{
    static char text[FILE_ROOM];
    FILE* const file = fopen(path, "rb");
    const size_t size = file ? fread(text, 1, sizeof text - 1, file) : 0;
    text[size] = '\0';
    if (file) {
        fclose(file);
    }
    return file ? text : NULL;
}

static Bank* open_own(const BankFolder* const folder)
{
    return bank_open(
        (BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", .users = folder->path});
}

static void remove_all(const BankFolder* const folder)
{
    remove(bank_folder_file(folder, "mine.ttl.lock"));
    bank_folder_remove(folder);
}

static void a_saved_figure_is_in_the_bank_from_10000_on(void)
{
    const BankFolder folder = bank_folder_make();
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 190, "O.oo")), 10000);
    CHECK_INT(save(folder.path, gallop("Fog Gallop", 0, "Ooo.")), 10001);
    Bank* const bank = open_own(&folder);
    CHECK_INT(bank_complaints(bank)->count, 0);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 10000);
    CHECK_TEXT(info ? info->label : NULL, "Salt Gallop");
    CHECK_TEXT(info ? info->name : NULL, "my:salt-gallop-10000");
    const Figure* const figure = library_figure(bank_library(bank), FIGURE_FEET, 10001);
    CHECK_INT(figure ? figure->stroke_count : 0, 3);
    bank_free(bank);
    remove_all(&folder);
}

static void the_folder_is_made_if_there_is_none(void)
{
    const BankFolder folder = bank_folder_make();
    char deep[1024];
    snprintf(deep, sizeof deep, "%s/share/fourlimb", folder.path);
    CHECK_INT(save(deep, gallop("Salt Gallop", 0, "O.oo")), 10000);
    char path[2048];
    static const char* const files[] = {"mine.ttl", "mine.ttl.lock"};
    for (int i = 0; i < 2; ++i) {
        snprintf(path, sizeof path, "%s/%s", deep, files[i]);
        CHECK(remove(path) == 0);
    }
    rmdir(deep);
    snprintf(path, sizeof path, "%s/share", folder.path);
    rmdir(path);
    remove_all(&folder);
}

static void saving_over_an_entry_changes_that_entry_alone(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    save(folder.path, gallop("Two", 0, "Oo.."));
    save(folder.path, gallop("Three", 0, "Ooo."));
    CHECK_INT(save(folder.path, gallop("Two, mended", 10001, "O.O.")), 10001);
    Bank* const bank = open_own(&folder);
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 10000)->label, "One");
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 10001)->label, "Two, mended");
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 10001)->name, "my:two-10001");
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 10002)->label, "Three");
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    CHECK(strstr(text, "Two, mended") < strstr(text, "Three")); /* where it stood */
    CHECK(strstr(contents(bank_folder_file(&folder, "mine.ttl.bak")), "\"Two\""));
    bank_free(bank);
    remove_all(&folder);
}

static void an_id_is_not_given_again_after_its_entry_was_deleted(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    save(folder.path, gallop("Two", 0, "Oo.."));
    remove(bank_folder_file(&folder, "mine.ttl"));
    CHECK_INT(save(folder.path, gallop("Three", 0, "Ooo.")), 10002);
    remove_all(&folder);
}

static void ids_of_other_files_and_of_the_session_are_not_given_again(void)
{
    const BankFolder folder = bank_folder_make();
    const char* const other = gallop("By hand", 10411, "O...");
    bank_folder_write(&folder, "other.ttl", other, strlen(other));
    CHECK_INT(save(folder.path, gallop("Mine", 0, "O...")), 10412);
    CHECK_INT(save(folder.path, gallop("Over theirs", 10411, "Oo..")), 0);
    CHECK(strstr(why, "10411"));
    const char* const text = gallop("After the session's", 0, "O...");
    CHECK_INT(shelf_save(folder.path, text, strlen(text), 10500, why), 10500);
    remove_all(&folder);
}

static const char by_hand[] =
    "# My own, by hand: \xE2\x99\xA5\n"
    "@prefix fl: <urn:fourlimb:terms#> .\n"
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
    "@prefix my: <urn:else:where:> .\n"
    "\n"
    "my:good a fl:FeetFigure ; fl:id 10007 ; rdfs:label \"Good. And more\" ; # mine.\n"
    "    fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] .\n"
    "\n"
    "# This one is broken:\n"
    "my:bad a fl:FeetFigure ; fl:id 10009 ; rdfs:label \"Bad ;\n"
    "    fl:line [ fl:steps \"O.\n"
    "\n"
    "my:new-words a fl:Wheel ; fl:spokes 12 .\n"
    "my:wrong a fl:FeetFigure ; fl:id 10008 ; rdfs:label \"Wrong\" ; fl:line [ fl:grid 99 ] .\n"
    "# the end, without a line's end";

static void what_people_wrote_stays_byte_for_byte(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", by_hand, sizeof by_hand - 1);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 10010);
    CHECK_TEXT(why, "");
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    CHECK(text && !strncmp(text, by_hand, sizeof by_hand - 1));
    Bank* const bank = open_own(&folder);
    CHECK(bank_info(bank, ENTRY_FEET, 10007));
    CHECK(bank_info(bank, ENTRY_FEET, 10010));
    bank_free(bank);
    remove_all(&folder);
}

/* All of the file but the sentence itself. */
static void replacing_an_entry_of_a_file_by_hand_leaves_the_rest(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", by_hand, sizeof by_hand - 1);
    CHECK_INT(save(folder.path, gallop("Better", 10007, "O.oo")), 10007);
    CHECK_TEXT(why, "");
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    const char* const before = strstr(by_hand, "my:good");
    const char* const after = strstr(by_hand, "\n# This one is broken");
    CHECK(text && !strncmp(text, by_hand, (size_t)(before - by_hand)));
    CHECK(text && strstr(text, after));
    CHECK(text && !strstr(text, "Good. And more"));
    Bank* const bank = open_own(&folder);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 10007);
    CHECK_TEXT(info ? info->label : NULL, "Better");
    CHECK_TEXT(info ? info->uri : NULL, "urn:else:where:good");
    bank_free(bank);
    remove_all(&folder);
}

static void a_file_of_garbage_is_kept_before_the_entry(void)
{
    static const char garbage[] = "\x00\xFF\xFE not Turtle \"\"\" at all <<<< [ [ [";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", garbage, sizeof garbage - 1);
    const uint32_t id = save(folder.path, gallop("Salt Gallop", 0, "O.oo"));
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "mine.ttl"));
    const char* const text = contents(path);
    CHECK(!memcmp(text, garbage, sizeof garbage - 1));
    CHECK(id == 10000 || strstr(why, "mend it"));
    remove_all(&folder);
}

/* A mark for bytes of UTF-8 and Windows' line ends. */
static void windows_lines_and_marks_stay(void)
{
    static const char windows[] = "\xEF\xBB\xBF@prefix fl: <urn:fourlimb:terms#> .\r\n# mine\r\n";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", windows, sizeof windows - 1);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 10000);
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    CHECK(!strncmp(text, windows, sizeof windows - 1));
    remove_all(&folder);
}

static void a_link_to_a_file_elsewhere_stays_a_link(void)
{
    const BankFolder folder = bank_folder_make();
    const BankFolder elsewhere = bank_folder_make();
    char target[PATH_ROOM];
    snprintf(target, sizeof target, "%s", bank_folder_file(&elsewhere, "kept.ttl"));
    bank_folder_write(&elsewhere, "kept.ttl", by_hand, sizeof by_hand - 1);
    CHECK(symlink(target, bank_folder_file(&folder, "mine.ttl")) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 10010);
    struct stat kind;
    CHECK(lstat(bank_folder_file(&folder, "mine.ttl"), &kind) == 0 && S_ISLNK(kind.st_mode));
    CHECK(strstr(contents(target), "Salt Gallop"));
    remove_all(&elsewhere);
    remove_all(&folder);
}

static void kit_maps_are_saved_in_the_same_manner(void)
{
    Bank* const factory =
        bank_open((BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"});
    const BankFolder folder = bank_folder_make();
    char text[8192] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                      "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                      "<urn:test:kit> a fl:Kit ; rdfs:label \"Attic\" ; fl:key ";
    static const char* const voices[VOICE_COUNT] = {
        "kick",     "kickLeft", "snare",    "sideStick", "hatClosed", "hatHalfOpen", "hatOpen",
        "hatPedal", "ride",     "rideBell", "crash",     "crash2",    "china",       "splash",
        "tomHigh",  "tomMid",   "tomLow",   "tomFloor",  "cowbell",   "click",       "clickAccent"};
    for (int i = 0; i < VOICE_COUNT; ++i) {
        const size_t at = strlen(text);
        snprintf(text + at, sizeof text - at, "%s[ fl:voice fl:%s ; fl:note %d ]", i ? ", " : "",
                 voices[i], 20 + i);
    }
    strcat(text, " .\n");
    CHECK_INT(save(folder.path, text), 10000);
    CHECK_TEXT(why, "");
    Bank* const bank = open_own(&folder);
    const Kit* const kit = library_kit(bank_library(bank), 10000);
    CHECK(kit && kit->notes[VOICE_CLICK_ACCENT] == 20 + VOICE_COUNT - 1);
    bank_free(bank);
    bank_free(factory);
    remove_all(&folder);
}

static void refusals_say_what_to_do(void)
{
    const BankFolder folder = bank_folder_make();
    char path[2048];
    CHECK_INT(save(NULL, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "set HOME"));
    CHECK_INT(save(folder.path, gallop("", 0, "O.oo")), 0);
    CHECK(strstr(why, "give it one"));
    CHECK_INT(save(folder.path, gallop("Wrong", 0, "O.xx")), 0);
    CHECK(strstr(why, "is not a step"));
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "a-file"));
    bank_folder_write(&folder, "a-file", "", 0);
    CHECK_INT(save(path, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "move it away"));
    strcat(path, "/fourlimb");
    CHECK_INT(save(path, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "make this folder"));
    CHECK(mkdir(bank_folder_file(&folder, "mine.ttl"), 0700) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "can't be read"));
    CHECK(rmdir(bank_folder_file(&folder, "mine.ttl")) == 0);
    remove_all(&folder);
}

static void when_all_ids_are_taken_it_says_so(void)
{
    const BankFolder folder = bank_folder_make();
    CHECK_INT(save(folder.path, gallop("Last", 19999, "O...")), 19999);
    CHECK_INT(save(folder.path, gallop("One more", 0, "O...")), 0);
    CHECK(strstr(why, "19999 are taken"));
    remove_all(&folder);
}

/* A child that may do only so much; its exit status says how it went. */
static int in_child(void (*const limit)(const char*), const char* const folder)
{
    const pid_t child = fork();
    if (child == 0) {
        limit(folder);
        _exit(save(folder, gallop("Too much", 0, "Oooo")) ? 0
              : strstr(why, "save again")                 ? 10
                                                          : 20);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void small_files_only(const char* const folder)
{
    (void)folder;
    signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){100, 100});
}

static void as_nobody(const char* const folder)
{
    if (chmod(folder, 0555) || setgid(65534) || setuid(65534)) {
        _exit(30);
    }
}

static void check_no_litter(const BankFolder* const folder)
{
    int files = 0;
    DIR* const directory = opendir(folder->path);
    for (struct dirent* entry; (entry = readdir(directory));) {
        files += entry->d_name[0] != '.';
    }
    closedir(directory);
    CHECK(files <= 3); /* mine.ttl, its lock, a backup */
}

static void check_one_is_there(const BankFolder* const folder, const char* const before)
{
    CHECK_TEXT(contents(bank_folder_file(folder, "mine.ttl")), before);
    check_no_litter(folder);
}

/* setrlimit(2): a write beyond RLIMIT_FSIZE fails with EFBIG. */
static void a_full_disk_leaves_the_file_as_it_was(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    char* const before = strdup(contents(bank_folder_file(&folder, "mine.ttl")));
    CHECK_INT(in_child(small_files_only, folder.path), 10);
    check_one_is_there(&folder, before);
    free(before);
    remove_all(&folder);
}

static void a_folder_without_leave_to_write_is_told_of(void)
{
    if (geteuid() != 0) {
        test_skip("only the superuser can become nobody");
        return;
    }
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    chmod(bank_folder_file(&folder, "mine.ttl.lock"), 0666);
    char* const before = strdup(contents(bank_folder_file(&folder, "mine.ttl")));
    CHECK_INT(in_child(as_nobody, folder.path), 10);
    chmod(folder.path, 0700);
    check_one_is_there(&folder, before);
    free(before);
    remove_all(&folder);
}

/* mount(2): a file system of a page or two, where that is allowed. */
static void a_file_system_that_is_full_is_told_of(void)
{
    const BankFolder folder = bank_folder_make();
    if (mount("tmpfs", folder.path, "tmpfs", 0, "size=8k")) {
        test_skip("this user may not mount a small file system");
        remove_all(&folder);
        return;
    }
    int saved = 0;
    while (saved < 100 && save(folder.path, gallop("Salt Gallop", 0, "O.oo"))) {
        ++saved;
    }
    CHECK(saved < 100);
    CHECK(strstr(why, "make room"));
    Bank* const bank = open_own(&folder);
    CHECK_INT(entries_beginning(bank, "urn:fourlimb:mine:"), saved);
    bank_free(bank);
    umount(folder.path);
    remove_all(&folder);
}

/* setrlimit(2): where SIGXFSZ isn't handled, a write up to the limit succeeds and
   the next one kills. */
static void killed_at_any_byte_of_its_writing_the_file_is_whole(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("First", 0, "O..."));
    char* const before = strdup(contents(bank_folder_file(&folder, "mine.ttl")));
    int killed = 0;
    bool was_killed = true;
    for (rlim_t bytes = 6; was_killed; bytes += 29) {
        const pid_t child = fork();
        if (child == 0) {
            setrlimit(RLIMIT_FSIZE, &(struct rlimit){bytes, bytes});
            save(folder.path, gallop("Too much", 0, "Oooo"));
            _exit(0);
        }
        int status = 0;
        waitpid(child, &status, 0);
        was_killed = WIFSIGNALED(status) && WTERMSIG(status) == SIGXFSZ;
        killed += was_killed;
        check_case("killed at byte %u", (unsigned)bytes);
        if (was_killed) {
            CHECK_TEXT(contents(bank_folder_file(&folder, "mine.ttl")), before);
        }
    }
    check_case("afterwards");
    CHECK(killed > 10);
    CHECK_INT(save(folder.path, gallop("Last", 0, "O...")), 10002);
    check_no_litter(&folder);
    free(before);
    remove_all(&folder);
}

/* A child saves on and on and is killed at many moments: between its calls to the
   kernel too. */
static void killed_at_any_moment_the_file_is_whole(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("First", 0, "O..."));
    uint32_t most = 1;
    for (int i = 0; i < KILLS; ++i) {
        const pid_t child = fork();
        if (child == 0) {
            for (;;) {
                save(folder.path, gallop("More", 0, "Oooo"));
            }
        }
        nanosleep(&(struct timespec){0, 1000000 + i * 331000 % 9000000}, NULL);
        kill(child, SIGKILL);
        waitpid(child, NULL, 0);
        Bank* const bank = open_own(&folder);
        const uint32_t count = entries_beginning(bank, "urn:fourlimb:mine:");
        check_case("kill %d", i);
        CHECK_INT(bank_complaints(bank)->count, 0);
        CHECK(count >= most);
        most = count;
        bank_free(bank);
    }
    check_case("afterwards");
    CHECK(most > KILLS / 4);
    CHECK(save(folder.path, gallop("Last", 0, "O..."))); /* no lock was left */
    check_no_litter(&folder);
    remove_all(&folder);
}

static void two_programs_that_save_at_once_lose_nothing(void)
{
    const BankFolder folder = bank_folder_make();
    pid_t children[BOTH];
    for (int i = 0; i < BOTH; ++i) {
        children[i] = fork();
        if (children[i] == 0) {
            int failed = 0;
            for (int figure = 0; figure < FIGURES_EACH; ++figure) {
                char label[32];
                snprintf(label, sizeof label, "Figure %d of %d", figure, i);
                failed += !save(folder.path, gallop(label, 0, "O.oo"));
            }
            _exit(failed);
        }
    }
    for (int i = 0; i < BOTH; ++i) {
        int status = 1;
        waitpid(children[i], &status, 0);
        CHECK_INT(status, 0);
    }
    Bank* const bank = open_own(&folder);
    CHECK_INT(bank_complaints(bank)->count, 0);
    CHECK_INT(entries_beginning(bank, "urn:fourlimb:mine:"), BOTH * FIGURES_EACH);
    for (uint32_t id = 10000; id < 10000 + BOTH * FIGURES_EACH; ++id) {
        CHECK(bank_info(bank, ENTRY_FEET, id));
    }
    bank_free(bank);
    remove_all(&folder);
}

int main(void)
{
    RUN(a_saved_figure_is_in_the_bank_from_10000_on);
    RUN(the_folder_is_made_if_there_is_none);
    RUN(saving_over_an_entry_changes_that_entry_alone);
    RUN(an_id_is_not_given_again_after_its_entry_was_deleted);
    RUN(ids_of_other_files_and_of_the_session_are_not_given_again);
    RUN(what_people_wrote_stays_byte_for_byte);
    RUN(replacing_an_entry_of_a_file_by_hand_leaves_the_rest);
    RUN(a_file_of_garbage_is_kept_before_the_entry);
    RUN(windows_lines_and_marks_stay);
    RUN(a_link_to_a_file_elsewhere_stays_a_link);
    RUN(kit_maps_are_saved_in_the_same_manner);
    RUN(refusals_say_what_to_do);
    RUN(when_all_ids_are_taken_it_says_so);
    RUN(a_full_disk_leaves_the_file_as_it_was);
    RUN(a_folder_without_leave_to_write_is_told_of);
    RUN(a_file_system_that_is_full_is_told_of);
    RUN(killed_at_any_byte_of_its_writing_the_file_is_whole);
    RUN(killed_at_any_moment_the_file_is_whole);
    RUN(two_programs_that_save_at_once_lose_nothing);
    return tests_end();
}
