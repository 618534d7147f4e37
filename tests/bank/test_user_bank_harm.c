// SPDX-License-Identifier: ISC
/* test_user_bank_harm.c - nothing of the user's folder is lost, whoever else saves, where the
   disk is full or may not be written, and wherever the program is killed. */
#include "../../plugin/bank/checksum.h"
#include "../../plugin/bank/single.h"
#include "killed.h"
#include "user_bank_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>

enum { BOTH = 2, FIGURES_EACH = 20 };

/* A child that may do only so much; its exit status says how it went. */
static int in_child(void (*const limit)(const char*), const char* const folder, const uint32_t id)
{
    const pid_t child = fork();
    if (child == 0) {
        limit(folder);
        _exit(save(folder, gallop("Too much", id, "Oooo")) ? 0
              : strstr(why, "save again")                  ? 10
                                                           : 20);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : WIFSIGNALED(status) ? -WTERMSIG(status) : 99;
}

/* The signal isn't ignored: a host doesn't know of our files. */
static void small_files_only(const char* const folder)
{
    (void)folder;
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){100, 100});
}

static void as_nobody(const char* const folder)
{
    if (chmod(folder, 0555) || setgid(65534) || setuid(65534)) {
        _exit(30);
    }
}

/* The entry as it was saved last and the one before, and nothing of later attempts. */
static void check_as_before(const BankFolder* const folder)
{
    char name[64];
    snprintf(name, sizeof name, "feet-%d.ttl.bak", FIRST);
    CHECK(strstr(contents(feet_file(folder, FIRST)), "\"Two\""));
    CHECK(strstr(contents(bank_folder_file(folder, name)), "\"One\""));
    CHECK_INT(files_with(folder, "feet-"), 2);
    CHECK_INT(files_with(folder, ".part-"), 0);
}

static void save_twice(const BankFolder* const folder)
{
    save(folder->path, gallop("One", 0, "O..."));
    save(folder->path, gallop("Two", FIRST, "Oo.."));
}

/* setrlimit(2): a write beyond RLIMIT_FSIZE sends SIGXFSZ, which by default ends the
   program, and fails with EFBIG. */
static void too_large_a_file_is_told_of_and_ends_no_program(void)
{
    const BankFolder folder = bank_folder_make();
    save_twice(&folder);
    CHECK_INT(in_child(small_files_only, folder.path, FIRST), 10);
    check_as_before(&folder);
    CHECK_INT(in_child(small_files_only, folder.path, 0), 10);
    check_as_before(&folder);
    bank_folder_remove(&folder);
}

static void a_folder_without_leave_to_write_is_told_of(void)
{
    if (geteuid() != 0) {
        test_skip("only the superuser can become nobody");
        return;
    }
    const BankFolder folder = bank_folder_make();
    save_twice(&folder);
    CHECK_INT(in_child(as_nobody, folder.path, FIRST), 10);
    chmod(folder.path, 0700);
    check_as_before(&folder);
    bank_folder_remove(&folder);
}

/* mount(2): a file system of a few pages, where that is allowed. */
static void a_file_system_that_is_full_is_told_of(void)
{
    const BankFolder folder = bank_folder_make();
    if (mount("tmpfs", folder.path, "tmpfs", 0, "size=32k")) {
        test_skip("this user may not mount a small file system");
        bank_folder_remove(&folder);
        return;
    }
    uint32_t saved = 0;
    while (saved < 100 && save(folder.path, gallop("Salt Gallop", 0, "O.oo"))) {
        ++saved;
    }
    CHECK(saved > 0 && saved < 100);
    CHECK(strstr(why, "make room"));
    check_case("over an entry");
    CHECK_INT(save(folder.path, gallop("Fog Gallop", FIRST, "O.oo")), 0);
    Bank* const bank = open_own(&folder);
    CHECK_INT(entries_beginning(bank, "urn:fourlimb:mine:salt-gallop"), saved);
    bank_free(bank);
    umount(folder.path);
    bank_folder_remove(&folder);
}

/* ---- Killed */

/* What a child has been told is saved, in its order, seen by its parent. */
typedef struct {
    const char* folder;
    int told; /* a pipe to write to */
} Saver;

/* A new entry, over it, and over it with a backup there: every way there is. */
static const char* const steps[] = {"One", "One, again", "One, at last"};
enum { STEPS = sizeof steps / sizeof *steps };

