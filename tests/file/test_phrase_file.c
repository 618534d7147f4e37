// SPDX-License-Identifier: ISC
/* test_phrase_file.c - one key writes the phrase as a MIDI file: note for note what
   `fourlimb render` writes for the same settings, as midicsv (Walker's reader of Standard
   MIDI Files, none of ours) reads both; never over an older file, whole or not at all. */
#include "../../ui/file/phrase_file.h"
#include "../desk/bench.h"

#include <dirent.h>
#include <glib.h>
#include <signal.h>
#include <sys/resource.h>

enum { LINES_MAX = 20000, LINE_ROOM = 64 };

typedef struct {
    int count;
    char lines[LINES_MAX][LINE_ROOM]; /* tick, message, channel, key, velocity */
} Listing;

static int by_text(const void* const a, const void* const b)
{
    return strcmp((const char*)a, (const char*)b);
}

/* The notes that midicsv finds, whatever track they are on. */
static void list_notes(const char* const path, Listing* const listing)
{
    char command[2048];
    char line[256];
    snprintf(command, sizeof command, "midicsv '%s'", path);
    FILE* const csv = popen(command, "r");
    listing->count = 0;
    while (csv && fgets(line, sizeof line, csv)) {
        const char* const rest = strchr(line, ',');
        if (strstr(line, "Note_o") && rest && listing->count < LINES_MAX) {
            snprintf(listing->lines[listing->count++], LINE_ROOM, "%.60s", rest + 1);
        }
    }
    CHECK(csv && pclose(csv) == 0);
    qsort(listing->lines, (size_t)listing->count, LINE_ROOM, by_text);
}

static bool has_reader(void)
{
    const bool has = !system("command -v midicsv >/dev/null 2>&1");
    if (!has) {
        test_skip("midicsv is not installed");
    }
    return has;
}

/* ---- The music folder */

static void name_music_folder(const char* const line)
{
    bench_write("user-dirs.dirs", line);
    g_reload_user_special_dirs_cache();
}

static int files_in(const char* const folder)
{
    int files = 0;
    DIR* const directory = opendir(bench_path(folder));
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        files += entry->d_name[0] != '.';
    }
    if (directory) {
        closedir(directory);
    }
    return files;
}

static bool is_there(const char* const name)
{
    return !access(bench_path(name), F_OK);
}

static void empty_music_folder(void)
{
    char command[2048];
    snprintf(command, sizeof command, "chmod u+w '%s/Music'; rm -rf '%s/Music'/*", bench_home(),
             bench_home());
    CHECK_INT(system(command), 0);
}

/* ---- Compared with a render */

typedef struct {
    Control control;
    double value;
} Asked;

enum { ASKED_MAX = 6 };

/* Settings beside the bench's, which are as the command line must be told. */
typedef struct {
    const char* name;
    const char* file;
    int bars; /* of the phrase */
    Asked asked[ASKED_MAX];
} Case;

static const Case cases[] = {
    {"the bench's groove", "Bench.mid", 4, {{CONTROL_GROOVE, GROOVE}}},
    {"the first groove with its feel",
     "Lower Station.mid",
     8,
     {{CONTROL_GROOVE, 1}, {CONTROL_LOOSENESS, 14}, {CONTROL_TOUCH, 50}, {CONTROL_TAKE, 7}}},
    {"threes rolling over six bars",
     "Bench.mid",
     6,
     {{CONTROL_GROOVE, GROOVE},
      {CONTROL_FEET, THREE},
      {CONTROL_PHRASE_BARS, 6},
      {CONTROL_REALIGN, 0},
      {CONTROL_LOOSENESS, 30}}},
    {"swung, with a click and another channel",
     "Bench.mid",
     4,
     {{CONTROL_GROOVE, GROOVE},
      {CONTROL_SWING_RATIO, 2},
      {CONTROL_CLICK, 2},
      {CONTROL_CHANNEL, 3},
      {CONTROL_PUSH_SNARE, 12},
      {CONTROL_TOUCH, 100}}},
    {"flams and a turnaround",
     "Bench.mid",
     4,
     {{CONTROL_GROOVE, GROOVE},
      {CONTROL_TURNAROUND, 5},
      {CONTROL_HANDS, 40},
      {CONTROL_LEAD_FOOT, 1},
      {CONTROL_LOOSENESS, 14}}},
};

static void render(const Case* const what, const bool straight, const char* const path)
{
    char command[8192];
    int length = snprintf(command, sizeof command,
                          FOURLIMB_BUILD "/fourlimb render --bundle " FOURLIMB_BUILD
                                         "/lv2/fourlimb.lv2 --out '%s' --groove %g --tempo 120 "
                                         "--bars %d --set split_feet=1 --set looseness=0 "
                                         "--set touch=0",
                          path, what->asked[0].value, what->bars);
    for (int i = 1; i < ASKED_MAX && what->asked[i].control != CONTROL_ENABLED; ++i) {
        const Control control = what->asked[i].control;
        const bool is_feel = control == CONTROL_LOOSENESS || control == CONTROL_TOUCH ||
                             control == CONTROL_PUSH_SNARE;
        if (!straight || !is_feel) {
            length += snprintf(command + length, sizeof command - (size_t)length, " --set %s=%g",
                               control_rows[control].symbol, what->asked[i].value);
        }
    }
    snprintf(command + length, sizeof command - (size_t)length, " >/dev/null");
    CHECK_INT(system(command), 0);
}

