// SPDX-License-Identifier: ISC
/* engine.h - the one door to the music: settings and reports go in, a block's
   MIDI comes out.  Audio thread only; never allocates, locks, logs or waits. */
#pragma once

#include "groove.h"
#include "midi.h"
#include "position.h"
#include "scheduler.h"

typedef struct {
    const Library* library;
    Settings settings;
    Choice choice;
    Position position;
    Scheduler scheduler;
    StrokeList strokes;
    MidiList out;
} Engine;

/* `library` must outlive the engine and stay as it is. */
void engine_init(Engine* engine, const Library* library, double frames_per_second);

/* Takes effect from the next frame on. */
void engine_set(Engine* engine, const Settings* settings);

/* Takes in a report that stands at frame `offset` of the block going on. */
void engine_report(Engine* engine, const Report* report, uint32_t offset);

/* Begins the output of a block, or of a further part of one: `room` is how many
   messages can still be taken. */
void engine_begin(Engine* engine, uint32_t room);

/* Plays `frames` frames, at most SLICE_FRAMES_MAX, from `offset` in the block. */
void engine_advance(Engine* engine, uint32_t offset, uint32_t frames);
