// SPDX-License-Identifier: ISC
/* stage.h - the built plugin in the offline host, at 48 kHz: sets controls,
   tells it where the song is, keeps every note and counts what must never be:
   a key begun that sounds, a key ended that is silent. */
#pragma once

#include "../../ui/command/host.h"
#include "../help/check.h"
#include "../help/exact.h"

#include <inttypes.h>
#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <lv2/time/time.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STAGE_RATE = 48000, STAGE_NOTES = 60000, CHANNELS = 16, KEYS = 128 };

typedef struct {
    int64_t frame; /* since the stage was opened */
    uint8_t bytes[3];
} Note;

typedef struct {
    Host* host;
    int64_t now; /* frames run */
    double tempo;
    int beats, unit;
    uint32_t count;
    uint32_t sounding; /* keys on all channels */
    uint32_t faults;
    bool sounds[CHANNELS][KEYS];
    Note notes[STAGE_NOTES];
} Stage;

static inline Host* stage_host(void)
{
    char why[HOST_WHY_ROOM] = "";
    setenv("XDG_DATA_HOME", FOURLIMB_BUILD "/no-such-folder", 1);
    Host* const host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", STAGE_RATE, why);
    if (!host) {
        printf("# %s\n", why);
        exit(2);
    }
    return host;
}

/* Opens the bundle without the user's own bank, or starts the plugin afresh if
   the stage has it open already; ends the program if it can't. */
static inline void stage_open(Stage* const stage, const double tempo, const int beats,
                              const int unit)
{
    Host* const host = stage->host;
    memset(stage, 0, sizeof *stage);
    stage->host = host ? host : stage_host();
    host_play_exactly(stage->host);
    host_reset(stage->host);
    stage->tempo = tempo;
    stage->beats = beats;
    stage->unit = unit;
}

static inline void stage_close(Stage* const stage)
{
    host_close(stage->host);
    stage->host = NULL;
}

static inline void stage_set(Stage* const stage, const char* const symbol, const double value)
{
    char why[HOST_WHY_ROOM] = "";
    const bool is_set = host_set(stage->host, symbol, (float)value, why);
    if (!CHECK(is_set)) {
        printf("# %s\n", why);
    }
}

static inline void stage_key(Stage* const stage, const char* const uri)
{
    lv2_atom_forge_key(host_input(stage->host), host_urid(stage->host, uri));
}

/* Tells a transport at the start of the next block: `quarters` from bar 0. */
static inline void stage_tell(Stage* const stage, const double quarters, const double speed)
{
    LV2_Atom_Forge* const forge = host_input(stage->host);
    LV2_Atom_Forge_Frame object;
    const double beat = quarters * stage->unit / 4.0;
    const int64_t bar = (int64_t)(beat / stage->beats);
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, &object, 0, host_urid(stage->host, LV2_TIME__Position));
    stage_key(stage, LV2_TIME__frame);
    lv2_atom_forge_long(forge, (int64_t)(quarters * 60.0 / stage->tempo * STAGE_RATE + 0.5));
    stage_key(stage, LV2_TIME__speed);
    lv2_atom_forge_float(forge, (float)speed);
    stage_key(stage, LV2_TIME__bar);
    lv2_atom_forge_long(forge, bar);
    stage_key(stage, LV2_TIME__barBeat);
    lv2_atom_forge_float(forge, (float)(beat - (double)bar * stage->beats));
    stage_key(stage, LV2_TIME__beatsPerBar);
    lv2_atom_forge_float(forge, (float)stage->beats);
    stage_key(stage, LV2_TIME__beatUnit);
    lv2_atom_forge_int(forge, stage->unit);
    stage_key(stage, LV2_TIME__beatsPerMinute);
    lv2_atom_forge_float(forge, (float)stage->tempo);
    lv2_atom_forge_pop(forge, &object);
}

static inline void stage_take(Stage* const stage, const LV2_Atom_Event* const event)
{
    Note note = {stage->now + event->time.frames, {0}};
    if (event->body.size != sizeof note.bytes || stage->count == STAGE_NOTES) {
        ++stage->faults;
        return;
    }
    memcpy(note.bytes, event + 1, sizeof note.bytes);
    const bool on = (note.bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
    bool* const sounds = &stage->sounds[note.bytes[0] & 0xF][note.bytes[1] & 0x7F];
    stage->faults += *sounds == on;
    stage->sounding += on;
    stage->sounding -= !on && *sounds;
    *sounds = on;
    stage->notes[stage->count++] = note;
}

static inline void stage_block(Stage* const stage, const uint32_t frames)
{
    host_run(stage->host, frames);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(stage->host), event) {
        stage_take(stage, event);
    }
    stage->now += frames;
}

/* Runs so many frames in blocks of a size, the last cut. */
static inline void stage_run(Stage* const stage, int64_t frames, const uint32_t block)
{
    for (; frames > 0; frames -= block) {
        stage_block(stage, frames < block ? (uint32_t)frames : block);
    }
}

static inline void stage_stop(Stage* const stage, const double quarters)
{
    stage_tell(stage, quarters, 0.0);
    stage_block(stage, 64);
}

static inline bool same_stage_notes(const Stage* const a, const Stage* const b)
{
    bool same = a->count == b->count;
    for (uint32_t i = 0; same && i < a->count; ++i) {
        same = a->notes[i].frame == b->notes[i].frame &&
               !memcmp(a->notes[i].bytes, b->notes[i].bytes, sizeof a->notes[i].bytes);
    }
    return same;
}

static inline bool note_is_on(const Note note)
{
    return (note.bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
}

/* Note-ons of a key in [begin, end). */
static inline uint32_t stage_struck(const Stage* const stage, const int key, const int64_t begin,
                                    const int64_t end)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < stage->count; ++i) {
        const Note note = stage->notes[i];
        count +=
            note_is_on(note) && note.bytes[1] == key && note.frame >= begin && note.frame < end;
    }
    return count;
}