static void press(Bench* const bench, const bool shift)
{
    const PaneEvent key = {.kind = PANE_KEY,
                           .key = 'w',
                           .text = shift ? 'W' : 'w',
                           .modifiers = shift ? PANE_SHIFT : 0};
    desk_input(&bench->stage.desk, &key);
}

static void compare(const Case* const what, const bool straight)
{
    static Listing got, want;
    char path[1024];
    char file[256];
    Bench* const bench = bench_open();
    for (int i = 0; i < ASKED_MAX && what->asked[i].control != CONTROL_ENABLED; ++i) {
        bench_set(bench, what->asked[i].control, what->asked[i].value);
    }
    bench_run(bench, BENCH_RATE);
    press(bench, straight);
    CHECK(bench_notes(bench, "Written: "));
    snprintf(file, sizeof file, "Music/%.*s%s", (int)strlen(what->file) - 4, what->file,
             straight ? ", straight.mid" : ".mid");
    CHECK(is_there(file));
    snprintf(path, sizeof path, "%s", bench_path("rendered.mid"));
    remove(path);
    render(what, straight, path);
    list_notes(path, &want);
    list_notes(bench_path(file), &got);
    CHECK(want.count > 20);
    CHECK_INT(got.count, want.count);
    for (int i = 0; i < got.count && i < want.count; ++i) {
        CHECK_TEXT(got.lines[i], want.lines[i]);
    }
    empty_music_folder();
    bench_close(bench);
}

static void the_file_has_the_notes_of_a_render(void)
{
    for (size_t i = 0; has_reader() && i < sizeof cases / sizeof *cases; ++i) {
        check_case("%s", cases[i].name);
        compare(&cases[i], false);
    }
}

static void with_shift_it_has_them_without_feel(void)
{
    for (size_t i = 0; has_reader() && i < sizeof cases / sizeof *cases; ++i) {
        check_case("%s, straight", cases[i].name);
        compare(&cases[i], true);
    }
}

/* Saved and picked, the edit can be rendered: the file of the draft was the same. */
static void an_edit_is_in_the_file_before_it_is_saved(void)
{
    static Listing got, want;
    if (!has_reader()) {
        return;
    }
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, ONE);
    bench_click(bench, LEFT_FOOT, 1.0);
    press(bench, false);
    list_notes(bench_path("Music/Bench.mid"), &got);
    bench_save(bench, "Brine feet");
    Case what = {"saved",
                 "",
                 4,
                 {{CONTROL_GROOVE, GROOVE},
                  {CONTROL_FEET, (double)bench_view(bench)->values[CONTROL_FEET]}}};
    char path[1024];
    snprintf(path, sizeof path, "%s", bench_path("edited.mid"));
    render(&what, false, path);
    list_notes(path, &want);
    CHECK(want.count > 20);
    CHECK_INT(got.count, want.count);
    for (int i = 0; i < got.count && i < want.count; ++i) {
        CHECK_TEXT(got.lines[i], want.lines[i]);
    }
    empty_music_folder();
    bench_close(bench);
}

/* ---- Names */

static char why[PHRASE_WHY_ROOM];
static char path[PHRASE_PATH_ROOM];

static bool write_named(const char* const name, const bool straight)
{
    Bank* const bank = errand_bank(FOURLIMB_BUILD "/lv2/fourlimb.lv2");
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    const Settings settings = settings_from_controls(values);
    const Phrase phrase = {bank_library(bank), &settings, {4.0, 4}, 120.0, 2, name, straight};
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

/* What the window says of it. */
static void the_window_says_where_it_is_or_why_not(void)
{
    Bench* const bench = bench_open();
    bench_item(bench, EDIT_PAIR);
    press(bench, false);
    CHECK(bench_notes(bench, "Music/Bench.mid"));
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Gone\"\n");
    press(bench, true);
    CHECK(bench_notes(bench, "Not written: "));
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Music\"\n");
    stage_click(&bench->stage, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    bench_item(bench, EDIT_FILE);
    CHECK(bench_notes(bench, "Music/Bench 2.mid"));
    CHECK(!bench->straight);
    empty_music_folder();
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(without_a_music_folder_it_goes_into_the_home_folder);
    mkdir(bench_path("Music"), 0755);
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Music\"\n");
    RUN(the_file_has_the_notes_of_a_render);
    RUN(with_shift_it_has_them_without_feel);
    RUN(an_edit_is_in_the_file_before_it_is_saved);
    RUN(an_older_file_is_never_written_over);
    RUN(names_stay_in_the_folder_and_in_sight);
    RUN(a_very_long_name_is_cut_between_letters);
    RUN(a_music_folder_that_is_not_there_is_told_of);
    RUN(a_folder_that_may_not_be_written_is_told_of);
    RUN(a_full_disk_leaves_nothing_behind);
    RUN(the_window_says_where_it_is_or_why_not);
    bench_move_out();
    return tests_end();
}
