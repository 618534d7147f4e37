// SPDX-License-Identifier: ISC
#include "stand.h"

#include <dlfcn.h>
#include <lv2/midi/midi.h>
#include <lv2/time/time.h>
#include <stdio.h>
#include <string.h>

static const LV2_Descriptor* find(void* const library, const char* const uri)
{
    LV2_Descriptor_Function descriptor = NULL;
    *(void**)&descriptor = dlsym(library, "lv2_descriptor");
    const LV2_Descriptor* plugin = descriptor ? descriptor(0) : NULL;
    for (uint32_t i = 1; plugin && strcmp(plugin->URI, uri); ++i) {
        plugin = descriptor(i);
    }
    return plugin;
}

static LV2_URID urid(const Stand* const stand, const char* const uri)
{
    return uri_table_map(stand->uris, uri);
}

static void begin_input(Stand* const stand)
{
    lv2_atom_forge_set_buffer(&stand->forge, (uint8_t*)&stand->in, STAND_ROOM);
    lv2_atom_forge_sequence_head(&stand->forge, &stand->frame, 0);
}

static void connect(Stand* const stand, const int port, void* const data)
{
    if (port >= 0) {
        stand->plugin->connect_port(stand->handle, (uint32_t)port, data);
    }
}

static void connect_all(Stand* const stand, const StandPlugin* const plugin)
{
    connect(stand, plugin->in, &stand->in);
    connect(stand, plugin->out, &stand->out);
    connect(stand, plugin->second_out, &stand->second_out);
    connect(stand, plugin->audio, stand->audio);
    for (int i = 0; i < plugin->controls; ++i) {
        connect(stand, plugin->first_control + i, stand_control(stand, (uint32_t)i));
    }
}

static bool instantiate(Stand* const stand, const StandPlugin* const plugin, char* const path)
{
    const LV2_Feature map = {LV2_URID__map, &stand->map};
    const LV2_Feature* const features[] = {&map, NULL};
    stand->library = dlopen(path, RTLD_NOW | RTLD_LOCAL);
    stand->plugin = stand->library ? find(stand->library, plugin->uri) : NULL;
    *(strrchr(path, '/') + 1) = '\0';
    stand->handle =
        stand->plugin ? stand->plugin->instantiate(stand->plugin, 48000.0, path, features) : NULL;
    return stand->handle;
}

bool stand_open(Stand* const stand, const StandPlugin* const plugin, const char* const bundles,
                const uint32_t apart)
{
    char path[4096];
    memset(stand, 0, sizeof *stand);
    stand->apart = apart;
    stand->uris = uri_table_new();
    stand->map = (LV2_URID_Map){stand->uris, uri_table_map};
    stand->chunk = urid(stand, LV2_ATOM__Chunk);
    lv2_atom_forge_init(&stand->forge, &stand->map);
    snprintf(path, sizeof path, "%s/%s", bundles, plugin->library);
    if (!instantiate(stand, plugin, path)) {
        fprintf(stderr, "stand: no %s in %s\n", plugin->uri, bundles);
        return false;
    }
    connect_all(stand, plugin);
    if (stand->plugin->activate) {
        stand->plugin->activate(stand->handle);
    }
    begin_input(stand);
    return true;
}

void stand_close(Stand* const stand)
{
    if (stand->handle) {
        stand->plugin->cleanup(stand->handle);
    }
    uri_table_free(stand->uris);
}

float* stand_control(Stand* const stand, const uint32_t control)
{
    return &stand->values[(size_t)control * stand->apart];
}

static void add_float(Stand* const stand, const char* const key, const float value)
{
    lv2_atom_forge_key(&stand->forge, urid(stand, key));
    lv2_atom_forge_float(&stand->forge, value);
}

static void add_long(Stand* const stand, const char* const key, const int64_t value)
{
    lv2_atom_forge_key(&stand->forge, urid(stand, key));
    lv2_atom_forge_long(&stand->forge, value);
}

void stand_place(Stand* const stand, const StandPlace* const place)
{
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&stand->forge, place->at);
    lv2_atom_forge_object(&stand->forge, &object, 0, urid(stand, LV2_TIME__Position));
    add_long(stand, LV2_TIME__frame, place->frame);
    add_float(stand, LV2_TIME__speed, place->speed);
    add_long(stand, LV2_TIME__bar, place->bar);
    add_float(stand, LV2_TIME__barBeat, place->bar_beat);
    add_float(stand, LV2_TIME__beatsPerBar, place->beats_per_bar);
    lv2_atom_forge_key(&stand->forge, urid(stand, LV2_TIME__beatUnit));
    lv2_atom_forge_int(&stand->forge, place->beat_unit);
    add_float(stand, LV2_TIME__beatsPerMinute, place->tempo);
    lv2_atom_forge_pop(&stand->forge, &object);
}

void stand_midi(Stand* const stand, const uint32_t at, const uint8_t bytes[3])
{
    lv2_atom_forge_frame_time(&stand->forge, at);
    lv2_atom_forge_atom(&stand->forge, 3, urid(stand, LV2_MIDI__MidiEvent));
    lv2_atom_forge_write(&stand->forge, bytes, 3);
}

void stand_look(Stand* const stand, const uint32_t at)
{
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&stand->forge, at);
    lv2_atom_forge_object(&stand->forge, &object, 0, urid(stand, "urn:fourlimb:terms#Look"));
    lv2_atom_forge_pop(&stand->forge, &object);
}

__attribute__((noinline)) void stand_counted(const Stand* const stand, const uint32_t frames)
{
    stand->plugin->run(stand->handle, frames);
}

void stand_run(Stand* const stand, const uint32_t frames)
{
    lv2_atom_forge_pop(&stand->forge, &stand->frame);
    stand->out.sequence.atom = (LV2_Atom){STAND_ROOM, stand->chunk};
    stand->second_out.sequence.atom = (LV2_Atom){STAND_ROOM, stand->chunk};
    stand_counted(stand, frames);
    begin_input(stand);
}
