// SPDX-License-Identifier: ISC
/* fills_counted.h - where fills stand, counted for the tests, from what a musician is told of
   them: a fill ends where its phrase ends, or each so many bars counted from bar 0; it is at
   most as long as its figure lasts, as the bars it is written for, as so many beats, as from
   line to line; its end stands on the line; before it hands and feet go on as if there were
   none. */
#pragma once

#include "../help/check.h"
#include "library.h"

#include <stdio.h>

static const Meter meters[] = {{4.0, 4}, {3.0, 4},  {6.0, 8}, {7.0, 8}, {5.0, 4},
                               {9.0, 8}, {12.0, 8}, {2.0, 2}, {7.0, 16}};
enum { METERS = sizeof meters / sizeof *meters, FIGURES = 6, SONG_BARS = 13, FOUND_MAX = 6000 };

static OwnFigure ride, snare, threes, waltz, fills[FIGURES];

/* Figures for whole bars and such as roll; fills of a beat to five bars, with feet or without,
   one with a pedal, one in triplets. */
static inline void make_figures(void)
{
    static const uint32_t bars[FIGURES] = {1, 0, 2, 0, 4, 0};
    ride = snare = threes = waltz = (OwnFigure){0};
    add_line(&ride, RIGHT_HAND, VOICE_RIDE, 2, 1, "Oogoo.oO");
    ride.figure.bars = 1;
    add_line(&snare, LEFT_HAND, VOICE_SNARE, 4, 1, "..g.Og.");
    add_line(&threes, RIGHT_FOOT, VOICE_KICK, 4, 1, "Oo.");
    add_line(&threes, LEFT_FOOT, VOICE_KICK, 4, 1, "..o");
    add_line(&waltz, RIGHT_FOOT, VOICE_KICK, 2, 1, "O.o.o.O.o.oo");
    waltz.figure.bars = 2;
    for (int i = 0; i < FIGURES; ++i) {
        fills[i] = (OwnFigure){0};
        fills[i].figure.bars = bars[i];
    }
    add_line(&fills[0], LEFT_HAND, VOICE_TOM_HIGH, 4, 1, "Oogo.ogoOogogogo");
    add_line(&fills[1], RIGHT_HAND, VOICE_TOM_FLOOR, 4, 1, "Oo.O");
    add_line(&fills[2], RIGHT_HAND, VOICE_CHINA, 2, 1, "O.o.oo..OoO.ooOO");
    add_line(&fills[2], RIGHT_FOOT, VOICE_KICK, 4, 1, "O..o..o..O..o..oO..o..o..O..o..o");
    add_line(&fills[3], LEFT_HAND, VOICE_SNARE, 3, 1, "OooOoogggOoOoooO.ooo.oOo.gggoooO");
    add_line(&fills[3], LEFT_FOOT, VOICE_HAT_PEDAL, 1, 1, "oooooooooo");
    add_line(&fills[4], RIGHT_HAND, VOICE_TOM_MID, 1, 1, "OogoOo.oOogoOo.g");
    add_line(&fills[4], LEFT_FOOT, VOICE_KICK, 2, 1, "O.o.o.ogO.o.o.ogO.o.o.ogO.o.oooo");
    add_line(&fills[5], RIGHT_HAND, VOICE_TOM_LOW, 1, 1, "OogoOo.oOogoOo.gOogoOoogO");
}

static inline Groove two_letters(void)
{
    Groove groove = one_letter(&ride.figure, &threes.figure, meters[0], 4);
    groove.parts[1] = (Part){.hands = &snare.figure, .feet = &waltz.figure};
    groove.form[1] = groove.form[3] = 1;
    return groove;
}

/* ---- The count */

typedef struct {
    uint32_t count;
    Stroke strokes[FOUND_MAX];
} Strokes;

