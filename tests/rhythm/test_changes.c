// SPDX-License-Identifier: ISC
/* test_changes.c - a change while it plays, through the built plugin: before its
   line the render of the old settings, from the line on that of the new.  At
   120 in 4/4 a quarter lasts 24,000 frames; phrases are of two bars. */
#include "stage.h"

enum { QUARTER = 24000, BAR = 4 * QUARTER, PHRASE = 2 * BAR, LENGTH = 4 * PHRASE };
enum { NOW, BEAT, BAR_LINE, PHRASE_LINE };

typedef struct {
    const char* symbol;
    double from;
    double to;
} Change;

/* Feet 50 are running sixteenths, 210 a shuffle, 240 a herta; hands 65 are triplets. */
static const Change changes[] = {
    {"groove", 3, 2},       {"hands", 1, 65},     {"feet", 50, 210},     {"turnaround", -1, 1},
    {"hands_grid", 0, 3},   {"feet_grid", 0, 5},  {"hands_cycle", 0, 5}, {"feet_cycle", 0, 7},
    {"hands_shift", 0, -1}, {"feet_shift", 0, 3}, {"feet_grid", 6, 4},   {"feet", 240, 0},
    {"phrase_bars", 2, 4},
};

enum { CHANGES = sizeof changes / sizeof *changes };

static Stage old, new, changed, again;

/* Ready to play from bar 1 with a control at a value. */
static void begin(Stage* const stage, const Change* const change, const double value,
                  const int change_at)
{
    stage_open(stage, 120.0, 4, 4);
    stage_set(stage, "groove", 3);
    stage_set(stage, "kit", 2);
    stage_set(stage, "phrase_bars", 2);
    stage_set(stage, "change_at", change_at);
    stage_set(stage, change->symbol, value);
    stage_tell(stage, 0.0, 1.0);
}

static void render(Stage* const stage, const Change* const change, const double value)
{
    begin(stage, change, value, NOW);
    stage_run(stage, LENGTH, 1024);
}

/* Plays from the first value to the second, which is set at a frame. */
static void render_change(Stage* const stage, const Change* const change, const int change_at,
                          const int64_t set, const uint32_t block)
{
    begin(stage, change, change->from, change_at);
    stage_run(stage, set, block);
    stage_set(stage, change->symbol, change->to);
    stage_run(stage, LENGTH - set, block);
}

/* The note-ons of one list in [begin, end) must be those of another. */
static void check_notes(const Stage* const got, const Stage* const want, const int64_t from,
                        const int64_t to)
{
    uint32_t i = 0, k = 0;
    for (;; ++i, ++k) {
        while (i < got->count && (!note_is_on(got->notes[i]) || got->notes[i].frame < from)) {
            ++i;
        }
        while (k < want->count && (!note_is_on(want->notes[k]) || want->notes[k].frame < from)) {
            ++k;
        }
        const int64_t got_at =
            i < got->count && got->notes[i].frame < to ? got->notes[i].frame : -1;
        const int64_t at = k < want->count && want->notes[k].frame < to ? want->notes[k].frame : -1;
        if (!CHECK_INT(got_at, at) || at < 0) {
            return;
        }
        CHECK_INT(got->notes[i].bytes[1], want->notes[k].bytes[1]);
        CHECK_INT(got->notes[i].bytes[2], want->notes[k].bytes[2]);
    }
}

/* Keys that a list has begun and not ended before a line, or at it. */
static uint32_t sounding_past(const Stage* const stage, const int64_t line)
{
    bool sounds[CHANNELS][KEYS] = {{false}};
    uint32_t count = 0;
    for (uint32_t i = 0; i < stage->count; ++i) {
        const Note note = stage->notes[i];
        const bool on = note_is_on(note);
        if (on ? note.frame < line : note.frame <= line) {
            sounds[note.bytes[0] & 0xF][note.bytes[1]] = on;
        }
    }
    for (int key = 0; key < CHANNELS * KEYS; ++key) {
        count += sounds[key / KEYS][key % KEYS];
    }
    return count;
}

static void check_line(const Change* const change, const int change_at, const int64_t set,
                       const int64_t line)
{
    render_change(&changed, change, change_at, set, 512);
    check_case("%s set at frame %d, before the line", change->symbol, (int)set);
    check_notes(&changed, &old, 0, line);
    check_case("%s set at frame %d, from the line on", change->symbol, (int)set);
    check_notes(&changed, &new, line, LENGTH);
    check_case("%s set at frame %d, notes past the line", change->symbol, (int)set);
    CHECK_INT(sounding_past(&changed, line), 0);
    CHECK_INT(changed.faults, 0);
}

