// SPDX-License-Identifier: ISC
/* player.h - the built plugin in the offline host: tells it positions, runs
   blocks, keeps every note, and remembers the first rule that was broken. */
#pragma once

#include "../help/exact.h"
#include "../../ui/command/host.h"
#include "recording.h"

#include <inttypes.h>
#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <lv2/patch/patch.h>
#include <lv2/time/time.h>

enum { FAULT_ROOM = 160, KEYS = 128 };

typedef struct {
    int64_t frame; /* since the player began */
    uint8_t bytes[3];
} Note;

typedef struct {
    Host* host;
    LV2_URID sequence, midi_event, position, get;
    LV2_URID fields[FIELD_COUNT];
    int64_t now;
    uint32_t output_room; /* bytes of midi_out */
    bool overflowed;      /* more was told in a block than fits */
    bool sounding[KEYS];
    uint32_t sounding_count;
    char fault[FAULT_ROOM]; /* "none" */
    Note* notes;
    size_t count, room;
} Player;

static inline void map_fields(Player* const player)
{
    static const char* const uris[FIELD_COUNT] = {
        LV2_TIME__frame,       LV2_TIME__speed,          LV2_TIME__bar,
        LV2_TIME__barBeat,     LV2_TIME__beat,           LV2_TIME__beatUnit,
        LV2_TIME__beatsPerBar, LV2_TIME__beatsPerMinute, LV2_TIME__framesPerSecond,
        "urn:ardour:scale"};
    for (int i = 0; i < FIELD_COUNT; ++i) {
        player->fields[i] = host_urid(player->host, uris[i]);
    }
}

static inline bool player_open(Player* const player, const char* const bundle, const double rate)
{
    char why[HOST_WHY_ROOM] = "";
    *player = (Player){.host = host_open(bundle, rate, why), .output_room = 65536};
    snprintf(player->fault, sizeof player->fault, "none");
    if (!player->host) {
        printf("# %s\n", why);
        return false;
    }
    player->sequence = host_urid(player->host, LV2_ATOM__Sequence);
    player->midi_event = host_urid(player->host, LV2_MIDI__MidiEvent);
    player->position = host_urid(player->host, LV2_TIME__Position);
    player->get = host_urid(player->host, LV2_PATCH__Get);
    map_fields(player);
    host_play_exactly(player->host);
    return true;
}

static inline void player_close(Player* const player)
{
    host_close(player->host);
    free(player->notes);
    *player = (Player){.host = NULL};
}

static inline void player_room(Player* const player, const uint32_t bytes)
{
    player->output_room = bytes;
    host_set_room(player->host, bytes);
}

/* Types are I, L, F, D and B as in atom:Int and so on; S is no number at all. */
static inline LV2_Atom_Forge_Ref forge_number(LV2_Atom_Forge* const forge, const char type,
                                              const double value)
{
    switch (type) {
    case 'I':
        return lv2_atom_forge_int(forge, (int32_t)value);
    case 'L':
        return lv2_atom_forge_long(forge, (int64_t)value);
    case 'F':
        return lv2_atom_forge_float(forge, (float)value);
    case 'B':
        return lv2_atom_forge_bool(forge, value > 0.5);
    case 'S':
        return lv2_atom_forge_string(forge, "7", 1);
    default:
        return lv2_atom_forge_double(forge, value);
    }
}

/* Puts a position at a frame of the next block. */
static inline void player_tell(Player* const player, const Told* const told, const int64_t offset)
{
    LV2_Atom_Forge* const forge = host_input(player->host);
    LV2_Atom_Forge_Frame frame;
    bool good = lv2_atom_forge_frame_time(forge, offset) &&
                lv2_atom_forge_object(forge, &frame, 0, player->position);
    for (uint32_t i = 0; good && i < told->count; ++i) {
        good = lv2_atom_forge_key(forge, player->fields[told->fields[i]]) &&
               forge_number(forge, told->types[i], told->values[i]);
    }
    player->overflowed |= !good;
    if (good) {
        lv2_atom_forge_pop(forge, &frame);
    }
}

