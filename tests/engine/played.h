// SPDX-License-Identifier: ISC
/* played.h - the feet as an engine plays them, and as variations of what each letter has, laid
   out bar by bar here: by the words of groove.h on bars, phrases and rolling figures alone. */
#pragma once

#include "../../plugin/engine/play/engine.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <math.h>

enum { PLAYED_RATE = 48000, PLAYED_MAX = 16384, PLAYED_LEVELS = 8 };

typedef struct {
    int64_t tick;
    uint8_t limb;
    uint8_t level; /* of what is played: 0 */
    uint8_t velocity;
} FootStroke;

typedef struct {
    int count;
    FootStroke strokes[PLAYED_MAX];
} FootStrokes;

/* What is set, and where it is played. */
typedef struct {
    float values[CONTROL_COUNT];
    Meter meter;
    double tempo;
    uint32_t block;
    int64_t from; /* bars */
    int64_t to;
} PlayedCase;

static Bank* bank;
static Engine played_engine;
static FootStrokes played, expected;

/* Feet alone, exactly, the left one's kick on a key of its own; no fill. */
static inline PlayedCase played_case(const uint32_t feet, const Meter meter, const double tempo)
{
    PlayedCase made = {.meter = meter, .tempo = tempo, .block = 64, .to = 2};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        made.values[i] = control_rows[i].normal;
    }
    made.values[CONTROL_FEET] = (float)feet;
    made.values[CONTROL_TURNAROUND] = TURNAROUND_NONE;
    made.values[CONTROL_SPLIT_FEET] = 1.0f;
    made.values[CONTROL_SWING_RATIO] = 1.0001f; /* straight, but for 36 ticks */
    made.values[CONTROL_LOOSENESS] = made.values[CONTROL_TOUCH] = 0.0f;
    made.values[CONTROL_LIBERTY] = 0.0f;
    made.values[CONTROL_ACCENT_FEET] = 100.0f;
    made.values[CONTROL_RIGHT_HAND] = made.values[CONTROL_LEFT_HAND] = 0.0f;
    return made;
}

static inline void played_set(const PlayedCase* const made)
{
    const Settings settings = settings_from_controls(made->values);
    engine_set(&played_engine, &settings);
}

static inline void played_begin(const PlayedCase* const made)
{
    engine_init(&played_engine, bank_library(bank), PLAYED_RATE);
    played_set(made);
    engine_locate(&played_engine, made->meter, made->tempo,
                  made->from * meter_bar_ticks(made->meter));
    played.count = 0;
}

static inline double played_frames(const PlayedCase* const made, const int64_t ticks)
{
    return (double)ticks * 60.0 * PLAYED_RATE / (made->tempo * (double)TICKS_PER_QUARTER);
}

/* One block: frames are counted from `from`'s line, strokes told in its ticks. */
static inline void played_block(const PlayedCase* const made, const int64_t frame,
                                const uint32_t frames)
{
    const Kit* const kit = engine_selection(&played_engine).kit;
    engine_begin(&played_engine, MIDI_LIST_MAX);
    engine_advance(&played_engine, 0, frames);
    const MidiList* const out = &played_engine.out;
    for (uint32_t i = 0; i < out->count; ++i) {
        const MidiMessage* const message = &out->messages[i];
        const uint8_t key = message->bytes[1];
        const bool is_left = key == kit->notes[VOICE_KICK_LEFT];
        const bool is_kick = is_left || key == kit->notes[VOICE_KICK];
        if ((message->bytes[0] & 0xF0) == MIDI_NOTE_ON && is_kick && played.count < PLAYED_MAX) {
            const double per_tick = played_frames(made, TICKS_PER_QUARTER) / TICKS_PER_QUARTER;
            played.strokes[played.count++] =
                (FootStroke){(int64_t)floor((double)(frame + message->frame) / per_tick + 0.5),
                             is_left ? LEFT_FOOT : RIGHT_FOOT, 0, message->bytes[2]};
        }
    }
}

/* From the case's first bar to before its last, in slices as the plugin has them. */
static inline void played_run(const PlayedCase* const made)
{
    const int64_t ticks = (made->to - made->from) * meter_bar_ticks(made->meter);
    const int64_t end = (int64_t)floor(played_frames(made, ticks) + 0.5);
    for (int64_t frame = 0; frame < end;) {
        int64_t left = made->block < end - frame ? made->block : end - frame;
        while (left > 0) {
            const uint32_t slice = (uint32_t)(left < SLICE_FRAMES_MAX ? left : SLICE_FRAMES_MAX);
            played_block(made, frame, slice);
            frame += slice;
            left -= slice;
        }
    }
}

/* ---- What is expected */

static inline void expect_stroke(const Stroke stroke, const int64_t tick)
{
    const bool is_kick = stroke.voice == VOICE_KICK || stroke.voice == VOICE_KICK_LEFT;
    if (is_kick && expected.count < PLAYED_MAX) {
        expected.strokes[expected.count++] = (FootStroke){tick, stroke.limb, stroke.level, 0};
    }
}

/* A figure's strokes in a bar that begins so many ticks after where it starts again. */
static inline void expect_bar(const Figure* const feet, const Meter meter, const int64_t in_phrase,
                              const int64_t begin)
{
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t since = in_phrase * bar;
    for (int64_t turn = since / feet->cycle_ticks * feet->cycle_ticks; turn < since + bar;
         turn += feet->cycle_ticks) {
        for (uint32_t i = 0; i < feet->stroke_count; ++i) {
            const int64_t tick = turn + feet->strokes[i].tick - since;
            if (tick >= 0 && tick < bar) {
                expect_stroke(feet->strokes[i], begin + tick);
            }
        }
    }
}

static inline int foot_order(const void* const a, const void* const b)
{
    const FootStroke* const x = (const FootStroke*)a;
    const FootStroke* const y = (const FootStroke*)b;
    return x->tick != y->tick ? (x->tick < y->tick ? -1 : 1) : (int)x->limb - (int)y->limb;
}

/* The same strokes, each within a frame of its place; every level at one velocity, and a
   higher level louder.  How many. */
static inline int check_strokes(const PlayedCase* const made)
{
    uint8_t loud[PLAYED_LEVELS] = {0};
    const double frame = (double)TICKS_PER_QUARTER / played_frames(made, TICKS_PER_QUARTER);
    qsort(expected.strokes, (size_t)expected.count, sizeof(FootStroke), foot_order);
    for (int i = 0; i < played.count; ++i) { /* what a frame can't part */
        for (int j = i;
             j > 0 && fabs((double)(played.strokes[j].tick - played.strokes[j - 1].tick)) < 1.0 &&
             played.strokes[j].limb < played.strokes[j - 1].limb;
             --j) {
            const FootStroke other = played.strokes[j];
            played.strokes[j] = played.strokes[j - 1];
            played.strokes[j - 1] = other;
        }
    }
    CHECK_INT(played.count, expected.count);
    for (int i = 0; i < played.count && i < expected.count; ++i) {
        const FootStroke want = expected.strokes[i], got = played.strokes[i];
        CHECK_NEAR((double)got.tick, (double)want.tick, 1.5 * frame);
        CHECK_INT(got.limb, want.limb);
        loud[want.level] = loud[want.level] ? loud[want.level] : got.velocity;
        CHECK_INT(got.velocity, loud[want.level]);
    }
    CHECK(!loud[LEVEL_NORMAL] || !loud[LEVEL_ACCENT] || loud[LEVEL_ACCENT] > loud[LEVEL_NORMAL]);
    return expected.count;
}
