// SPDX-License-Identifier: ISC
/* played.h - a transport for the built plugin, and what it played, with the
   frames counted from the start. */
#pragma once

#include "bundle.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <lv2/time/time.h>

enum { EVENTS_MAX = 16384, RATE = 48000, BLOCK = 512 };

/* At 120 quarter notes a minute. */
enum { QUARTER_FRAMES = RATE / 2, BAR_FRAMES = 4 * QUARTER_FRAMES };

typedef struct {
    int64_t frame;
    uint8_t bytes[3];
} Event;

typedef struct {
    int64_t frames; /* run so far */
    size_t count;
    size_t lost;  /* found no room here */
    size_t wrong; /* not as midi:MidiEvent has to be, or out of order */
    Event events[EVENTS_MAX];
} Played;

typedef struct {
    float speed;
    double tempo; /* quarter notes a minute */
    float beats_per_bar;
    int32_t beat_unit;
    int64_t frame;
    int64_t at; /* frame of the block that it stands at */
} Transport;

/* From bar 0 at 120 quarter notes a minute in 4/4. */
static const Transport from_the_top = {1.0f, 120.0, 4.0f, 4, 0, 0};

static inline void forge_float(Host* const host, const char* const key, const float value)
{
    lv2_atom_forge_key(host_input(host), host_urid(host, key));
    lv2_atom_forge_float(host_input(host), value);
}

/* A position that stands in bar 0, on the beat that its frame makes. */
static inline void send_transport(Host* const host, const Transport transport)
{
    LV2_Atom_Forge* const forge = host_input(host);
    LV2_Atom_Forge_Frame object;
    const double beat = (double)transport.frame * transport.tempo / 60.0 / RATE;
    const double unit_beats = beat * transport.beat_unit / 4.0;
    const int64_t bar = (int64_t)(unit_beats / (double)transport.beats_per_bar);
    lv2_atom_forge_frame_time(forge, transport.at);
    lv2_atom_forge_object(forge, &object, 0, host_urid(host, LV2_TIME__Position));
    forge_float(host, LV2_TIME__speed, transport.speed);
    forge_float(host, LV2_TIME__beatsPerMinute, (float)transport.tempo);
    forge_float(host, LV2_TIME__beatsPerBar, transport.beats_per_bar);
    forge_float(host, LV2_TIME__barBeat,
                (float)(unit_beats - (double)bar * (double)transport.beats_per_bar));
    lv2_atom_forge_key(forge, host_urid(host, LV2_TIME__beatUnit));
    lv2_atom_forge_int(forge, transport.beat_unit);
    lv2_atom_forge_key(forge, host_urid(host, LV2_TIME__bar));
    lv2_atom_forge_long(forge, bar);
    lv2_atom_forge_key(forge, host_urid(host, LV2_TIME__frame));
    lv2_atom_forge_long(forge, transport.frame);
    lv2_atom_forge_pop(forge, &object);
}

static inline void stop_at(Host* const host, const int64_t frame, const int64_t at)
{
    Transport standing = from_the_top;
    standing.speed = 0.0f;
    standing.frame = frame;
    standing.at = at;
    send_transport(host, standing);
}

static inline void stop(Host* const host, const int64_t frame)
{
    stop_at(host, frame, 0);
}

/* The rules of midi:MidiEvent in the LV2 MIDI specification: whole note messages
   of three bytes, each with its status, only there the upper bit set, and a real
   note-off in place of velocity 0. */
static inline bool is_note_message(const uint32_t size, const uint8_t* const bytes)
{
    const uint8_t kind = size == 3 ? bytes[0] & 0xF0 : 0;
    return (kind == LV2_MIDI_MSG_NOTE_ON || kind == LV2_MIDI_MSG_NOTE_OFF) && bytes[1] < 0x80 &&
           bytes[2] < 0x80 && (kind == LV2_MIDI_MSG_NOTE_OFF || bytes[2] > 0);
}

static inline void take_event(Played* const played, const LV2_Atom_Event* const event,
                              const LV2_URID midi, const uint32_t frames, int64_t* const before)
{
    const uint8_t* const bytes = (const uint8_t*)(event + 1);
    const int64_t at = event->time.frames;
    const bool timed = at >= *before && at < (frames ? (int64_t)frames : 1);
    played->wrong +=
        event->body.type != midi || !timed || !is_note_message(event->body.size, bytes);
    *before = at;
    if (played->count == EVENTS_MAX) {
        ++played->lost;
        return;
    }
    played->events[played->count].frame = played->frames + at;
    memcpy(played->events[played->count++].bytes, bytes, 3);
}

/* Runs one block and takes what it gave. */
static inline void run_block(Host* const host, Played* const played, const uint32_t frames)
{
    const LV2_URID midi = host_urid(host, LV2_MIDI__MidiEvent);
    int64_t before = 0;
    host_run(host, frames);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(host), event) {
        take_event(played, event, midi, frames, &before);
    }
    played->frames += frames;
}

static inline void run_frames(Host* const host, Played* const played, const int64_t frames)
{
    const int64_t end = played->frames + frames;
    while (played->frames < end) {
        const int64_t left = end - played->frames;
        run_block(host, played, (uint32_t)(left < BLOCK ? left : BLOCK));
    }
}

static inline void play_from_the_top(Host* const host, Played* const played, const int64_t frames)
{
    played->frames = 0;
    played->count = played->lost = played->wrong = 0;
    host_reset(host);
    send_transport(host, from_the_top);
    run_frames(host, played, frames);
}

static inline bool is_note_on(const Event event)
{
    return (event.bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
}

static inline size_t notes_from(const Played* const played, const int64_t frame)
{
    size_t notes = 0;
    for (size_t i = 0; i < played->count; ++i) {
        notes += is_note_on(played->events[i]) && played->events[i].frame >= frame;
    }
    return notes;
}

/* True if a note of this key begins at the frame. */
static inline bool begins(const Played* const played, const int64_t frame, const uint8_t key)
{
    for (size_t i = 0; i < played->count; ++i) {
        const Event event = played->events[i];
        if (is_note_on(event) && event.frame == frame && event.bytes[1] == key) {
            return true;
        }
    }
    return false;
}

/* Notes that were begun and not ended by the end of what was played. */
static inline int sounding(const Played* const played)
{
    int on[16][128] = {{0}};
    int count = 0;
    for (size_t i = 0; i < played->count; ++i) {
        const uint8_t* const bytes = played->events[i].bytes;
        on[bytes[0] & 0x0F][bytes[1] & 0x7F] = is_note_on(played->events[i]);
    }
    for (int channel = 0; channel < 16; ++channel) {
        for (int key = 0; key < 128; ++key) {
            count += on[channel][key];
        }
    }
    return count;
}

static inline bool same_events(const Played* const a, const Played* const b)
{
    bool same = a->count == b->count;
    for (size_t i = 0; same && i < a->count; ++i) {
        same = a->events[i].frame == b->events[i].frame &&
               !memcmp(a->events[i].bytes, b->events[i].bytes, 3);
    }
    return same;
}
