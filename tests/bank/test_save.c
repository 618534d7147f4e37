// SPDX-License-Identifier: ISC
/* test_save.c - files appear whole or not at all; what killed programs left is swept, and
   nothing else; an older one is replaced only where it is what was expected. */
#include "../../plugin/bank/save.h"
#include "../help/check.h"
#include "bank_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/wait.h>

static char why[SAVE_WHY_ROOM];

/* ---- link(2): EPERM is "the filesystem does not support the creation of hard links" */

static bool no_links;

int link(const char* const from, const char* const to)
{
    if (no_links) {
        errno = EPERM;
        return -1;
    }
    return linkat(AT_FDCWD, from, AT_FDCWD, to, 0);
}

static bool holds(const BankFolder* const folder, const char* const name, const char* const text)
{
    char got[256] = "";
    FILE* const file = fopen(bank_folder_file(folder, name), "rb");
    const size_t size = file ? fread(got, 1, sizeof got - 1, file) : 0;
    got[size] = '\0';
    if (file) {
        fclose(file);
    }
    return CHECK_TEXT(file ? got : NULL, text);
}

static bool is_there(const BankFolder* const folder, const char* const name)
{
    struct stat status;
    return lstat(bank_folder_file(folder, name), &status) == 0;
}

static void what_a_killed_program_left_is_swept_and_nothing_else(void)
{
    static const char* const left[] = {"a.mid.part-123-0", "a.mid.part-99999-12"};
    static const char* const kept[] = {
        "b.mid.part-123-0", "a.mid.part-123",  "a.mid.part-", "a.mid.part-12-3.txt",
        "a.mid.part-one-0", "a.mid.part-123-", "a.midi",      "A.mid.part-123-0",
        "a.mid.part--1-0",  "xa.mid.part-1-0", "part-123-0",  "a.mid.part-1-0-part-"};
    const BankFolder folder = bank_folder_make();
    for (size_t i = 0; i < sizeof left / sizeof *left; ++i) {
        bank_folder_write(&folder, left[i], "half", 4);
    }
    for (size_t i = 0; i < sizeof kept / sizeof *kept; ++i) {
        bank_folder_write(&folder, kept[i], "mine", 4);
    }
    CHECK(symlink("a.midi", bank_folder_file(&folder, "a.mid.part-5-0")) == 0);
    CHECK(mkdir(bank_folder_file(&folder, "a.mid.part-6-0"), 0700) == 0);
    CHECK(save_file(bank_folder_file(&folder, "a.mid"), "new", 3, false, why));
    for (size_t i = 0; i < sizeof left / sizeof *left; ++i) {
        check_case("%s", left[i]);
        CHECK(!is_there(&folder, left[i]));
    }
    for (size_t i = 0; i < sizeof kept / sizeof *kept; ++i) {
        check_case("%s", kept[i]);
        holds(&folder, kept[i], "mine");
    }
    check_case("what is no file");
    CHECK(is_there(&folder, "a.mid.part-5-0"));
    CHECK(is_there(&folder, "a.mid.part-6-0"));
    holds(&folder, "a.mid", "new");
    rmdir(bank_folder_file(&folder, "a.mid.part-6-0"));
    bank_folder_remove(&folder);
}

static bool save_within(const int file, void* const context)
{
    const BankFolder* const folder = (const BankFolder*)context;
    CHECK(save_file(bank_folder_file(folder, "song.wav"), "inner", 5, true, why));
    return write(file, "outer", 5) == 5;
}

/* The outer is still being written while the inner sweeps. */
static void what_is_still_being_written_is_not_swept(void)
{
    BankFolder folder = bank_folder_make();
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "song.wav"));
    CHECK(save_by(path, save_within, &folder, true, why));
    holds(&folder, "song.wav", "outer");
    bank_folder_remove(&folder);
}

/* The phrase that a killed host was writing, where the next has another name. */
static void what_was_left_is_swept_also_where_the_name_is_taken(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "a.mid", "old", 3);
    bank_folder_write(&folder, "a.mid.part-123-0", "half", 4);
    CHECK(!save_file(bank_folder_file(&folder, "a.mid"), "new", 3, false, why));
    CHECK(!is_there(&folder, "a.mid.part-123-0"));
    CHECK(strstr(why, "a.mid is there already; choose another name"));
    CHECK(!strstr(why, "--")); /* the window has no options */
    holds(&folder, "a.mid", "old");
    bank_folder_remove(&folder);
}

static void an_older_text_is_replaced_and_kept_as_a_backup(void)
{
    const BankFolder folder = bank_folder_make();
    char path[PATH_ROOM], backup[PATH_ROOM];
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "a"));
    snprintf(backup, sizeof backup, "%s", bank_folder_file(&folder, "a.bak"));
    bank_folder_write(&folder, "a", "one", 3);
    CHECK_INT(save_swap(path, (SaveText){"one", 3}, backup, (SaveText){"two", 3}, why), SAVE_DONE);
    holds(&folder, "a", "two");
    holds(&folder, "a.bak", "one");
    check_case("not in place of another text");
    bank_folder_write(&folder, "a", "by hand", 7);
    CHECK_INT(save_swap(path, (SaveText){"two", 3}, backup, (SaveText){"three", 5}, why),
              SAVE_CHANGED);
    holds(&folder, "a", "by hand");
    holds(&folder, "a.bak", "one");
    check_case("nor while somebody else replaces it");
    const int file = open(path, O_RDWR);
    CHECK(flock(file, LOCK_EX) == 0);
    CHECK_INT(save_swap(path, (SaveText){"by hand", 7}, backup, (SaveText){"three", 5}, why),
              SAVE_CHANGED);
    close(file);
    holds(&folder, "a", "by hand");
    check_case("nor where it is gone");
    remove(path);
    CHECK_INT(save_swap(path, (SaveText){"by hand", 7}, backup, (SaveText){"three", 5}, why),
              SAVE_CHANGED);
    CHECK(!is_there(&folder, "a"));
    holds(&folder, "a.bak", "one");
    bank_folder_remove(&folder);
}

