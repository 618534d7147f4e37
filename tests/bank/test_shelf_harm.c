// SPDX-License-Identifier: ISC
/* test_shelf_harm.c - nothing of the user's file is lost, whoever else saves, where
   the disk is full or may not be written, and wherever the program is killed. */
#include "shelf_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>

enum { BOTH = 2, FIGURES_EACH = 50, KILLS = 60 };

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
    CHECK_INT(save(folder.path, gallop("Last", 0, "O...")), 1002);
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
                char label[64];
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
    for (uint32_t id = 1000; id < 1000 + BOTH * FIGURES_EACH; ++id) {
        CHECK(bank_info(bank, ENTRY_FEET, id));
    }
    bank_free(bank);
    remove_all(&folder);
}

int main(void)
{
    RUN(a_full_disk_leaves_the_file_as_it_was);
    RUN(a_folder_without_leave_to_write_is_told_of);
    RUN(a_file_system_that_is_full_is_told_of);
    RUN(killed_at_any_byte_of_its_writing_the_file_is_whole);
    RUN(killed_at_any_moment_the_file_is_whole);
    RUN(two_programs_that_save_at_once_lose_nothing);
    return tests_end();
}
