// SPDX-License-Identifier: ISC
/* A folder's name completed, as shells do it (POSIX leaves it to them; the rule of the
   longest part in common is from memory), in a home of the test's own. */
#include "../../ui/file/completion.h"

#include "../help/check.h"

#include <ftw.h>
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { ROOM = 512 };

static char home[256];
static char names[COMPLETION_NAMES_ROOM];

static void make_folder(const char* const name)
{
    char path[ROOM];
    snprintf(path, sizeof path, "%s/%s", home, name);
    CHECK_INT(mkdir(path, 0700), 0);
}

static void make_file(const char* const name)
{
    char path[ROOM];
    snprintf(path, sizeof path, "%s/%s", home, name);
    FILE* const file = fopen(path, "w");
    if (CHECK(file)) {
        fclose(file);
    }
}

static int forget(const char* const path, const struct stat* const status, const int kind,
                  struct FTW* const walk)
{
    (void)status;
    (void)kind;
    (void)walk;
    return remove(path);
}

/* What `typed` becomes, and the names that are told. */
static void completes(const char* const typed, const char* const to, const char* const told)
{
    char path[ROOM];
    check_case("%s", typed);
    snprintf(path, sizeof path, "%s", typed);
    const bool added = completion_find(path, sizeof path, names);
    CHECK_TEXT(path, to);
    CHECK_TEXT(names, told);
    CHECK_INT(added, strcmp(typed, to) != 0);
}

static void one_folder_alone_is_completed_whole(void)
{
    completes("~/Mu", "~/Music/", "");
    completes("~/Music/dr", "~/Music/drums/", "");
}

static void several_are_completed_as_far_as_they_agree_and_told_in_order(void)
{
    completes("~/D", "~/D", "Desktop  Documents  Down loads");
    completes("~/Do", "~/Do", "Documents  Down loads");
    completes("~/Music/drums/take", "~/Music/drums/take ", "take 1  take 2");
}

static void letters_are_never_cut(void)
{
    completes("~/u", "~/u", "u\xC3\xA4x  u\xC3\xB6y"); /* both begin with the byte C3 */
}

static void files_are_no_folders(void)
{
    completes("~/Music/drums/no", "~/Music/drums/no", "there is no such folder yet");
}

static void hidden_folders_only_show_where_they_are_asked_for(void)
{
    completes("~/.c", "~/.config/", "");
    completes("~/Music/", "~/Music/drums/", "");
}

static void the_home_folder_is_understood_and_stays_as_typed(void)
{
    char whole[ROOM];
    char want[ROOM];
    completes("~", "~/", "");
    snprintf(whole, sizeof whole, "%s/Mu", home);
    snprintf(want, sizeof want, "%s/Music/", home);
    completes(whole, want, "");
}

static void what_is_no_path_is_told_how_to_begin(void)
{
    completes("Mu", "Mu", "begin with / or ~/");
    completes("", "", "begin with / or ~/");
}

static void a_link_to_a_folder_is_one(void)
{
    completes("~/li", "~/link/", "");
}

static void what_has_no_room_stays_as_it_was(void)
{
    char path[8] = "~/Mus";
    CHECK_INT(completion_find(path, sizeof path, names), false);
    CHECK_TEXT(path, "~/Mus");
}

static void a_huge_folder_is_left_alone_and_said_so(void)
{
    char path[ROOM];
    make_folder("huge");
    make_folder("huge/one");
    for (int i = 0; i < COMPLETION_READ_MOST + 10; ++i) {
        snprintf(path, sizeof path, "%s/huge/%d", home, i);
        const int linked = symlink("nowhere", path);
        if (linked) {
            CHECK_INT(linked, 0);
            return;
        }
    }
    snprintf(path, sizeof path, "~/huge/zz");
    CHECK_INT(completion_find(path, sizeof path, names), false);
    CHECK_TEXT(path, "~/huge/zz");
    CHECK_TEXT(names, "too many files there to look at");
}

static void is_of(const char* const name, const char* const want)
{
    char path[ROOM];
    char whole[ROOM];
    char folder[ROOM] = "";
    check_case("%s", name);
    snprintf(path, sizeof path, "%s/%s", home, name);
    snprintf(whole, sizeof whole, "%s/%s", home, want);
    CHECK_INT(completion_folder_of(path, folder, sizeof folder), true);
    CHECK_TEXT(folder, whole);
}

static void a_files_folder_is_where_it_lies_and_a_folders_itself(void)
{
    char folder[8];
    is_of("Music/drums/notes.txt", "Music/drums/");
    is_of("Music/drums", "Music/drums/");
    is_of("Music/drums/", "Music/drums/");
    CHECK_INT(completion_folder_of("/nowhere at all", folder, sizeof folder), false);
    CHECK_INT(completion_folder_of("", folder, sizeof folder), false);
    CHECK_INT(completion_folder_of(home, folder, sizeof folder), false); /* no room */
}

static void many_are_counted(void)
{
    char name[ROOM];
    make_folder("many");
    for (int i = 0; i < 40; ++i) {
        snprintf(name, sizeof name, "many/folder %02d", i);
        make_folder(name);
    }
    completes("~/many/", "~/many/folder ",
              "folder 00  folder 01  folder 02  folder 03  folder 04  folder 05  folder 06  "
              "folder 07  folder 08  folder 09  folder 10  folder 11  and 28 more");
}

static void make_home(void)
{
    static const char* const folders[] = {"Music",      "Music/drums", "Music/drums/take 1",
                                          "Desktop",    "Documents",   "Music/drums/take 2",
                                          ".config",    "Down loads",  "Music/.hidden",
                                          "u\xC3\xA4x", "u\xC3\xB6y"};
    char target[ROOM];
    char link[ROOM];
    for (size_t i = 0; i < sizeof folders / sizeof *folders; ++i) {
        make_folder(folders[i]);
    }
    make_folder("bad \xC3");
    make_file("Music/drums/notes.txt");
    snprintf(target, sizeof target, "%s/Music", home);
    snprintf(link, sizeof link, "%s/link", home);
    CHECK_INT(symlink(target, link), 0);
}

int main(void)
{
    const char* const temporary = getenv("TMPDIR");
    snprintf(home, sizeof home, "%s/fourlimb-home-XXXXXX", temporary ? temporary : "/tmp");
    if (!mkdtemp(home) || setenv("HOME", home, 1)) {
        return 1;
    }
    make_home();
    RUN(one_folder_alone_is_completed_whole);
    RUN(several_are_completed_as_far_as_they_agree_and_told_in_order);
    RUN(letters_are_never_cut);
    RUN(files_are_no_folders);
    RUN(hidden_folders_only_show_where_they_are_asked_for);
    RUN(the_home_folder_is_understood_and_stays_as_typed);
    RUN(what_is_no_path_is_told_how_to_begin);
    RUN(a_link_to_a_folder_is_one);
    RUN(what_has_no_room_stays_as_it_was);
    RUN(a_files_folder_is_where_it_lies_and_a_folders_itself);
    RUN(many_are_counted);
    RUN(a_huge_folder_is_left_alone_and_said_so);
    nftw(home, forget, 8, FTW_DEPTH | FTW_PHYS);
    return tests_end();
}
