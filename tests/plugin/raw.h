// SPDX-License-Identifier: ISC
/* raw.h - an instance of the built plugin whose ports a test connects itself, to
   do what no polite host does. */
#pragma once

#include "../../plugin/engine/groove/settings.h"
#include "../../ui/command/uri_table.h"
#include "played.h"

#include <lv2/atom/atom.h>

enum { RAW_ROOM = 1 << 16 };

typedef union {
    LV2_Atom_Sequence sequence;
    uint64_t room[RAW_ROOM / 8 + 2];
} RawBuffer;

typedef struct {
    UriTable* uris;
    LV2_URID_Map map;
    LilvInstance* instance;
    float controls[CONTROL_COUNT];
    RawBuffer input, midi, notify;
} Raw;

static inline void raw_set_defaults(Raw* const raw)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        raw->controls[i] = control_rows[i].normal;
    }
}

static inline void raw_connect(Raw* const raw)
{
    lilv_instance_connect_port(raw->instance, PORT_CONTROL, &raw->input);
    lilv_instance_connect_port(raw->instance, PORT_MIDI_OUT, &raw->midi);
    lilv_instance_connect_port(raw->instance, PORT_NOTIFY, &raw->notify);
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        lilv_instance_connect_port(raw->instance, PORT_FIRST_CONTROL + i, &raw->controls[i]);
    }
}

/* Ends the program if the plugin will not start. */
static inline Raw* raw_open(const Host* const host)
{
    Raw* const raw = calloc(1, sizeof(Raw));
    raw->uris = uri_table_new();
    raw->map = (LV2_URID_Map){raw->uris, uri_table_map};
    const LV2_Feature map = {LV2_URID__map, &raw->map};
    const LV2_Feature* const features[] = {&map, NULL};
    raw->instance = lilv_plugin_instantiate(host_plugin(host), RATE, features);
    if (!raw->instance) {
        printf("# the plugin will not start\n");
        exit(2);
    }
    raw_set_defaults(raw);
    raw_connect(raw);
    lilv_instance_activate(raw->instance);
    return raw;
}

static inline void raw_close(Raw* const raw)
{
    lilv_instance_deactivate(raw->instance);
    lilv_instance_free(raw->instance);
    uri_table_free(raw->uris);
    free(raw);
}

/* A position at the start of bar 0, rolling at 120 in 4/4; or no message. */
static inline void raw_forge(Raw* const raw, const bool roll)
{
    LV2_Atom_Forge forge;
    LV2_Atom_Forge_Frame sequence, object;
    const struct {
        const char* key;
        float value;
    } rows[] = {{LV2_TIME__speed, 1.0f},   {LV2_TIME__beatsPerMinute, 120.0f},
                {LV2_TIME__bar, 0.0f},     {LV2_TIME__beatsPerBar, 4.0f},
                {LV2_TIME__barBeat, 0.0f}, {LV2_TIME__beatUnit, 4.0f}};
    lv2_atom_forge_init(&forge, &raw->map);
    lv2_atom_forge_set_buffer(&forge, (uint8_t*)&raw->input, RAW_ROOM);
    lv2_atom_forge_sequence_head(&forge, &sequence, 0);
    if (roll) {
        lv2_atom_forge_frame_time(&forge, 0);
        lv2_atom_forge_object(&forge, &object, 0, uri_table_map(raw->uris, LV2_TIME__Position));
        for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
            lv2_atom_forge_key(&forge, uri_table_map(raw->uris, rows[i].key));
            lv2_atom_forge_float(&forge, rows[i].value);
        }
        lv2_atom_forge_pop(&forge, &object);
    }
    lv2_atom_forge_pop(&forge, &sequence);
}

static inline void raw_run(Raw* const raw, Played* const played, const uint32_t frames)
{
    const LV2_URID midi = uri_table_map(raw->uris, LV2_MIDI__MidiEvent);
    const LV2_URID chunk = uri_table_map(raw->uris, LV2_ATOM__Chunk);
    int64_t before = 0;
    raw->midi.sequence.atom = (LV2_Atom){RAW_ROOM, chunk};
    raw->notify.sequence.atom = (LV2_Atom){RAW_ROOM, chunk};
    lilv_instance_run(raw->instance, frames);
    LV2_ATOM_SEQUENCE_FOREACH (&raw->midi.sequence, event) {
        take_event(played, event, midi, frames, &before);
    }
    played->frames += frames;
}

/* Some bars from the top with the controls as they stand. */
static inline void raw_play(Raw* const raw, Played* const played, const int64_t frames)
{
    played->frames = 0;
    played->count = played->lost = played->wrong = 0;
    lilv_instance_deactivate(raw->instance);
    lilv_instance_activate(raw->instance);
    raw_forge(raw, true);
    while (played->frames < frames) {
        raw_run(raw, played, BLOCK);
        raw_forge(raw, false);
    }
}
