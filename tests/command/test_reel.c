// SPDX-License-Identifier: ISC
/* A song is one performance: README, "strokes out are strokes written, section for
   section".  Each section is compared with itself after the others in silence, so that its
   early strokes are heard and it is the same pass: the same notes, from its bar line on and
   before it, none lost and none doubled at a seam, none of a bar that isn't there. */
#include "../../ui/command/performance.h"
#include "../../ui/file/timeline.h"
#include "../bank/factory.h"
#include "../desk/chance.h"
#include "../help/check.h"
#include "../plugin/bundle.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { SECTIONS = 4, NOTES = 20000 };

typedef struct {
    double seconds; /* in the song */
    uint8_t key;
    uint8_t velocity;
    bool used;
} Note;

static Performance performance;
static Section sections[SECTIONS];
static char names[SECTIONS][16];
static Note wanted[NOTES], got[NOTES];
static int wanted_count, got_count;

static void set(Section* const section, const char* const symbol, const float value)
{
    ControlSetting* const setting = &section->settings[section->setting_count++];
    snprintf(setting->symbol, sizeof setting->symbol, "%s", symbol);
    setting->value = value;
}

/* Plays sections from..to into performance.song; how long it takes. */
static double play(const int from, const int to)
{
    Bytes file = {.bytes = NULL};
    performance_begin(&performance, "Test");
    for (int i = from; i < to; ++i) {
        Rendition rendition;
        CHECK_INT(performance_play(&performance, &sections[i], &rendition), 0);
    }
    CHECK(reel_end(&performance.song, &file));
    bytes_free(&file);
    return performance.song.seconds;
}

/* The notes of what was played. */
static int take_notes(Note* const notes, int count)
{
    for (size_t i = 0; i < performance.song.event_count && count < NOTES; ++i) {
        const ReelEvent* const event = &performance.song.events[i];
        if ((event->bytes[0] & 0xF0) == 0x90) {
            notes[count++] = (Note){event->seconds, event->bytes[1], event->bytes[2], false};
        }
    }
    return count;
}

static void silence(Section* const section)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        set(section, control_rows[CONTROL_RIGHT_HAND + limb].symbol, 0.0f);
    }
    set(section, "click", 0.0f);
}

/* Each section alone: those before it are silent. */
static void want_sections(void)
{
    int counts[SECTIONS];
    wanted_count = 0;
    for (int i = 0; i < SECTIONS; ++i) {
        play(0, i + 1);
        wanted_count = take_notes(wanted, wanted_count);
        counts[i] = sections[i].setting_count;
        silence(&sections[i]);
    }
    for (int i = 0; i < SECTIONS; ++i) {
        sections[i].setting_count = counts[i];
    }
}

/* Frames are whole where a section begins: two of them, and a float's rounding. */
static bool same(const Note* const a, const Note* const b)
{
    return a->key == b->key && a->velocity == b->velocity &&
           fabs(a->seconds - b->seconds) < 2.5 / TIMELINE_RATE;
}

static int notes_missing(void)
{
    int missing = 0;
    for (int i = 0; i < wanted_count; ++i) {
        int found = 0;
        while (found < got_count && (got[found].used || !same(&wanted[i], &got[found]))) {
            ++found;
        }
        missing += found == got_count;
        if (found < got_count) {
            got[found].used = true;
        } else if (missing == 1) {
            printf("# key %d velocity %d at %.4f s has no match\n", wanted[i].key,
                   wanted[i].velocity, wanted[i].seconds);
        }
    }
    return missing;
}

static void check_song(void)
{
    play(0, SECTIONS);
    got_count = take_notes(got, 0);
    want_sections();
    CHECK(wanted_count > 20);
    CHECK_INT(notes_missing(), 0);
    CHECK_INT(got_count, wanted_count);
}

static void begin_section(Section* const section, const int index, const uint32_t groove)
{
    *section = (Section){.groove = names[index]};
    snprintf(names[index], sizeof names[index], "%u", groove);
}

