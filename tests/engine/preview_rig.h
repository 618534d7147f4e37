// SPDX-License-Identifier: ISC
/* preview_rig.h - an engine that plays, and somebody who looks on: what the preview
   said of each bar, and which notes came at which frame. */
#pragma once

#include "../../plugin/engine/play/preview.h"
#include "../bank/factory.h"

#include <math.h>

enum { LOOK_RATE = 48000, LOOK_BARS = 64, LOOK_NOTES = 16384 };

typedef struct {
    int64_t frame; /* from bar 0 on */
    uint8_t key;
    uint8_t velocity;
} Note;

typedef struct {
    int count;
    Note notes[LOOK_NOTES];
} NoteList;

typedef struct {
    Engine engine;
    Preview preview;
    float values[CONTROL_COUNT];
    Meter meter;
    double tempo;
    int64_t frames; /* since bar 0 */
    NoteList played;
    bool has[LOOK_BARS];
    SeenBar bars[LOOK_BARS]; /* as said last, by number */
    int steps;               /* of the preview, so far */
    int told;                /* bars fetched so far */
} PreviewFeed;

static inline void look_set(PreviewFeed* const look, const Control control, const float value)
{
    look->values[control] = value;
    const Settings settings = settings_from_controls(look->values);
    engine_set(&look->engine, &settings);
}

static inline void look_report(PreviewFeed* const look, const double speed)
{
    const Report report = {.has = HAS_FRAME | HAS_SPEED | HAS_BAR | HAS_BAR_BEAT | HAS_BEAT_UNIT |
                                  HAS_BEATS_PER_BAR | HAS_BEATS_PER_MINUTE,
                           .frame = 0,
                           .speed = speed,
                           .bar = 0,
                           .bar_beat = 0.0,
                           .beat_unit = look->meter.beat_unit,
                           .beats_per_bar = look->meter.beats_per_bar,
                           .beats_per_minute = look->tempo};
    engine_begin(&look->engine, MIDI_LIST_MAX);
    engine_report(&look->engine, &report, 0);
}

/* Stands at bar 0, with everything at its default. */
static inline void look_begin(PreviewFeed* const look, const Library* const library,
                              const Meter meter, const double tempo)
{
    memset(look, 0, sizeof *look);
    look->meter = meter;
    look->tempo = tempo;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        look->values[i] = control_rows[i].normal;
    }
    engine_init(&look->engine, library, LOOK_RATE);
    preview_start(&look->preview);
    look_report(look, 0.0);
}

static inline bool look_step(PreviewFeed* const look)
{
    preview_step(&look->preview, &look->engine);
    ++look->steps;
    const SeenBar* const seen = preview_fetch(&look->preview);
    if (seen && seen->bar >= 0 && seen->bar < LOOK_BARS) {
        look->bars[seen->bar] = *seen;
        look->has[seen->bar] = true;
        ++look->told;
    }
    return seen || look->preview.is_making;
}

/* Until there is nothing left to look at. */
static inline void look_all(PreviewFeed* const look)
{
    for (int i = 0; i < 4096 && look_step(look); ++i) {
    }
}

static inline void look_play(PreviewFeed* const look, const uint32_t frames)
{
    engine_begin(&look->engine, MIDI_LIST_MAX);
    engine_advance(&look->engine, 0, frames);
    const MidiList* const out = &look->engine.out;
    for (uint32_t i = 0; i < out->count; ++i) {
        const MidiMessage* const message = &out->messages[i];
        if ((message->bytes[0] & 0xF0) == MIDI_NOTE_ON && look->played.count < LOOK_NOTES) {
            look->played.notes[look->played.count++] =
                (Note){look->frames + message->frame, message->bytes[1], message->bytes[2]};
        }
    }
    look->frames += frames;
}

static inline double look_frame(const PreviewFeed* const look, const double tick)
{
    return tick * 60.0 * LOOK_RATE / (look->tempo * (double)TICKS_PER_QUARTER);
}

static inline int64_t look_bar_ticks(const PreviewFeed* const look)
{
    return (int64_t)(look->meter.beats_per_bar * 4.0 / look->meter.beat_unit *
                     (double)TICKS_PER_QUARTER);
}

static inline void look_play_to_bar(PreviewFeed* const look, const double bar, const uint32_t block)
{
    const double end = look_frame(look, bar * (double)look_bar_ticks(look));
    while ((double)look->frames < end) {
        look_play(look, block);
    }
}

static inline int note_order(const void* const a, const void* const b)
{
    const Note* const x = (const Note*)a;
    const Note* const y = (const Note*)b;
    return x->frame != y->frame ? (x->frame < y->frame ? -1 : 1) : (int)x->key - (int)y->key;
}

/* Two limbs on one key at one frame are one note, as loud as the louder (engine's
   own rule, in scheduler.h's words). */
static inline void notes_sort(NoteList* const list)
{
    int kept = 0;
    qsort(list->notes, (size_t)list->count, sizeof(Note), note_order);
    for (int i = 0; i < list->count; ++i) {
        Note* const last = kept ? &list->notes[kept - 1] : NULL;
        const Note note = list->notes[i];
        if (last && last->frame == note.frame && last->key == note.key) {
            last->velocity = last->velocity < note.velocity ? note.velocity : last->velocity;
        } else {
            list->notes[kept++] = note;
        }
    }
    list->count = kept;
}

/* What the bars said will be heard between two frames: arithmetic on their ticks
   alone, one straight line of frames, rounded to the nearest. */
static inline void look_expect(const PreviewFeed* const look, const int bars, const int64_t from,
                               const int64_t to, NoteList* const list)
{
    const Kit* const kit = engine_selection(&look->engine).kit;
    list->count = 0;
    for (int bar = 0; bar < bars; ++bar) {
        const SeenBar* const seen = &look->bars[bar];
        for (uint32_t i = 0; look->has[bar] && i < seen->count; ++i) {
            const SeenStroke* const stroke = &seen->strokes[i];
            const double tick = (double)(bar * look_bar_ticks(look) + stroke->felt);
            const int64_t frame = (int64_t)floor(look_frame(look, tick) + 0.5);
            if (frame >= from && frame < to &&
                look->values[CONTROL_RIGHT_HAND + stroke->limb] > 0.0f &&
                list->count < LOOK_NOTES) {
                list->notes[list->count++] =
                    (Note){frame, kit->notes[stroke->voice], stroke->velocity};
            }
        }
    }
    notes_sort(list);
}

static inline void look_heard(const PreviewFeed* const look, const int64_t from, const int64_t to,
                              NoteList* const list)
{
    list->count = 0;
    for (int i = 0; i < look->played.count; ++i) {
        if (look->played.notes[i].frame >= from && look->played.notes[i].frame < to) {
            list->notes[list->count++] = look->played.notes[i];
        }
    }
    notes_sort(list);
}
