// SPDX-License-Identifier: ISC
/* blocks.c - runs a plugin block by block for counting from outside: 64 frames at 48 kHz.
   Usage: blocks BUNDLES PLUGIN KIND BLOCKS
   Kinds: standing: nothing is sent.  scattered: likewise, from a host that keeps each
   control's value in a place of its own.  stopped: a standing transport's position in each
   block.  start: rolling, a position in the first alone, nothing heard.  position: one in
   each block, nothing heard.  notes: eight MIDI messages in each block.  busy: the default
   groove at 160.  dense: sextuplets at 240.  fastest: the default groove at 2000.  wound:
   that, and 1000 times the speed.  gap: busy, with a click on sixteenths that is silent but
   for the first bar. */
#include "stand.h"

#include "../../plugin/engine/groove/controls.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK = 64 };

static const StandPlugin plugins[] = {
    {"fourlimb", "fourlimb.lv2/fourlimb.so", "urn:fourlimb:groove", PORT_CONTROL, PORT_MIDI_OUT,
     PORT_NOTIFY, -1, CONTROL_COUNT + READOUT_COUNT, PORT_FIRST_CONTROL},
    {"metro", "eg-metro.lv2/metro.so", "http://lv2plug.in/plugins/eg-metro", 0, -1, -1, 1, 0, 0},
    {"fifths", "eg-fifths.lv2/fifths.so", "http://lv2plug.in/plugins/eg-fifths", 0, 1, -1, -1, 0,
     0},
    {"empty", "empty.so", "urn:fourlimb:empty", 0, 1, -1, -1, 0, 0},
};

typedef struct {
    const char* name;
    float tempo;
    float speed;
    bool is_placed;  /* at first */
    bool each_block; /* and in each block */
    uint32_t notes;  /* MIDI messages in each block */
    uint32_t apart;
    struct {
        Control control;
        float value;
    } set[4]; /* not at 0 */
} Kind;

static const Kind kinds[] = {
    {.name = "standing"},
    {.name = "scattered", .apart = 2},
    {.name = "stopped", .tempo = 160.0f, .each_block = true},
    {.name = "start", .tempo = 160.0f, .speed = 1.0f, .is_placed = true},
    {.name = "position", .tempo = 160.0f, .speed = 1.0f, .is_placed = true, .each_block = true},
    {.name = "notes", .notes = 8},
    {.name = "busy", .tempo = 160.0f, .speed = 1.0f, .is_placed = true},
    {.name = "dense",
     .tempo = 240.0f,
     .speed = 1.0f,
     .is_placed = true,
     .set = {{CONTROL_FEET, 152.0f}}},
    {.name = "fastest", .tempo = 2000.0f, .speed = 1.0f, .is_placed = true},
    {.name = "wound", .tempo = 2000.0f, .speed = 1000.0f, .is_placed = true},
    {.name = "gap",
     .tempo = 160.0f,
     .speed = 1.0f,
     .is_placed = true,
     .set = {{CONTROL_CLICK, 2.0f},
             {CONTROL_CLICK_GRID, 3.0f},
             {CONTROL_GAP_PLAY, 1.0f},
             {CONTROL_GAP_REST, 32.0f}}},
};

static int fail(const char* const why)
{
    fprintf(stderr, "blocks: %s\n", why);
    return 2;
}

static StandPlace place_at(const Kind* const kind, const int64_t frame)
{
    const double beats = (double)frame * (double)kind->tempo / 60.0 / 48000.0;
    const int64_t bar = (int64_t)(beats / 4.0);
    return (StandPlace){.frame = frame,
                        .speed = kind->speed,
                        .tempo = kind->tempo,
                        .beats_per_bar = 4.0f,
                        .beat_unit = 4,
                        .bar = bar,
                        .bar_beat = (float)(beats - 4.0 * (double)bar)};
}

/* Nothing is heard of the kinds that have a position for its own sake. */
static bool is_silent(const Kind* const kind)
{
    return !strcmp(kind->name, "start") || !strcmp(kind->name, "position");
}

static void set_controls(Stand* const stand, const Kind* const kind)
{
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        *stand_control(stand, i) = control_rows[i].normal;
    }
    for (int i = 0; i < 4 && kind->set[i].value > 0.0f; ++i) {
        *stand_control(stand, kind->set[i].control) = kind->set[i].value;
    }
    if (is_silent(kind)) {
        *stand_control(stand, CONTROL_ENABLED) = 0.0f;
    }
}

static void send(Stand* const stand, const Kind* const kind, const int64_t block)
{
    if (kind->each_block || (kind->is_placed && !block)) {
        const StandPlace place = place_at(kind, kind->speed > 0.0f ? block * BLOCK : 0);
        stand_place(stand, &place);
    }
    for (uint32_t i = 0; i < kind->notes; ++i) {
        const uint8_t status = i % 2 ? 0x80 : 0x90;
        stand_midi(stand, i * BLOCK / kind->notes, (const uint8_t[]){status, 60, 100});
    }
}

static int run_blocks(const char* const bundles, const StandPlugin* const plugin,
                      const Kind* const kind, const long blocks)
{
    static Stand stand;
    if (!stand_open(&stand, plugin, bundles, kind->apart ? kind->apart : 1)) {
        return 2;
    }
    set_controls(&stand, kind);
    for (long block = 0; block < blocks; ++block) {
        send(&stand, kind, block);
        stand_run(&stand, BLOCK);
    }
    stand_close(&stand);
    return 0;
}

static const StandPlugin* plugin_named(const char* const name)
{
    const StandPlugin* found = NULL;
    for (size_t i = 0; i < sizeof plugins / sizeof *plugins; ++i) {
        found = strcmp(plugins[i].name, name) ? found : &plugins[i];
    }
    return found;
}

static const Kind* kind_named(const char* const name)
{
    const Kind* found = NULL;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; ++i) {
        found = strcmp(kinds[i].name, name) ? found : &kinds[i];
    }
    return found;
}

int main(const int count, char** const arguments)
{
    const StandPlugin* const plugin = count == 5 ? plugin_named(arguments[2]) : NULL;
    const Kind* const kind = plugin ? kind_named(arguments[3]) : NULL;
    return kind ? run_blocks(arguments[1], plugin, kind, strtol(arguments[4], NULL, 10))
                : fail("usage: blocks BUNDLES PLUGIN KIND BLOCKS");
}