/* Whether the two renders differ after a line: else a test of it says nothing. */
static bool differ_after(const int64_t line)
{
    return stage_struck(&old, 48, line, LENGTH) != stage_struck(&new, 48, line, LENGTH) ||
           !same_stage_notes(&old, &new);
}

/* Sets each control in the third bar: at a place in it, and right on its line. */
static void check_changes(const int change_at, const int64_t length)
{
    static const int64_t places[] = {0, 700, 5000, 3 * QUARTER / 2, 2 * QUARTER, BAR - 512, BAR};
    for (int i = 0; i < CHANGES; ++i) {
        render(&old, &changes[i], changes[i].from);
        render(&new, &changes[i], changes[i].to);
        check_case("%s: the renders differ", changes[i].symbol);
        CHECK(differ_after(PHRASE));
        for (size_t k = 0; k < sizeof places / sizeof *places; ++k) {
            const int64_t set = PHRASE + places[k];
            check_line(&changes[i], change_at, set, (set + length - 1) / length * length);
        }
    }
}

static void now_is_from_the_next_frame_on(void)
{
    check_changes(NOW, 1);
}

static void the_next_beat_is_where_the_beat_begins(void)
{
    check_changes(BEAT, QUARTER);
}

static void the_next_bar_is_where_the_bar_begins(void)
{
    check_changes(BAR_LINE, BAR);
}

static void the_next_phrase_is_where_the_phrase_begins(void)
{
    check_changes(PHRASE_LINE, PHRASE);
}

static void check_same(const Stage* const got, const Stage* const want)
{
    CHECK_INT(got->count, want->count);
    for (uint32_t i = 0; i < got->count && i < want->count; ++i) {
        CHECK_INT(got->notes[i].frame, want->notes[i].frame);
        CHECK(!memcmp(got->notes[i].bytes, want->notes[i].bytes, 3));
    }
}

static void a_change_sounds_alike_in_any_block_size(void)
{
    static const uint32_t blocks[] = {1, 64, 333, 1024, 1500, 8192};
    for (int i = 0; i < CHANGES; ++i) {
        for (int change_at = NOW; change_at <= PHRASE_LINE; ++change_at) {
            render_change(&old, &changes[i], change_at, PHRASE + 5000, 512);
            for (size_t k = i ? 1 : 0; k < sizeof blocks / sizeof *blocks; ++k) {
                render_change(&changed, &changes[i], change_at, PHRASE + 5000, blocks[k]);
                check_case("%s, change_at %d, blocks of %u", changes[i].symbol, change_at,
                           blocks[k]);
                check_same(&changed, &old);
            }
        }
    }
}

static void what_is_changed_back_before_the_line_changes_nothing(void)
{
    for (int i = 0; i < CHANGES; ++i) {
        const Change* const change = &changes[i];
        begin(&old, change, change->from, PHRASE_LINE);
        stage_run(&old, LENGTH, 512);
        begin(&changed, change, change->from, PHRASE_LINE);
        stage_run(&changed, PHRASE + 5000, 512);
        stage_set(&changed, change->symbol, change->to);
        stage_run(&changed, BAR / 2, 512);
        stage_set(&changed, change->symbol, change->from);
        stage_run(&changed, LENGTH - PHRASE - 5000 - BAR / 2, 512);
        check_case("%s", change->symbol);
        check_same(&changed, &old);
    }
}

/* The line that is waited for stays, however often more is asked for. */
static void the_last_of_several_changes_is_played_from_the_line_on(void)
{
    const Change feet = {"feet", 50, 210};
    render(&old, &feet, 50);
    render(&new, &feet, 210);
    begin(&changed, &feet, 50, BAR_LINE);
    stage_run(&changed, PHRASE + 5000, 512);
    stage_set(&changed, "feet", 120);
    stage_run(&changed, QUARTER, 512);
    stage_set(&changed, "feet", 240);
    stage_run(&changed, QUARTER, 512);
    stage_set(&changed, "feet", 210);
    stage_run(&changed, LENGTH - PHRASE - 5000 - 2 * QUARTER, 512);
    check_notes(&changed, &old, 0, PHRASE + BAR);
    check_notes(&changed, &new, PHRASE + BAR, LENGTH);
}

