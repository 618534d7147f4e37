// SPDX-License-Identifier: ISC
/* The audition, as a person does it: under fixed hands in 7/8 at 180, twenty candidates for the
   feet one after the other while it plays, three of them kept and compared.  All by keys; the
   ear is on the plugin's MIDI.  AUDITION=1 prints what was heard from which bar on; here it is
   held against the rows that the window showed. */
#include "bench.h"

enum {
    BAR_TICKS = 7 * Q / 2,
    BAR_FRAMES = 56000, /* seven eighths at 180 quarters a minute, at 48 kHz */
    HAIR = 100,         /* ticks: a frame and a bit */
    STEPS = 14,         /* sixteenths in the bar */
    CANDIDATES = 20,
    BARS_MAX = 40,
};

static Bench* bench;

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

static void set_up(void)
{
    bench = bench_open();
    bench->stage.tempo = 180.0f;
    bench->stage.beats_per_bar = 7.0f;
    bench->stage.beat_unit = 8;
    stage_roll(&bench->stage, 0, 0.0f, 0.0f);
    bench_settle(bench);
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

static void say(const int64_t bar)
{
    if (getenv("AUDITION")) {
        printf("# bar %2d  %s  %-34s %s\n", (int)bar + 1, heard(bar),
               bars[bar].name ? bars[bar].name : "", bars[bar].asked);
    }
}

static void twenty_candidates_are_heard_as_shown_and_three_compared(void)
{
    set_up();
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
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(twenty_candidates_are_heard_as_shown_and_three_compared);
    bench_move_out();
    return tests_end();
}
