// SPDX-License-Identifier: ISC
/* liberty_bits.h - grooves of the tests' own, played with liberty, as bits for each sixteenth;
   and tests/data/liberty.tsv, figures computed from the Groove MIDI Dataset (Gillick, Roberts,
   Engel, Eck, Bamman, ICML 2019, CC BY 4.0), at liberty 50, which is as measured. */
#pragma once

#include "../data/tsv.h"
#include "../help/check.h"
#include "liberty_rig.h"

#include <math.h>

enum { BARS = 2000, STEPS = 16, PARTS = 4 };

/* A bar: for each part a bit for each sixteenth, and what is opened. */
typedef struct {
    uint32_t struck[PARTS];
    uint32_t opened;
    uint32_t crash;
} Bits;

/* Lines of sixteenths: kick, snare, hat; g a ghost, o normal, O an accent. */
typedef struct {
    const char* kick;
    const char* snare;
    const char* hat;
} Written;

static const Written grooves[] = {
    {"O......oO.......", "....O..g.g..O..g", "o.o.o.o.o.o.o.o."},
    {"O..o......o..o..", "....O.....g.O...", "o.o.o.o.o.o.o.o."},
    {"O.....o.O.....o.", "..g.O....g..O.g.", "oooooooooooooooo"},
};
enum { GROOVES = sizeof grooves / sizeof *grooves };

static Stroke strokes[3 * STEPS];
static Figure hands, feet;
static Groove groove;

static inline uint32_t add_line(const char* const steps, const Stroke like, uint32_t at)
{
    for (int i = 0; i < STEPS; ++i) {
        if (steps[i] != '.') {
            strokes[at] = like;
            strokes[at].tick = i * (TICKS_PER_QUARTER / 4);
            strokes[at++].level = steps[i] == 'g'   ? LEVEL_GHOST
                                  : steps[i] == 'o' ? LEVEL_NORMAL
                                                    : LEVEL_ACCENT;
        }
    }
    return at;
}

static inline void write_groove(const Written* const written)
{
    const Stroke hat = {.limb = RIGHT_HAND, .voice = VOICE_HAT_CLOSED, .bends = true};
    const Stroke snare = {.limb = LEFT_HAND, .voice = VOICE_SNARE, .bends = true};
    const Stroke kick = {.limb = RIGHT_FOOT, .voice = VOICE_KICK, .bends = true};
    const uint32_t hand_count = add_line(written->snare, snare, add_line(written->hat, hat, 0));
    const uint32_t count = add_line(written->kick, kick, hand_count);
    strokes_sort(strokes, hand_count);
    hands = (Figure){.kind = FIGURE_HANDS,
                     .cycle_ticks = 4 * TICKS_PER_QUARTER,
                     .step_ticks = TICKS_PER_QUARTER / 4,
                     .bars = 1,
                     .stroke_count = hand_count,
                     .strokes = strokes};
    feet = hands;
    feet.kind = FIGURE_FEET;
    feet.strokes = strokes + hand_count;
    feet.stroke_count = count - hand_count;
    figure_note(&hands);
    figure_note(&feet);
    groove = plain_groove(&hands, &feet);
    groove.crash_start = true;
    groove.form_bars = FORM_BARS_MAX; /* the phrase's first beat is as written */
}

static inline Bits bits_of(const StrokeList* const list, const int64_t line)
{
    Bits bits = {.opened = 0};
    for (uint32_t i = 0; i < list->count; ++i) {
        const Stroke stroke = list->strokes[i];
        const uint32_t bit = 1U << (stroke.tick - line) / (TICKS_PER_QUARTER / 4);
        const int part = stroke.voice == VOICE_KICK    ? 0
                         : stroke.voice != VOICE_SNARE ? 3
                         : stroke.level == LEVEL_GHOST ? 1
                                                       : 2;
        bits.struck[part] |= stroke.voice == VOICE_CRASH ? 0 : bit;
        bits.opened |= stroke.voice == VOICE_HAT_OPEN ? bit : 0;
        bits.crash |= stroke.voice == VOICE_CRASH ? bit : 0;
    }
    return bits;
}

/* All bars of one groove, and what is written. */
typedef struct {
    Bits written;
    Bits bars[BARS];
} Played;

static Played played;

static inline void play(const int which, const double liberty)
{
    write_groove(&grooves[which]);
    const LibertyCase what = {&groove, 40 + (uint32_t)which, liberty, 105.0};
    const int64_t ticks = meter_bar_ticks(groove.meter);
    for (int bar = 0; bar < BARS; ++bar) {
        const StrokeList list = liberty_bar_of(&what, bar);
        played.bars[bar] = bits_of(&list, bar * ticks);
    }
    const StrokeList list = written_bar_of(&what, 1);
    played.written = bits_of(&list, ticks);
}

static inline int bits_in(uint32_t bits)
{
    int count = 0;
    for (; bits; bits &= bits - 1) {
        ++count;
    }
    return count;
}

static inline double table(const char* const statistic, const char* const of, const int column)
{
    Tsv tsv = tsv_open("liberty.tsv");
    double value = (double)NAN;
    while (tsv_next(&tsv)) {
        if (!strcmp(tsv.fields[0], statistic) && !strcmp(tsv.fields[1], of)) {
            value = strtod(tsv.fields[column], NULL);
        }
    }
    CHECK(!isnan(value));
    return value;
}