static inline void player_ask(Player* const player, const int64_t offset)
{
    LV2_Atom_Forge* const forge = host_input(player->host);
    LV2_Atom_Forge_Frame frame;
    if (lv2_atom_forge_frame_time(forge, offset) &&
        lv2_atom_forge_object(forge, &frame, 0, player->get)) {
        lv2_atom_forge_pop(forge, &frame);
    }
}

static inline void player_fault(Player* const player, const int64_t frame, const char* const what)
{
    if (!strcmp(player->fault, "none")) {
        snprintf(player->fault, sizeof player->fault, "%s at frame %" PRId64, what, frame);
    }
}

/* What note messages may follow each other. */
static inline void check_note(Player* const player, const Note note)
{
    const uint8_t status = note.bytes[0] & 0xF0U;
    const uint8_t key = note.bytes[1] & 0x7FU;
    if (status == LV2_MIDI_MSG_NOTE_ON) {
        if (!note.bytes[2]) {
            player_fault(player, note.frame, "a note-on of velocity 0");
        }
        if (player->sounding[key]) {
            player_fault(player, note.frame, "a note-on on a key that sounds");
        }
        player->sounding_count += !player->sounding[key];
        player->sounding[key] = true;
    } else if (status == LV2_MIDI_MSG_NOTE_OFF) {
        if (!player->sounding[key]) {
            player_fault(player, note.frame, "a note-off on a key that is silent");
        }
        player->sounding_count -= player->sounding[key];
        player->sounding[key] = false;
    } else {
        player_fault(player, note.frame, "a message that is no note");
    }
}

static inline void keep_note(Player* const player, const Note note)
{
    void* notes = player->notes;
    if (grow(&notes, player->count, &player->room, sizeof(Note))) {
        player->notes = (Note*)notes;
        player->notes[player->count++] = note;
    }
    check_note(player, note);
}

static inline void take_note(Player* const player, const LV2_Atom_Event* const event)
{
    Note note = {player->now + event->time.frames, {0}};
    if (event->body.type != player->midi_event || event->body.size != sizeof note.bytes) {
        player_fault(player, note.frame, "an event that is no whole note message");
        return;
    }
    memcpy(note.bytes, event + 1, sizeof note.bytes);
    keep_note(player, note);
}

/* Reads midi_out by its own sizes, believing none of them. */
static inline void take_notes(Player* const player, const uint32_t frames)
{
    const LV2_Atom_Sequence* const midi = host_midi(player->host);
    const uint32_t size = midi->atom.size;
    if (size > player->output_room || (size && midi->atom.type != player->sequence)) {
        player_fault(player, player->now, "a sequence larger than its room, or none");
        return;
    }
    int64_t last = 0;
    uint32_t at = sizeof(LV2_Atom_Sequence_Body);
    while (at < size) {
        const char* const bytes = (const char*)&midi->body + at;
        const LV2_Atom_Event* const event = (const LV2_Atom_Event*)(const void*)bytes;
        const uint32_t left = size - at;
        if (left < sizeof(LV2_Atom_Event) || left - sizeof(LV2_Atom_Event) < event->body.size) {
            player_fault(player, player->now, "a half-written event");
            return;
        }
        if (event->time.frames < last) {
            player_fault(player, player->now, "events out of order in a block");
        }
        if (event->time.frames < 0 || event->time.frames >= (frames ? frames : 1)) {
            player_fault(player, player->now, "an event outside its block");
        }
        last = event->time.frames;
        take_note(player, event);
        at += (uint32_t)sizeof(LV2_Atom_Event) + lv2_atom_pad_size(event->body.size);
    }
}

static inline void player_run(Player* const player, const uint32_t frames)
{
    host_run(player->host, frames);
    take_notes(player, frames);
    player->now += frames;
}

/* The host switches the plugin off and on; what sounded is the host's to end. */
static inline void player_reset(Player* const player)
{
    host_reset(player->host);
    memset(player->sounding, 0, sizeof player->sounding);
    player->sounding_count = 0;
}