static void save_all(void* const context)
{
    const Saver* const saver = (const Saver*)context;
    for (int i = 0; i < STEPS; ++i) {
        const char done =
            (char)(save(saver->folder, gallop(steps[i], i ? FIRST : 0, "O...")) == FIRST);
        if (write(saver->told, &done, 1) != 1) {
            _exit(1);
        }
    }
}

/* The step that the entry's file is at, -1 if there is none; if it is there it must be whole. */
static int step_of(const BankFolder* const folder)
{
    const char* const text = contents(feet_file(folder, FIRST));
    int found = -1;
    char reason[SINGLE_WHY_ROOM];
    Single* const single = text ? single_read("/it", text, strlen(text), reason) : NULL;
    CHECK(!text || (single && checksum_holds(text, strlen(text))));
    for (int i = 0; single && i < STEPS; ++i) {
        found = !strcmp(single->info.label, steps[i]) ? i : found;
    }
    CHECK(!single || found >= 0);
    single_free(single);
    return found;
}

/* Kills the child at an event; how many of its saves it had been told of, and all of them
   must be there. */
static Killing kill_saver(const int event, int* const told)
{
    const BankFolder folder = bank_folder_make();
    int ends[2];
    char done[STEPS];
    if (pipe(ends)) {
        exit(2);
    }
    Saver saver = {folder.path, ends[1]};
    const Killing killing = kill_at(event, save_all, &saver);
    close(ends[1]);
    *told = (int)read(ends[0], done, STEPS);
    close(ends[0]);
    for (int i = 0; i < *told; ++i) {
        CHECK(done[i]);
    }
    CHECK(step_of(&folder) >= *told - 1);
    CHECK(files_with(&folder, ".part-") <= 2);
    CHECK(save(folder.path, gallop("Afterwards", 0, "O...")));
    CHECK_INT(files_with(&folder, ".part-"), 0);
    bank_folder_remove(&folder);
    return killing;
}

static void killed_at_any_moment_nothing_saved_is_lost_and_nothing_is_left(void)
{
    int told = 0;
    int killed = 0;
    Killing killing = KILLED;
    while (killing == KILLED) {
        check_case("event %d", killed + 1);
        killing = kill_saver(killed + 1, &told);
        killed += killing == KILLED;
    }
    if (killing == NOT_TRACED) {
        test_skip("this user may not trace a child");
        return;
    }
    check_case("the last");
    CHECK_INT(told, STEPS);
    CHECK(killed > 100); /* each save opens, writes, syncs and names files */
    printf("# killed at %d events\n", killed);
}

/* ---- At once */

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
    CHECK_INT(files_with(&folder, "feet-"), BOTH * FIGURES_EACH);
    CHECK_INT(files_with(&folder, ".part-"), 0);
    for (int i = 0; i < BOTH; ++i) {
        for (int figure = 0; figure < FIGURES_EACH; ++figure) {
            char label[64];
            int found = 0;
            snprintf(label, sizeof label, "\"Figure %d of %d\"", figure, i);
            for (uint32_t id = FIRST; id < FIRST + BOTH * FIGURES_EACH; ++id) {
                const char* const text = contents(feet_file(&folder, id));
                found += text && strstr(text, label);
            }
            CHECK_INT(found, 1);
        }
    }
    bank_folder_remove(&folder);
}

/* Both may be told that it is saved; then both are there. */
static void two_programs_that_save_over_one_entry_lose_neither(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("Before", 0, "O..."));
    pid_t children[BOTH];
    for (int i = 0; i < BOTH; ++i) {
        children[i] = fork();
        if (children[i] == 0) {
            int failed = 0;
            for (int figure = 0; figure < FIGURES_EACH; ++figure) {
                failed += !save(folder.path, gallop(i ? "Mine" : "Yours", FIRST, "O.oo"));
            }
            _exit(failed);
        }
    }
    for (int i = 0; i < BOTH; ++i) {
        int status = 1;
        waitpid(children[i], &status, 0);
        CHECK_INT(status, 0);
    }
    CHECK_INT(files_with(&folder, ".part-"), 0);
    const char* const text = contents(feet_file(&folder, FIRST));
    CHECK(text && checksum_holds(text, strlen(text)));
    CHECK(text && !strstr(text, "\"Before\""));
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(too_large_a_file_is_told_of_and_ends_no_program);
    RUN(a_folder_without_leave_to_write_is_told_of);
    RUN(a_file_system_that_is_full_is_told_of);
    RUN(killed_at_any_moment_nothing_saved_is_lost_and_nothing_is_left);
    RUN(two_programs_that_save_at_once_lose_nothing);
    RUN(two_programs_that_save_over_one_entry_lose_neither);
    return tests_end();
}
