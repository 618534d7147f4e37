// SPDX-License-Identifier: ISC
/* The audition, as a person does it: under fixed hands in 7/8 at 180, twenty candidates for the
   feet one after the other while it plays, three of them kept, compared and handed over as
   folders, which a bandmate with nothing else loads.  All by keys; the ear is on the plugin's
   MIDI.  AUDITION=1 prints what was heard from which bar on; here it is held against the rows that
   the window showed. */
#include "bench.h"

enum {
    BAR_TICKS = 7 * Q / 2,
    BAR_FRAMES = 56000, /* seven eighths at 180 quarters a minute, at 48 kHz */
    HAIR = 100,         /* ticks: a frame and a bit */
    STEPS = 14,         /* sixteenths in the bar */
    CANDIDATES = 20,
    BARS_MAX = 40,
    KEPT_COUNT = 3,
    PHRASE_BARS = 4,
};

static Bench* bench;

/* What was heard of a phrase, and by which name it was handed over. */
typedef struct {
    char name[KEPT_SHOWN_ROOM];
    int count;
    Note notes[NOTES_MAX / 4];
} Phrased;

static Phrased given[KEPT_COUNT];

/* ---- By keys */

static void press_shift(const uint32_t key)
{
    controller_input(&bench->stage.model,
                     &(PaneEvent){.kind = PANE_KEY, .key = key, .modifiers = PANE_SHIFT});
}

/* A list opens, letters find a name, Enter keeps it. */
static void pick(const uint32_t list, const char* const name)
{
    stage_key(&bench->stage, list);
    stage_text(&bench->stage, name);
    stage_key(&bench->stage, PANE_KEY_DOWN);
    stage_key(&bench->stage, PANE_KEY_ENTER);
    bench_settle(bench);
}

/* ---- By ear */

/* What is heard of the feet in a bar, in sixteenths, a colon between them: "R.L.R" */
static const char* heard(const int64_t bar)
{
    static char steps[STEPS + 1];
    memset(steps, '.', STEPS);
    for (int i = 0; i < bench->count; ++i) {
        const Note* const note = &bench->notes[i];
        const int64_t tick = note->frame * BAR_TICKS / BAR_FRAMES - bar * BAR_TICKS + HAIR;
        if ((note->key == KICK || note->key == KICK_LEFT) && tick >= 0 && tick < BAR_TICKS) {
            char* const step = &steps[tick / (Q / 4)];
            *step = tick % (Q / 4) > 2 * HAIR ? ':' : note->key == KICK ? 'R' : 'L';
        }
    }
    return steps;
}

/* The strokes of a row likewise. */
static void shown(const FeetRow* const row, char steps[STEPS + 1])
{
    memset(steps, '.', STEPS);
    steps[STEPS] = '\0';
    for (uint32_t i = 0; i < row->count; ++i) {
        const RowStroke* const stroke = &row->strokes[i];
        char* const step = &steps[stroke->tick / (Q / 4)];
        *step = stroke->tick % (Q / 4) ? ':' : stroke->limb == RIGHT_FOOT ? 'R' : 'L';
    }
}

/* Hands of two bars, as keys by their place; 0: none are heard. */
static int64_t hands_of(const int64_t bar)
{
    int64_t sum = 0;
    for (int i = 0; i < bench->count; ++i) {
        const Note* const note = &bench->notes[i];
        const int64_t at = note->frame - bar * BAR_FRAMES + 2;
        if (note->key != KICK && note->key != KICK_LEFT && at >= 0 && at < BAR_FRAMES) {
            sum += (at / 8 + 1) * note->key;
        }
    }
    return sum;
}

/* ---- The log */

typedef struct {
    const char* name; /* NULL: nobody looked */
    char row[STEPS + 1];
    char asked[48]; /* what was pressed in it */
} Logged;

static Logged bars[BARS_MAX];

static VaryPage* page(void)
{
    return &bench_view(bench)->vary;
}

static void run_to(const int64_t bar, const double share)
{
    const int64_t frame = (int64_t)(((double)bar + share) * BAR_FRAMES) / BENCH_BLOCK * BENCH_BLOCK;
    if (frame > bench->frame) {
        bench_run(bench, frame - bench->frame);
    }
}

static void note_bar(const int64_t bar, const char* const name, const FeetRow* const row)
{
    bars[bar].name = name;
    shown(row, bars[bar].row);
}

static void note_press(const int64_t bar, const char* const what)
{
    const size_t length = strlen(bars[bar].asked);
    snprintf(bars[bar].asked + length, sizeof bars[bar].asked - length, "%s%s", length ? ", " : "",
             what);
}

/* ---- The job */

