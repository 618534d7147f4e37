// SPDX-License-Identifier: ISC
/* stand.h - one instance of a plugin on a test stand: its ports lie in buffers of ours, what
   it is sent in a block is written before the block, and nothing but its run() is counted. */
#pragma once

#include "../../ui/command/uri_table.h"

#include <lv2/atom/forge.h>
#include <lv2/core/lv2.h>
#include <stdbool.h>

enum { STAND_ROOM = 65536, STAND_PORTS = 128, STAND_FRAMES = 8192 };

/* A plugin that can be put there: which of its ports is what; -1: it has none. */
typedef struct {
    const char* name;
    const char* library; /* below the folder of bundles */
    const char* uri;
    int in;
    int out;
    int second_out;
    int audio;
    int controls; /* how many follow from `first_control` on, readouts among them */
    int first_control;
} StandPlugin;

typedef union {
    LV2_Atom_Sequence sequence;
    uint64_t room[STAND_ROOM / 8 + 2];
} StandBuffer;

typedef struct {
    UriTable* uris;
    LV2_URID_Map map;
    void* library;
    const LV2_Descriptor* plugin;
    LV2_Handle handle;
    LV2_Atom_Forge forge;
    LV2_Atom_Forge_Frame frame;
    LV2_URID chunk;
    StandBuffer in;
    StandBuffer out;
    StandBuffer second_out;
    float audio[STAND_FRAMES];
    float values[STAND_PORTS * 2];
    uint32_t apart; /* floats from one control's value to the next */
} Stand;

/* A transport's place as hosts tell it. */
typedef struct {
    uint32_t at; /* frame of the block */
    int64_t frame;
    float speed;
    float tempo;
    float beats_per_bar;
    int beat_unit;
    int64_t bar;
    float bar_beat;
} StandPlace;

/* False, said on standard error, if it can't be put there from its bundle in `bundles`. */
bool stand_open(Stand* stand, const StandPlugin* plugin, const char* bundles, uint32_t apart);
void stand_close(Stand* stand);

float* stand_control(Stand* stand, uint32_t control);

/* What the next block is sent, in order of frames. */
void stand_place(Stand* stand, const StandPlace* place);
void stand_midi(Stand* stand, uint32_t at, const uint8_t bytes[3]);
void stand_look(Stand* stand, uint32_t at); /* a window that asks for all there is */

void stand_run(Stand* stand, uint32_t frames);

/* Runs the plugin's run() alone: callgrind counts what is called from here. */
void stand_counted(const Stand* stand, uint32_t frames);