static inline int64_t least(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* Ticks from a place to the fill's line if it lies in the fill, else 0.  `every`: bars. */
static inline int64_t left_of_fill(const Selection* const selection, const Meter meter,
                                   const int64_t tick)
{
    const Figure* const fill = selection->turnaround;
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t every = selection->fill_every ? selection->fill_every : selection->phrase_bars;
    int64_t line = 0;
    while (line <= tick) {
        line += every * bar; /* the next line of all that there are */
    }
    int64_t length = least(fill->cycle_ticks, every * bar);
    length = least(length, (fill->bars ? fill->bars : 4) * bar);
    if (selection->fill_beats) {
        length = least(length, selection->fill_beats * 4 * TICKS_PER_QUARTER / meter.beat_unit);
    }
    return line - tick <= length ? line - tick : 0;
}

/* A shuffle of two to one moves the middle of a quarter note to two thirds of it; where the
   bar has no whole quarter left nothing moves. */
static inline int64_t shuffled(const Stroke stroke, const int64_t bar)
{
    const int64_t q = TICKS_PER_QUARTER;
    const int64_t in_bar = stroke.tick % bar;
    const int64_t in_pair = in_bar % q;
    if (!stroke.bends || in_bar - in_pair + q > bar) {
        return stroke.tick;
    }
    const int64_t moved = in_pair < q / 2 ? in_pair * 4 / 3 : q * 2 / 3 + (in_pair - q / 2) * 2 / 3;
    return stroke.tick - in_pair + moved;
}

static inline void put(Strokes* const strokes, const Stroke stroke)
{
    strokes->strokes[strokes->count++] = stroke;
}

/* What the groove plays where no fill is: as if there were none. */
static inline void count_groove(const Selection* const selection, const Meter meter,
                                Strokes* const expected)
{
    static StrokeList list;
    const int64_t bar = meter_bar_ticks(meter);
    const Figure* const fill = selection->turnaround;
    Selection without = *selection;
    without.turnaround = NULL;
    without.swing.ratio = 1.0;
    for (int index = 0; index < SONG_BARS; ++index) {
        groove_strokes(&without, meter, index * bar, (index + 1) * bar, &list);
        for (uint32_t i = 0; i < list.count; ++i) {
            const Stroke stroke = list.strokes[i];
            const bool is_left = !limb_is_foot(stroke.limb) || figure_has_feet(fill);
            if (!is_left || !left_of_fill(selection, meter, stroke.tick)) {
                put(expected, stroke);
            }
        }
    }
}

/* A fill's stroke stands as far before the line as it is written before the fill's end. */
static inline void count_fills(const Selection* const selection, const Meter meter,
                               Strokes* const expected)
{
    const Figure* const fill = selection->turnaround;
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t every = selection->fill_every ? selection->fill_every : selection->phrase_bars;
    for (int64_t line = every * bar; line - every * bar < SONG_BARS * bar; line += every * bar) {
        for (uint32_t i = 0; i < fill->stroke_count; ++i) {
            Stroke stroke = fill->strokes[i];
            stroke.tick += line - fill->cycle_ticks;
            const bool is_mirrored =
                selection->left_foot_leads && limb_is_foot(stroke.limb) && !fill->plays_pedal;
            stroke.limb = is_mirrored ? RIGHT_FOOT + LEFT_FOOT - stroke.limb : stroke.limb;
            const bool is_its = stroke.tick >= 0 && stroke.tick < SONG_BARS * bar &&
                                left_of_fill(selection, meter, stroke.tick) == line - stroke.tick;
            if (is_its && selection->limbs[stroke.limb]) {
                put(expected, stroke);
            }
        }
    }
}

static inline void count_song(const Selection* const selection, const Meter meter,
                              Strokes* const expected)
{
    expected->count = 0;
    count_groove(selection, meter, expected);
    count_fills(selection, meter, expected);
    for (uint32_t i = 0; selection->swing.ratio > 1.0 && i < expected->count; ++i) {
        expected->strokes[i].tick = shuffled(expected->strokes[i], meter_bar_ticks(meter));
    }
    strokes_sort(expected->strokes, expected->count);
}

/* ---- Against it */

static Strokes expected, played;

/* In spans of any length. */
static inline void play_song(const Selection* const selection, const Meter meter,
                             const int64_t span)
{
    static StrokeList list;
    const int64_t end = SONG_BARS * meter_bar_ticks(meter);
    played.count = 0;
    for (int64_t at = 0; at < end; at += span) {
        groove_strokes(selection, meter, at, least(at + span, end), &list);
        CHECK_INT(list.dropped, 0);
        for (uint32_t i = 0; i < list.count; ++i) {
            put(&played, list.strokes[i]);
        }
    }
}

static inline bool is_same(const Stroke a, const Stroke b)
{
    return a.tick == b.tick && a.limb == b.limb && a.voice == b.voice && a.level == b.level;
}

static inline void check_song(const Selection* const selection, const Meter meter,
                              const int64_t span)
{
    count_song(selection, meter, &expected);
    play_song(selection, meter, span);
    CHECK(expected.count > 0);
    CHECK_INT(played.count, expected.count);
    for (uint32_t i = 0; i < expected.count && i < played.count; ++i) {
        if (!CHECK(is_same(played.strokes[i], expected.strokes[i]))) {
            printf("# stroke %u: got tick %lld limb %d voice %d, want tick %lld limb %d voice %d\n",
                   i, (long long)played.strokes[i].tick, played.strokes[i].limb,
                   played.strokes[i].voice, (long long)expected.strokes[i].tick,
                   expected.strokes[i].limb, expected.strokes[i].voice);
            return;
        }
    }
}

static inline Selection filled(const Groove* const groove, const int fill)
{
    Selection selection = selection_of_groove(groove);
    selection.turnaround = &fills[fill].figure;
    return selection;
}