/* Standing at bar 0 in 7/8 at 180. */
static void open_bench(void)
{
    bench = bench_open();
    bench->stage.tempo = 180.0f;
    bench->stage.beats_per_bar = 7.0f;
    bench->stage.beat_unit = 8;
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
}

static void set_up(void)
{
    open_bench();
    pick('g', "winter timetable");
    pick('f', "sixteenths on one and two");
    bench_set(bench, CONTROL_TURNAROUND, -1); /* hands alone, bar after bar */
    bench_set(bench, CONTROL_CRASH, 1);
    bench_settle(bench);
    stage_key(&bench->stage, 'v');
    bench_settle(bench);
    bench->frame = bench->count = 0;
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
}

/* Down to the next row that is offered. */
static void next_row(const int64_t bar)
{
    do {
        stage_key(&bench->stage, PANE_KEY_DOWN);
        note_press(bar, "Down");
    } while (*page()->rows[page()->cursor].why);
}

/* A bar each; the fourth, ninth and fifteenth are kept while they sound. */
static int64_t try_twenty(void)
{
    int64_t bar = 0;
    for (int candidate = 0; candidate <= CANDIDATES; ++candidate, ++bar) {
        run_to(bar, 0.5);
        note_bar(bar, page()->rows[page()->cursor].name, &page()->rows[page()->cursor].feet);
        if (candidate == 4 || candidate == 9 || candidate == 15) {
            stage_key(&bench->stage, 's');
            note_press(bar, "S");
            run_to(bar, 0.7);
        }
        if (candidate < CANDIDATES) {
            next_row(bar);
        }
    }
    return bar;
}

/* By Shift and a number, and X back and forth; what was asked for is heard a bar later. */
static int64_t compare_three(int64_t bar)
{
    static const struct {
        uint32_t key;
        bool shift;
        int plays;
        const char* words;
    } presses[] = {{'1', true, 1, "Shift+1"},
                   {'2', true, 2, "Shift+2"},
                   {'3', true, 3, "Shift+3"},
                   {'x', false, 2, "X"},
                   {'x', false, 3, "X"}};
    run_to(bar, 0.2);
    stage_key(&bench->stage, 'j');
    for (size_t i = 0; i < sizeof presses / sizeof *presses; ++i, ++bar) {
        run_to(bar, 0.3);
        if (presses[i].shift) {
            press_shift(presses[i].key);
        } else {
            stage_key(&bench->stage, presses[i].key);
        }
        note_press(bar, presses[i].words);
        run_to(bar + 1, 0.25);
        const int slot = presses[i].plays - 1;
        note_bar(bar + 1, bench_view(bench)->kept.rows[slot].name,
                 &bench_view(bench)->shortlist.rows[slot].feet);
    }
    run_to(bar + 1, 0.0);
    return bar;
}

/* ---- Handed over */

/* What was heard of a phrase, and who heard it. */
static void say_phrase(const char* const who, const char* const name)
{
    for (int64_t bar = 0; getenv("AUDITION") && bar < PHRASE_BARS; ++bar) {
        printf("# %s, bar %d  %s  %s\n", who, (int)bar + 1, heard(bar), bar ? "" : name);
    }
}

/* A phrase from the first bar on. */
static void play_phrase(Phrased* const phrase)
{
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
    bench->frame = bench->count = 0;
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
    run_to(PHRASE_BARS, 0.0);
    phrase->count = bench->count < NOTES_MAX / 4 ? bench->count : NOTES_MAX / 4;
    memcpy(phrase->notes, bench->notes, sizeof *phrase->notes * (size_t)phrase->count);
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
}

/* A asks where once: over what it offers a folder is typed. */
static void answer_where(void)
{
    for (int i = 0; i < FOLDER_ROOM; ++i) {
        stage_key(&bench->stage, PANE_KEY_BACKSPACE);
    }
    stage_text(&bench->stage, bench_path("given"));
    stage_key(&bench->stage, PANE_KEY_ENTER);
}

static void hand_over(void)
{
    CHECK_INT(mkdir(bench_path("given"), 0700), 0);
    for (int slot = 0; slot < KEPT_COUNT; ++slot) {
        press_shift('1' + (uint32_t)slot);
        play_phrase(&given[slot]);
        snprintf(given[slot].name, KEPT_SHOWN_ROOM, "%s", bench_view(bench)->kept.rows[slot].name);
        stage_key(&bench->stage, 'a');
        CHECK_INT(bench_view(bench)->asked.is_open, slot == 0);
        if (bench_view(bench)->asked.is_open) {
            answer_where();
        }
        CHECK(bench_notes(bench, "Written: "));
        say_phrase(slot ? "A" : "A, a folder, Enter", given[slot].name);
    }
}

static const char* given_file(const int slot, const char* const ending)
{
    static char name[4 * KEPT_SHOWN_ROOM];
    snprintf(name, sizeof name, "given/%.63s/%.63s.%s", given[slot].name, given[slot].name, ending);
    return name;
}