static void a_name_is_taken_once(void)
{
    const BankFolder folder = bank_folder_make();
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "a"));
    CHECK_INT(save_new(path, (SaveText){"one", 3}, why), SAVE_DONE);
    CHECK_INT(save_new(path, (SaveText){"two", 3}, why), SAVE_TAKEN);
    holds(&folder, "a", "one");
    snprintf(path, sizeof path, "%s/none/a", folder.path);
    CHECK_INT(save_new(path, (SaveText){"two", 3}, why), SAVE_FAILED);
    bank_folder_remove(&folder);
}

static void where_links_cannot_be_had_it_is_the_same(void)
{
    no_links = true;
    an_older_text_is_replaced_and_kept_as_a_backup();
    a_name_is_taken_once();
    what_a_killed_program_left_is_swept_and_nothing_else();
    no_links = false;
}

/* ---- setrlimit(2): a write beyond RLIMIT_FSIZE sends SIGXFSZ and fails with EFBIG. */

static volatile sig_atomic_t size_signals;

static void count_signal(const int signal)
{
    (void)signal;
    size_signals = size_signals + 1;
}

static void with_limit(const BankFolder* const folder, void (*const handler)(int))
{
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s", bank_folder_file(folder, "a"));
    signal(SIGXFSZ, handler);
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){2, RLIM_INFINITY});
    const bool saved = save_file(path, "three", 5, true, why);
    const bool added = save_append(path, (SaveText){"three", 5});
    const bool told = strstr(why, "make room") && strstr(why, "ulimit -f");
    sigset_t blocked;
    pthread_sigmask(SIG_SETMASK, NULL, &blocked);
    struct sigaction now;
    sigaction(SIGXFSZ, NULL, &now);
    _exit(saved || added || !told || size_signals || sigismember(&blocked, SIGXFSZ) ||
          now.sa_handler != handler);
}

static void too_large_a_file_raises_no_signal_in_the_program(void)
{
    static void (*const handlers[])(int) = {SIG_DFL, SIG_IGN, count_signal};
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "a", "1", 1);
    for (int i = 0; i < 3; ++i) {
        int status = 0;
        check_case("handler %d", i);
        const pid_t child = fork();
        if (child == 0) {
            with_limit(&folder, handlers[i]);
        }
        waitpid(child, &status, 0);
        CHECK(WIFEXITED(status));
        CHECK_INT(WEXITSTATUS(status), 0);
    }
    bank_folder_remove(&folder);
}

/* One that was on its way to the program before is the program's. */
static void a_signal_of_the_programs_own_stays(void)
{
    const BankFolder folder = bank_folder_make();
    const pid_t child = fork();
    if (child == 0) {
        sigset_t size, pending;
        sigemptyset(&size);
        sigaddset(&size, SIGXFSZ);
        pthread_sigmask(SIG_BLOCK, &size, NULL);
        raise(SIGXFSZ);
        const bool saved = save_file(bank_folder_file(&folder, "a"), "three", 5, true, why);
        sigpending(&pending);
        _exit(!saved || !sigismember(&pending, SIGXFSZ));
    }
    int status = 1;
    waitpid(child, &status, 0);
    CHECK_INT(status, 0);
    bank_folder_remove(&folder);
}

static void nothing_is_added_through_a_link_or_to_what_is_no_file(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "letter", "Dear all", 8);
    CHECK(symlink("letter", bank_folder_file(&folder, "link")) == 0);
    CHECK(mkfifo(bank_folder_file(&folder, "pipe"), 0600) == 0);
    CHECK(!save_append(bank_folder_file(&folder, "link"), (SaveText){"more", 4}));
    CHECK(!save_append(bank_folder_file(&folder, "pipe"), (SaveText){"more", 4}));
    CHECK(!save_append(folder.path, (SaveText){"more", 4}));
    holds(&folder, "letter", "Dear all");
    CHECK(save_append(bank_folder_file(&folder, "letter"), (SaveText){", good bye", 10}));
    holds(&folder, "letter", "Dear all, good bye");
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(what_a_killed_program_left_is_swept_and_nothing_else);
    RUN(what_is_still_being_written_is_not_swept);
    RUN(what_was_left_is_swept_also_where_the_name_is_taken);
    RUN(an_older_text_is_replaced_and_kept_as_a_backup);
    RUN(a_name_is_taken_once);
    RUN(where_links_cannot_be_had_it_is_the_same);
    RUN(too_large_a_file_raises_no_signal_in_the_program);
    RUN(a_signal_of_the_programs_own_stays);
    RUN(nothing_is_added_through_a_link_or_to_what_is_no_file);
    return tests_end();
}
