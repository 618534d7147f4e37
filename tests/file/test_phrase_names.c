// SPDX-License-Identifier: ISC
/* test_phrase_names.c - what the phrase's file is called and where it goes: never over an
   older file, whole or not at all, in any script. */
#include "music.h"

#include <signal.h>
#include <sys/resource.h>

static char why[PHRASE_WHY_ROOM];
static char path[PHRASE_PATH_ROOM];

static bool write_named(const char* const name, const bool straight)
{
    Bank* const bank = bank_open_bundle(FOURLIMB_BUILD "/lv2/fourlimb.lv2", "");
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    const Settings settings = settings_from_controls(values);
    const Phrase phrase = {bank_library(bank), &settings, {4.0, 4}, 120.0, 2, name, straight, NULL};
    path[0] = why[0] = '\0';
    const bool good = phrase_file(&phrase, path, why);
    bank_free(bank);
    return good;
}

static void an_older_file_is_never_written_over(void)
{
    mkdir(bench_path("Music"), 0755);
    bench_write("Music/Upper Station.mid", "an older one");
    CHECK(write_named("Upper Station", false));
    CHECK_TEXT(path, bench_path("Music/Upper Station 2.mid"));
    CHECK(write_named("Upper Station", false));
    CHECK_TEXT(path, bench_path("Music/Upper Station 3.mid"));
    CHECK_TEXT(bench_read("Music/Upper Station.mid"), "an older one");
    check_case("a link to nothing is a file, too");
    CHECK_INT(symlink("/nowhere", bench_path("Music/Upper Station 4.mid")), 0);
    CHECK(write_named("Upper Station", false));
    CHECK_TEXT(path, bench_path("Music/Upper Station 5.mid"));
    check_case("straight has names of its own");
    CHECK(write_named("Upper Station", true));
    CHECK_TEXT(path, bench_path("Music/Upper Station, straight.mid"));
    CHECK(write_named("Upper Station", true));
    CHECK_TEXT(path, bench_path("Music/Upper Station, straight 2.mid"));
    empty_music_folder();
}

static void names_stay_in_the_folder_and_in_sight(void)
{
    static const struct {
        const char* name;
        const char* file;
    } names[] = {
        {"6/8, slow", "Music/6-8, slow.mid"}, {"../../up", "Music/-.-..-up.mid"},
        {".hidden", "Music/-hidden.mid"},     {"Соляная лестница", "Music/Соляная лестница.mid"},
        {"塩の駅", "Music/塩の駅.mid"},       {"Tab\tand\nline", "Music/Tab-and-line.mid"},
        {"", "Music/Fourlimb.mid"},
    };
    for (size_t i = 0; i < sizeof names / sizeof *names; ++i) {
        check_case("\"%s\"", names[i].name);
        CHECK(write_named(names[i].name, false));
        CHECK_TEXT(path, bench_path(names[i].file));
        CHECK(!strncmp(path, bench_path("Music/"), strlen(bench_path("Music/"))));
        CHECK(!strchr(path + strlen(bench_path("Music/")), '/'));
    }
    CHECK_INT(files_in("Music"), sizeof names / sizeof *names);
    empty_music_folder();
}

/* NAME_MAX of Linux is 255 bytes; a letter of three must not be cut. */
static void a_very_long_name_is_cut_between_letters(void)
{
    char name[1024] = "";
    for (int i = 0; i < 150; ++i) {
        strcat(name, "塩");
    }
    for (int straight = 0; straight < 2; ++straight) {
        CHECK(write_named(name, straight));
        CHECK(g_utf8_validate(path, -1, NULL));
        CHECK(!access(path, F_OK));
    }
    empty_music_folder();
}

/* ---- Where it can't be */

/* The first test: GLib keeps a folder that was named once. */
static void without_a_music_folder_it_goes_into_the_home_folder(void)
{
    CHECK(write_named("At home", false));
    CHECK_TEXT(path, bench_path("At home.mid"));
    CHECK(is_there("At home.mid"));
    remove(path);
}

static void a_music_folder_that_is_not_there_is_told_of(void)
{
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Gone\"\n");
    CHECK(!write_named("Nowhere", false));
    CHECK(strstr(why, "there is no such folder"));
    CHECK(strstr(why, "Gone"));
    CHECK(!is_there("Gone"));
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Music\"\n");
}

static void a_folder_that_may_not_be_written_is_told_of(void)
{
    const bool is_root = geteuid() == 0;
    chmod(bench_home(), 0755);
    chmod(bench_path("Music"), 0555);
    if (is_root && seteuid(65534)) {
        test_skip("the superuser can't become nobody here");
    } else {
        CHECK(!write_named("Never", false));
        if (is_root && seteuid(0)) {
            exit(2);
        }
        CHECK(strstr(why, "allow writing"));
        CHECK(strstr(why, "Never.mid"));
    }
    chmod(bench_path("Music"), 0755);
    CHECK_INT(files_in("Music"), 0);
}

/* setrlimit(2): a write beyond RLIMIT_FSIZE fails with EFBIG where SIGXFSZ is ignored. */
static void a_full_disk_leaves_nothing_behind(void)
{
    struct rlimit before;
    getrlimit(RLIMIT_FSIZE, &before);
    signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){100, before.rlim_max});
    CHECK(!write_named("Too much", false));
    setrlimit(RLIMIT_FSIZE, &before);
    CHECK(strstr(why, "make room"));
    CHECK_INT(files_in("Music"), 0);
    CHECK(write_named("Too much", false));
    CHECK_INT(files_in("Music"), 1);
    empty_music_folder();
}

int main(void)
{
    bench_move_in();
    RUN(without_a_music_folder_it_goes_into_the_home_folder);
    mkdir(bench_path("Music"), 0755);
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Music\"\n");
    RUN(an_older_file_is_never_written_over);
    RUN(names_stay_in_the_folder_and_in_sight);
    RUN(a_very_long_name_is_cut_between_letters);
    RUN(a_music_folder_that_is_not_there_is_told_of);
    RUN(a_folder_that_may_not_be_written_is_told_of);
    RUN(a_full_disk_leaves_nothing_behind);
    bench_move_out();
    return tests_end();
}