/* Plays on from a quarter of the song: the render's notes, moved. */
static void check_from(Stage* const got, const Stage* const want, const int quarter)
{
    const int64_t began = got->now;
    stage_tell(got, quarter, 1.0);
    stage_run(got, LENGTH - (int64_t)quarter * QUARTER, 512);
    memset(&again.count, 0, sizeof again.count);
    for (uint32_t i = 0; i < got->count; ++i) {
        if (got->notes[i].frame >= began && note_is_on(got->notes[i])) {
            again.notes[again.count] = got->notes[i];
            again.notes[again.count++].frame += (int64_t)quarter * QUARTER - began;
        }
    }
    check_notes(&again, want, (int64_t)quarter * QUARTER, LENGTH);
}

static void on_a_stopped_transport_a_change_is_in_effect_at_once(void)
{
    for (int i = 0; i < CHANGES; ++i) {
        render(&new, &changes[i], changes[i].to);
        begin(&changed, &changes[i], changes[i].from, PHRASE_LINE);
        stage_run(&changed, BAR, 512);
        stage_stop(&changed, 4.0);
        stage_set(&changed, changes[i].symbol, changes[i].to);
        stage_block(&changed, 512);
        check_case("%s", changes[i].symbol);
        check_from(&changed, &new, 5);
    }
}

static void a_stop_brings_in_what_was_waiting(void)
{
    for (int i = 0; i < CHANGES; ++i) {
        render(&new, &changes[i], changes[i].to);
        begin(&changed, &changes[i], changes[i].from, PHRASE_LINE);
        stage_run(&changed, BAR, 512);
        stage_set(&changed, changes[i].symbol, changes[i].to);
        stage_run(&changed, QUARTER, 512);
        stage_stop(&changed, 5.0);
        check_case("%s", changes[i].symbol);
        check_from(&changed, &new, 5);
    }
}

static void a_locate_brings_in_what_was_waiting(void)
{
    for (int i = 0; i < CHANGES; ++i) {
        render(&new, &changes[i], changes[i].to);
        begin(&changed, &changes[i], changes[i].from, PHRASE_LINE);
        stage_run(&changed, BAR, 512);
        stage_set(&changed, changes[i].symbol, changes[i].to);
        stage_run(&changed, QUARTER, 512);
        check_case("%s", changes[i].symbol);
        check_from(&changed, &new, 18);
    }
}

/* At 120 in 7/8 a beat lasts 12,000 frames, a bar 84,000. */
static void in_seven_eight_beats_are_eighths_and_bars_are_seven(void)
{
    static const int64_t lines[] = {0, 12000, 84000, 168000};
    const Change feet = {"feet", 50, 240};
    for (int change_at = NOW; change_at <= PHRASE_LINE; ++change_at) {
        for (int kind = 0; kind < 3; ++kind) {
            Stage* const stage = kind == 0 ? &old : kind == 1 ? &new : &changed;
            stage_open(stage, 120.0, 7, 8);
            stage_set(stage, "groove", 3);
            stage_set(stage, "kit", 2);
            stage_set(stage, "phrase_bars", 2);
            stage_set(stage, "change_at", change_at);
            stage_set(stage, "feet", kind == 1 ? feet.to : feet.from);
            stage_tell(stage, 0.0, 1.0);
            stage_run(stage, 100001, 512);
            stage_set(stage, "feet", kind ? feet.to : feet.from);
            stage_run(stage, LENGTH, 512);
        }
        const int64_t line =
            change_at == NOW ? 100001 : (100001 / lines[change_at] + 1) * lines[change_at];
        check_case("change_at %d", change_at);
        check_notes(&changed, &old, 0, line);
        check_notes(&changed, &new, line, LENGTH);
    }
}

int main(void)
{
    RUN(now_is_from_the_next_frame_on);
    RUN(the_next_beat_is_where_the_beat_begins);
    RUN(the_next_bar_is_where_the_bar_begins);
    RUN(the_next_phrase_is_where_the_phrase_begins);
    RUN(in_seven_eight_beats_are_eighths_and_bars_are_seven);
    RUN(a_change_sounds_alike_in_any_block_size);
    RUN(what_is_changed_back_before_the_line_changes_nothing);
    RUN(the_last_of_several_changes_is_played_from_the_line_on);
    RUN(on_a_stopped_transport_a_change_is_in_effect_at_once);
    RUN(a_stop_brings_in_what_was_waiting);
    RUN(a_locate_brings_in_what_was_waiting);
    stage_close(&old);
    stage_close(&new);
    stage_close(&changed);
    return tests_end();
}