static uint32_t any_groove(Chance* const state)
{
    const Library* const library = bank_library(performance.bank);
    return library->grooves[chance(state, library->groove_count)].id;
}

/* Any grooves, bars, tempi, meters, takes; sections shorter than their phrase too. */
static void make_song(Chance* const state)
{
    static const int meters[][2] = {{4, 4}, {7, 8},  {12, 8}, {5, 4},
                                    {3, 4}, {7, 16}, {2, 2},  {6, 8}};
    for (int i = 0; i < SECTIONS; ++i) {
        Section* const section = &sections[i];
        begin_section(section, i, any_groove(state));
        section->bars = 1 + (int)chance(state, 7);
        section->tempo = chance(state, 3) ? 60.0 + chance(state, 200) : 152.0;
        if (chance(state, 2)) {
            const int* const meter = meters[chance(state, 8)];
            section->beats = meter[0];
            section->beat_unit = meter[1];
        }
        set(section, "take", (float)(1 + chance(state, 999)));
        if (!chance(state, 3)) {
            set(section, "push_feet", (float)chance(state, 101) - 50.0f);
            set(section, "looseness", (float)chance(state, 31));
        }
        if (!chance(state, 4)) {
            set(section, "left_hand", 0.0f);
            set(section, "realign", 0.0f);
            set(section, "feet_cycle", 5.0f);
        }
    }
}

static void every_section_of_a_song_is_what_it_is_alone(void)
{
    Chance state = {20261128};
    for (int i = 0; i < 60; ++i) {
        make_song(&state);
        check_case("song %d: %s %d bars at %g, %s %d bars at %g, ...", i, names[0],
                   sections[0].bars, sections[0].tempo, names[1], sections[1].bars,
                   sections[1].tempo);
        check_song();
    }
}

/* From groove 1 to 24 at every take: 21 of 40 seams were doubled once. */
static void no_seam_doubles_a_stroke_at_any_take(void)
{
    for (int take = 1; take <= 40; ++take) {
        for (int i = 0; i < SECTIONS; ++i) {
            begin_section(&sections[i], i, i % 2 ? 24 : 1);
            sections[i].bars = 1 + i % 2;
            sections[i].tempo = 150.0;
            set(&sections[i], "take", (float)take);
        }
        check_case("take %d", take);
        check_song();
    }
}

static void a_section_at_another_speed_begins_at_its_line_too(void)
{
    for (int rate = 0; rate < 6; ++rate) {
        for (int i = 0; i < SECTIONS; ++i) {
            begin_section(&sections[i], i, i % 2 ? 24 : 1);
            sections[i].bars = 4;
            sections[i].tempo = 150.0;
            set(&sections[i], "looseness", 0.0f);
            set(&sections[i], "practice_rate", (float)(i % 2 ? rate : 5));
        }
        check_case("speed %d", rate);
        check_song();
    }
}

/* Nothing of the bar after the last, at any take: 23 of 40 files ended so once.  A
   downbeat of the first bar is as early as one after the last would be. */
static void a_file_ends_with_its_last_bar(void)
{
    const double tempos[] = {90.0, 150.0, 240.0};
    for (int take = 1; take <= 40; ++take) {
        begin_section(&sections[0], 0, 1);
        sections[0].bars = 1;
        sections[0].tempo = tempos[take % 3];
        set(&sections[0], "take", (float)take);
        set(&sections[0], "looseness", 30.0f);
        set(&sections[0], "liberty", 0.0f);
        const double one = play(0, 1);
        got_count = take_notes(got, 0);
        sections[0].bars = 2;
        play(0, 1);
        wanted_count = take_notes(wanted, 0);
        const Library* const library = bank_library(performance.bank);
        const Groove* const groove = library_groove(library, 1);
        const Selection selection = plain_choice(groove, groove->form_bars);
        static StrokeList strokes;
        groove_strokes(&selection, groove->meter, 0, meter_bar_ticks(groove->meter), &strokes);
        check_case("take %d", take);
        CHECK(wanted_count > got_count);
        CHECK_INT(got_count, strokes.count);
        CHECK(one < performance.song.seconds);
    }
}

