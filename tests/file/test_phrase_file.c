// SPDX-License-Identifier: ISC
/* test_phrase_file.c - one key writes the phrase as a MIDI file: note for note what
   `fourlimb render` writes for the same settings, as midicsv (Walker's reader of Standard
   MIDI Files, none of ours) reads both. */
#include "music.h"

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
      {CONTROL_LIBERTY, 100}}},
};

static void render(const Case* const what, const bool straight, const char* const path)
{
    char command[8192];
    int length = snprintf(command, sizeof command,
                          FOURLIMB_BUILD "/fourlimb render --bundle " FOURLIMB_BUILD
                                         "/lv2/fourlimb.lv2 --out '%s' --groove %g --tempo 120 "
                                         "--bars %d --set split_feet=1 --set looseness=0 "
                                         "--set touch=0 --set liberty=0",
                          path, what->asked[0].value, what->bars);
    for (int i = 1; i < ASKED_MAX && what->asked[i].control != CONTROL_ENABLED; ++i) {
        const Control control = what->asked[i].control;
        const bool is_feel = control == CONTROL_LOOSENESS || control == CONTROL_TOUCH ||
                             control == CONTROL_PUSH_SNARE || control == CONTROL_LIBERTY;
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
    controller_input(&bench->stage.model, &key);
    if (bench_view(bench)->asked.is_open) { /* where: there */
        stage_key(&bench->stage, PANE_KEY_ENTER);
    }
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

/* Nothing is written before it was asked where, and Esc is no. */
static void it_asks_where_once(void)
{
    Bench* const bench = bench_open();
    const Asking* const asked = &bench_view(bench)->asked;
    stage_key(&bench->stage, 'w');
    CHECK(asked->is_open);
    CHECK_TEXT(asked->folder, bench_path("Music"));
    CHECK_INT(files_in("Music"), 0);
    stage_key(&bench->stage, PANE_KEY_ESCAPE);
    CHECK(!asked->is_open);
    CHECK(bench_notes(bench, "Nothing is written"));
    stage_key(&bench->stage, 'w');
    stage_click(&bench->stage, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    CHECK(!asked->is_open);
    CHECK_INT(files_in("Music"), 0);
    bench_item(bench, EDIT_FILE);
    CHECK(asked->is_open);
    stage_key(&bench->stage, PANE_KEY_ENTER);
    CHECK_INT(files_in("Music"), 1);
    stage_key(&bench->stage, 'w'); /* quick from now on */
    CHECK_INT(files_in("Music"), 2);
    empty_music_folder();
    bench_close(bench);
}

/* What the window says of it: of a folder that isn't there it says so, and asks again. */
static void the_window_says_where_it_is_or_why_not(void)
{
    Bench* const bench = bench_open();
    stage_key(&bench->stage, 'w');
    stage_text(&bench->stage, "/gone");
    stage_key(&bench->stage, PANE_KEY_ENTER);
    CHECK(bench_notes(bench, "Not written: "));
    stage_key(&bench->stage, 'w');
    for (int i = 0; i < 5; ++i) {
        stage_key(&bench->stage, PANE_KEY_BACKSPACE);
    }
    stage_key(&bench->stage, PANE_KEY_ENTER);
    CHECK(bench_notes(bench, "Music/Bench.mid"));
    CHECK(!bench->straight);
    empty_music_folder();
    bench_close(bench);
}

/* As shells have it; $HOME is the bench's. */
static void a_tilde_is_the_home_folder(void)
{
    Bench* const bench = bench_open();
    stage_key(&bench->stage, 'w');
    for (int i = 0; i < FOLDER_ROOM; ++i) {
        stage_key(&bench->stage, PANE_KEY_BACKSPACE);
    }
    stage_text(&bench->stage, "~/Music");
    stage_key(&bench->stage, PANE_KEY_ENTER);
    CHECK_INT(files_in("Music"), 1);
    empty_music_folder();
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    mkdir(bench_path("Music"), 0755);
    name_music_folder("XDG_MUSIC_DIR=\"$HOME/Music\"\n");
    RUN(the_file_has_the_notes_of_a_render);
    RUN(with_shift_it_has_them_without_feel);
    RUN(an_edit_is_in_the_file_before_it_is_saved);
    RUN(it_asks_where_once);
    RUN(a_tilde_is_the_home_folder);
    RUN(the_window_says_where_it_is_or_why_not);
    bench_move_out();
    return tests_end();
}