static int files_in(const char* const folder)
{
    struct dirent** entries = NULL;
    const int count = scandir(folder, &entries, NULL, NULL);
    for (int i = 0; i < count; ++i) {
        free(entries[i]);
    }
    free(entries);
    return count - 2; /* without itself and the one above */
}

/* First bytes: of a Standard MIDI File (its specification, 1.0) and of a PDF (ISO 32000-1, 7.5.2);
   the rest has its own tests. */
static void the_folders_hold_four_files(void)
{
    static const char* const files[][2] = {
        {"ttl", "# "}, {"mid", "MThd"}, {"pdf", "%PDF-"}, {"txt", ""}};
    CHECK_INT(files_in(bench_path("given")), KEPT_COUNT);
    for (int slot = 0; slot < KEPT_COUNT; ++slot) {
        char folder[2 * KEPT_SHOWN_ROOM];
        check_case("%s", given[slot].name);
        snprintf(folder, sizeof folder, "given/%.63s", given[slot].name);
        CHECK_INT(files_in(bench_path(folder)), 4);
        for (int i = 0; i < 4; ++i) {
            const char* const bytes = bench_read(given_file(slot, files[i][0]));
            CHECK(*bytes && !strncmp(bytes, files[i][1], strlen(files[i][1])));
        }
        CHECK(strstr(bench_read(given_file(slot, "txt")), "7/8 at 180, 4 bars"));
    }
}

/* All three beside each other in a folder that has nothing else. */
static void move_to_bandmate(void)
{
    CHECK_INT(mkdir(bench_path("bandmate"), 0700), 0);
    CHECK_INT(mkdir(bench_path("bandmate/fourlimb"), 0700), 0);
    for (int slot = 0; slot < KEPT_COUNT; ++slot) {
        static char text[1 << 17];
        char name[64];
        snprintf(text, sizeof text, "%s", bench_read(given_file(slot, "ttl")));
        snprintf(name, sizeof name, "bandmate/fourlimb/%d.ttl", slot);
        bench_write(name, text);
    }
    CHECK_INT(setenv("XDG_DATA_HOME", bench_path("bandmate"), 1), 0);
}

static void a_bandmate_hears_the_same(void)
{
    static Phrased phrase;
    move_to_bandmate();
    open_bench();
    for (int slot = 0; slot < KEPT_COUNT; ++slot) {
        pick('g', given[slot].name);
        play_phrase(&phrase);
        check_case("%s", given[slot].name);
        CHECK_TEXT(bench_view(bench)->message, "");
        say_phrase("bandmate", given[slot].name);
        CHECK(phrase.count > 0);
        CHECK_INT(phrase.count, given[slot].count);
        CHECK(same_notes(phrase.notes, given[slot].notes, phrase.count));
    }
    bench_close(bench);
}

/* ---- All of it */

static void say(const int64_t bar)
{
    if (getenv("AUDITION")) {
        printf("# bar %2d  %s  %-34s %s\n", (int)bar + 1, heard(bar),
               bars[bar].name ? bars[bar].name : "", bars[bar].asked);
    }
}

static void twenty_candidates_are_heard_as_shown_and_three_compared(void)
{
    const int64_t kept = try_twenty();
    const int64_t last = compare_three(kept);
    for (int64_t bar = 0; bar <= last; ++bar) {
        say(bar);
        check_case("bar %d", (int)bar + 1);
        if (bars[bar].name) {
            CHECK_TEXT(heard(bar), bars[bar].row);
        }
        CHECK(hands_of(bar) > 0);
        CHECK_INT(hands_of(bar), hands_of(0)); /* whatever the feet do */
    }
    /* what was kept comes back as it was tried; what rolls in the same bar of the phrase of 4 */
    static const int tried[3] = {4, 9, 15};
    static const int again[3] = {22, 25, 26};
    for (int slot = 0; slot < 3; ++slot) {
        char first[STEPS + 1];
        snprintf(first, sizeof first, "%s", heard(tried[slot]));
        check_case("kept %d", slot + 1);
        CHECK_TEXT(heard(again[slot]), first);
    }
    CHECK(bench->count < NOTES_MAX);
    CHECK_INT(bench->refused, 0);
}

static void the_three_are_handed_over_and_play_the_same_for_a_bandmate(void)
{
    hand_over();
    bench_close(bench);
    the_folders_hold_four_files();
    a_bandmate_hears_the_same();
}

int main(void)
{
    bench_move_in();
    set_up();
    RUN(twenty_candidates_are_heard_as_shown_and_three_compared);
    RUN(the_three_are_handed_over_and_play_the_same_for_a_bandmate);
    bench_move_out();
    return tests_end();
}
