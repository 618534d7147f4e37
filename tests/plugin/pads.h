// SPDX-License-Identifier: ISC
/* pads.h - a drummer's pads on the built plugin: what came in, what came out, and who
   holds which key.  What is wanted is worked out from two runs: our notes without the
   drummer's, and the drummer's.  MIDI 1.0 leaves to the receiver what a second note on
   a key does; so that every receiver does the same, a key that sounds is ended before it
   is struck again, and falls silent once neither of both holds it. */
#pragma once

#include "../../plugin/talk/encode.h"
#include "../../plugin/talk/uris.h"
#include "../help/check.h"
#include "../help/exact.h"
#include "bundle.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>

enum { RATE = 48000, EVENTS_MAX = 4096, LONG_EVENT = 24, DRUMS = 9 };
enum { KICK = 36, SNARE = 38, CRASH = 49 }; /* General MIDI Level 1 */

typedef struct {
    int64_t frame;
    uint32_t size;
    uint8_t bytes[LONG_EVENT];
} Event;

typedef struct {
    int count;
    Event events[EVENTS_MAX];
} Events;

static Host* host;
static Uris uris;
static Events own, pads, heard;
static int64_t now;   /* frames run since the start */
static int misplaced; /* events heard out of order or of the block */

static inline void set(const char* const symbol, const float value)
{
    char why[HOST_WHY_ROOM] = "";
    if (!host_set(host, symbol, value, why)) {
        CHECK_TEXT(why, "");
    }
}

static inline void add(Events* const to, const int64_t frame, const uint8_t a, const int b,
                       const int c)
{
    if (to->count < EVENTS_MAX) {
        to->events[to->count++] = (Event){frame, 3, {a, (uint8_t)b, (uint8_t)c}};
    }
}

/* ---- Running */

static inline void send(const int64_t frame, const uint8_t* const bytes, const uint32_t size)
{
    LV2_Atom_Forge* const forge = host_input(host);
    lv2_atom_forge_frame_time(forge, frame);
    lv2_atom_forge_atom(forge, size, uris.midi_MidiEvent);
    lv2_atom_forge_write(forge, bytes, size);
}

static inline void ask(const LV2_URID property)
{
    lv2_atom_forge_frame_time(host_input(host), 0);
    encode_look(host_input(host), property, &uris);
}

static inline void begin(const float speed)
{
    host_play_exactly(host);
    host_reset(host);
    host_set_room(host, 65536);
    host_send_position(host, (HostPosition){.speed = speed,
                                            .tempo = 120.0f,
                                            .beats_per_bar = 4.0f,
                                            .beat_unit = 4,
                                            .has_place = true});
    heard.count = 0;
    misplaced = 0;
    now = 0;
}

static inline void run(const uint32_t frames)
{
    int64_t before = 0;
    host_run(host, frames);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(host), event) {
        const int64_t at = event->time.frames;
        misplaced += at < before || at >= frames;
        before = at;
        if (heard.count < EVENTS_MAX && event->body.size <= LONG_EVENT) {
            Event* const new = &heard.events[heard.count++];
            *new = (Event){now + at, event->body.size, {0}};
            memcpy(new->bytes, event + 1, event->body.size);
        }
    }
    now += frames;
}

/* Runs to a frame in blocks, the pads' events in them; the last of a block first, if
   `backwards`. */
static inline void play(const int64_t end, const uint32_t block, const bool backwards)
{
    for (int next = 0; now < end;) {
        int last = next;
        while (last < pads.count && pads.events[last].frame < now + block) {
            ++last;
        }
        for (int i = next; i < last; ++i) {
            const Event* const event = &pads.events[backwards ? last - 1 - (i - next) : i];
            send(event->frame - now, event->bytes, event->size);
        }
        next = last;
        run(block);
    }
}

/* ---- What is wanted */

static inline bool is_on(const Event* const event)
{
    return event->size == 3 && (event->bytes[0] & 0xF0) == 0x90 && event->bytes[2] > 0;
}

static inline bool is_off(const Event* const event)
{
    return event->size == 3 && ((event->bytes[0] & 0xF0) == 0x80 ||
                                ((event->bytes[0] & 0xF0) == 0x90 && event->bytes[2] == 0));
}

static inline bool is_at(const Event* const event, const uint8_t channel, const int key)
{
    return (event->bytes[0] & 0x0F) == channel && event->bytes[1] == key;
}

/* Whether somebody holds a key after the frame: the last word of each counts. */
static inline bool holds(const Events* const who, const uint8_t channel, const int key,
                         const int64_t frame)
{
    bool held = false;
    for (int i = 0; i < who->count && who->events[i].frame <= frame; ++i) {
        const Event* const event = &who->events[i];
        if (is_at(event, channel, key) && (is_on(event) || is_off(event))) {
            held = is_on(event);
        }
    }
    return held;
}

/* Each key's notes follow one another: none begins while one sounds, and none is
   ended twice. */
static inline int notes_that_overlap(void)
{
    static bool sounds[16][128];
    int wrong = 0;
    memset(sounds, 0, sizeof sounds);
    for (int i = 0; i < heard.count; ++i) {
        const Event* const event = &heard.events[i];
        if (is_on(event) || is_off(event)) {
            bool* const now_sounds = &sounds[event->bytes[0] & 0x0F][event->bytes[1]];
            wrong += *now_sounds == is_on(event);
            *now_sounds = is_on(event);
        }
    }
    return wrong;
}

static inline int still_sounding(void)
{
    int count = 0;
    for (int key = 0; key < 128; ++key) {
        count += holds(&heard, DRUMS, key, now);
    }
    return count;
}

/* Three bars, of our own notes alone. */
static inline void hear_own(void)
{
    pads.count = 0;
    begin(1.0f);
    play(6 * RATE, 480, false);
    own = heard;
}

static inline uint32_t dice(uint32_t* const state, const uint32_t sides)
{
    *state = *state * 1664525U + 1013904223U;
    return (*state >> 8) % sides;
}

/* Rolls on the groove's own keys, some of them on our own strokes' very frames. */
static inline void strike_pads(const uint32_t seed)
{
    uint32_t state = seed;
    static const int keys[] = {KICK, SNARE, CRASH, 42, 46, 60};
    static bool held[6];
    memset(held, 0, sizeof held);
    pads.count = 0;
    for (int64_t frame = 0; frame < 5 * RATE; frame += dice(&state, 3000)) {
        const uint32_t pad = dice(&state, 6);
        const int64_t on_ours = own.events[dice(&state, (uint32_t)own.count)].frame;
        frame = on_ours > frame && on_ours < frame + 3000 ? on_ours : frame;
        add(&pads, frame, held[pad] ? 0x89 : 0x99, keys[pad], held[pad] ? 0 : 1 + (int)pad);
        held[pad] = !held[pad];
    }
    for (int pad = 0; pad < 6; ++pad) {
        if (held[pad]) {
            add(&pads, 5 * RATE + 4000 + pad, 0x89, keys[pad], 0);
        }
    }
}

static inline void open_pads(void)
{
    host = bundle_host(RATE);
    LV2_URID_Map map = {host, (LV2_URID(*)(LV2_URID_Map_Handle, const char*))host_urid};
    uris = uris_map(&map);
}
