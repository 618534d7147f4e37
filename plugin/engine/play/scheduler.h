// SPDX-License-Identifier: ISC
/* scheduler.h - hits become MIDI notes in frame order, and every note that
   was begun is ended: as its limb strikes again, a quarter note later at the most, before
   its key is struck again, at a stop or jump.  Who knows no more than what was struck so
   far can tell all of that, so that files and hosts get the same notes.
   Audio thread only; never allocates, never blocks. */
#pragma once

#include "../time/clock.h"
#include "../written/library.h"
#include "midi.h"
#include "lookahead.h"

/* A note that has begun. */
typedef struct {
    int64_t on_frame;  /* of the clock */
    int64_t off_frame; /* of the clock */
    uint32_t message;  /* its place in the list it was begun in */
    uint8_t note;
    uint8_t channel;
    uint8_t limb; /* Limb that struck it; LIMB_COUNT: the click */
} SoundingNote;

typedef struct {
    SoundingNote notes[SOUNDING_MAX];
    uint32_t count;
    uint32_t dropped; /* strokes not played because the receiver had no room */
} Scheduler;

/* Which key and channel strokes go to. */
typedef struct {
    const Kit* kit;  /* NULL: nothing is played */
    uint8_t channel; /* 0 to 15 */
    uint8_t click_channel;
    bool split_feet; /* the left foot's kick has its own key */
} Output;

/* One stretch of a block: [begin, end) on the clock, begin at `offset` in it. */
typedef struct {
    int64_t begin;
    int64_t end;
    uint32_t offset;
} Stretch;

/* Writes the hits of a stretch and the note-offs due in it.  A hit is
   begun only if the room left can still end every sounding note and its own. */
void scheduler_play(Scheduler* scheduler, const HitList* hits, Output output, const Clock* clock,
                    Stretch stretch, MidiList* list);

/* Ends every sounding note at `frame` of the block, as far as there is room;
   what is left is ended when next there is. */
void scheduler_silence(Scheduler* scheduler, uint32_t frame, MidiList* list);