enum { LONG = 60, TICKS = 10080 };

/* Written strokes of a bar, as ticks of the file from its line on. */
static int want_bar(const Groove* const groove, const int64_t line, int64_t* const ticks)
{
    static StrokeList strokes;
    const Selection selection = plain_choice(groove, groove->form_bars);
    groove_strokes(&selection, groove->meter, 0, meter_bar_ticks(groove->meter), &strokes);
    for (uint32_t i = 0; i < strokes.count; ++i) {
        ticks[i] = line + llround((double)strokes.strokes[i].tick * TICKS / TICKS_PER_QUARTER);
    }
    return (int)strokes.count;
}

static bool file_begins_at(const Bytes* const file, const int64_t* const ticks, const int count)
{
    char path[] = "/tmp/fourlimb-song-XXXXXX", command[256], line[256];
    const int made = mkstemp(path);
    CHECK(made >= 0 && write(made, file->bytes, file->size) == (ssize_t)file->size);
    close(made);
    snprintf(command, sizeof command, "midicsv %s", path);
    FILE* const csv = popen(command, "r");
    int notes = 0, right = 0;
    while (csv && fgets(line, sizeof line, csv)) {
        long tick = 0;
        if (sscanf(line, "%*d, %ld, Note_on_c", &tick) == 1 && strstr(line, "Note_on_c")) {
            ++notes;
            for (int i = 0; i < count; ++i) {
                if (ticks[i] == tick) {
                    ++right;
                    break;
                }
            }
        }
    }
    CHECK(csv && pclose(csv) == 0);
    unlink(path);
    CHECK_INT(right, notes);
    return notes > LONG;
}

/* Sixty seams at odd tempi and in odd meters: nothing adds up.  On the grid every note
   is on the tick that it is written on, as midicsv reads it. */
static void after_sixty_seams_a_note_is_still_on_its_tick(void)
{
    static const uint32_t grooves[] = {1, 140, 131, 72, 24};
    static const double tempi[] = {133.7, 97.3, 211.9, 61.1, 150.0, 399.9, 20.3};
    static int64_t ticks[NOTES];
    int count = 0;
    int64_t line = 0;
    Bytes file = {.bytes = NULL};
    if (system("command -v midicsv >/dev/null 2>&1")) {
        test_skip("midicsv is not installed");
        return;
    }
    performance_begin(&performance, "Test");
    for (int i = 0; i < LONG; ++i) {
        const Groove* const groove = library_groove(bank_library(performance.bank), grooves[i % 5]);
        Rendition rendition;
        begin_section(&sections[0], 0, groove->id);
        sections[0].bars = 1;
        sections[0].tempo = tempi[i % 7];
        set(&sections[0], "looseness", 0.0f);
        set(&sections[0], "touch", 0.0f);
        set(&sections[0], "liberty", 0.0f);
        CHECK_INT(performance_play(&performance, &sections[0], &rendition), 0);
        count += want_bar(groove, line, &ticks[count]);
        line += meter_bar_ticks(groove->meter) * TICKS / TICKS_PER_QUARTER;
    }
    CHECK(reel_end(&performance.song, &file));
    CHECK(file_begins_at(&file, ticks, count));
    bytes_free(&file);
}

int main(void)
{
    if (!performance_open(&performance, BUNDLE)) {
        return 1;
    }
    RUN(every_section_of_a_song_is_what_it_is_alone);
    RUN(no_seam_doubles_a_stroke_at_any_take);
    RUN(a_section_at_another_speed_begins_at_its_line_too);
    RUN(a_file_ends_with_its_last_bar);
    RUN(after_sixty_seams_a_note_is_still_on_its_tick);
    performance_close(&performance);
    return tests_end();
}
