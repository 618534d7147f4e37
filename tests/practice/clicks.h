// SPDX-License-Identifier: ISC
/* clicks.h - the click heard on a stage, and where it must stand: frames counted
   in long double from tempo and bars, knowing nothing of the plugin's ticks. */
#pragma once

#include "../rhythm/stage.h"

#include <math.h>

/* General MIDI 2: Metronome Click and Metronome Bell (tests/data/gm-percussion.tsv). */
enum { CLICK_KEY = 33, BELL_KEY = 34, STILL = 0, HOST_ALWAYS = 2, SIXTEENTHS = 3 };

/* What is set on the own clock, all in quarter notes a minute. */
typedef struct {
    long double tempo, step, top;
    int every, phrase_bars, count_in;
    long double bar_quarters;
    long double rate; /* of the practice rate */
} Ladderway;

static inline bool is_click(const Note note)
{
    return note_is_on(note) && (note.bytes[1] == CLICK_KEY || note.bytes[1] == BELL_KEY);
}

/* The index of the next click from `from` on, or the count. */
static inline uint32_t next_click(const Stage* const stage, uint32_t from)
{
    while (from < stage->count && !is_click(stage->notes[from])) {
        ++from;
    }
    return from;
}

/* Tempo of a bar: climbed step by step, not by a formula. */
static inline long double tempo_of_bar(const Ladderway way, const int64_t bar)
{
    long double tempo = way.tempo;
    const int64_t turn = (int64_t)way.phrase_bars * way.every;
    for (int64_t rise = turn; way.step > 0.0L && rise <= bar; rise += turn) {
        tempo = tempo + way.step < way.top ? tempo + way.step : way.top;
    }
    return tempo * way.rate;
}

static inline void set_way(Stage* const stage, const Ladderway way)
{
    stage_set(stage, "clock", 1);
    stage_set(stage, "tempo", (double)way.tempo);
    stage_set(stage, "ladder_step", (double)way.step);
    stage_set(stage, "ladder_top", (double)way.top);
    stage_set(stage, "ladder_every", way.every);
    stage_set(stage, "phrase_bars", way.phrase_bars);
    stage_set(stage, "count_in", way.count_in);
    stage_set(stage, "click", HOST_ALWAYS);
    stage_set(stage, "click_grid", SIXTEENTHS);
}

/* Clicks on every sixteenth since the frame the clock began at, each within half
   a frame; how many there were. */
static inline uint32_t check_way(const Stage* const stage, const Ladderway way, const int64_t began)
{
    uint32_t found = 0;
    uint32_t at = 0;
    long double exact = (long double)began;
    const int64_t in_bar = (int64_t)(way.bar_quarters * 4.0L + 0.5L);
    for (int64_t step = -way.count_in * in_bar;; ++step) {
        at = next_click(stage, at);
        if (at == stage->count) {
            return found;
        }
        const Note note = stage->notes[at++];
        check_case("sixteenth %d from bar 0", (int)step);
        if (!CHECK_NEAR(note.frame, exact, 0.5 + 1e-4)) {
            return found;
        }
        CHECK_INT(note.bytes[1], step % in_bar == 0 ? BELL_KEY : CLICK_KEY);
        const int64_t bar = step < 0 ? -1 : step / in_bar;
        exact += 60.0L / tempo_of_bar(way, bar) / 4.0L * (long double)STAGE_RATE;
        ++found;
    }
}
