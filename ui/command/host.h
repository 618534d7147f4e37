// SPDX-License-Identifier: ISC
/* host.h - an offline LV2 host for one plugin, by lilv: loads the built bundle,
   sends it a transport and takes its MIDI, as any other host would.  What the plugin
   gives to a worker is done before host_run returns. */
#pragma once

#include <lilv/lilv.h>
#include <lv2/atom/forge.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct Host Host;

enum { HOST_WHY_ROOM = 512 }; /* bytes for a reason why something failed */

/* Loads the plugin from a bundle folder at a sample rate.  NULL, with the
   reason in `why`, if that can't be done. */
Host* host_open(const char* bundle, double rate, char why[HOST_WHY_ROOM]);
void host_close(Host* host);

/* The number of a URI in this host. */
LV2_URID host_urid(Host* host, const char* uri);

/* Sets a control port; false, with the reason in `why`, if there is none with
   this symbol, or it can't have the value: outside its range, or a fraction where the
   port is whole. */
bool host_set(Host* host, const char* symbol, float value, char why[HOST_WHY_ROOM]);

/* The same, but any value: a lane writes what lies between two whole numbers.  False if
   there is no port with this symbol. */
bool host_write(Host* host, const char* symbol, float value);

/* The value of a control port, of an output port as the last run left it; not a
   number if there is none with this symbol. */
float host_get(const Host* host, const char* symbol);

/* Puts every control back to the default that the bundle states. */
void host_set_defaults(Host* host);

/* The bundle's plugin, for what else lilv can tell of it. */
const LilvPlugin* host_plugin(const Host* host);
LilvWorld* host_world(const Host* host);

/* The messages for the next run, to be forged inside a sequence that is begun
   already: write frame times and atoms. */
LV2_Atom_Forge* host_input(Host* host);

/* A time:Position; what is 0, or not told, is left out but for frame and speed. */
typedef struct {
    int64_t frame;
    float speed;
    float tempo; /* beats a minute */
    float beats_per_bar;
    int32_t beat_unit;
    bool has_place; /* tell bar and bar_beat too */
    int64_t bar;
    float bar_beat;
} HostPosition;

/* Puts a position at frame 0 of the next run. */
void host_send_position(Host* host, HostPosition position);

/* Bytes that the body of midi_out may have from now on; 65536 at first. */
void host_set_room(Host* host, uint32_t bytes);

/* Runs one block with what was put into host_input since the last, then the
   worker's jobs. */
void host_run(Host* host, uint32_t frames);

/* The sequences that the last run wrote. */
const LV2_Atom_Sequence* host_midi(const Host* host);
const LV2_Atom_Sequence* host_notify(const Host* host);

/* The running instance, for its other interfaces such as state. */
LilvInstance* host_instance(Host* host);

/* Deactivates and activates again, as hosts do around an export. */
void host_reset(Host* host);
