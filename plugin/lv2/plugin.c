// SPDX-License-Identifier: ISC
/* plugin.c - the LV2 plugin: ports, lifecycle and run().  Nothing musical is
   decided here. */
#include "../bank/bank.h"
#include "../engine/engine.h"
#include "../talk/hear.h"
#include "input.h"
#include "notify.h"
#include "output.h"

#include <lv2/core/lv2.h>
#include <lv2/core/lv2_util.h>
#include <lv2/log/log.h>
#include <lv2/log/logger.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PATH_ROOM = 4096 };

typedef struct {
    Uris uris;
    Bank* bank;
    char* bank_messages;
    Engine engine;
    Notify notify;
    double rate;
    const LV2_Atom_Sequence* control;
    LV2_Atom_Sequence* midi_out;
    LV2_Atom_Sequence* notify_out;
    const float* controls[CONTROL_COUNT];
    float* readouts[READOUT_COUNT];
    float values[CONTROL_COUNT]; /* as last taken over */
} Plugin;

/* One line a complaint, for the log and for `notify`. */
static char* join_messages(const Complaints* const complaints)
{
    size_t room = 64;
    for (size_t i = 0; i < complaints->count; ++i) {
        room += strlen(complaints->texts[i]) + 1;
    }
    char* const text = calloc(room, 1);
    size_t length = 0;
    for (size_t i = 0; text && i < complaints->count; ++i) {
        length += (size_t)snprintf(text + length, room - length, "%s\n", complaints->texts[i]);
    }
    if (text && complaints->unkept) {
        snprintf(text + length, room - length, "and %zu more\n", complaints->unkept);
    }
    return text;
}

static bool open_bank(Plugin* const plugin, const char* const bundle_path,
                      LV2_Log_Logger* const logger)
{
    char folder[PATH_ROOM];
    const int length = snprintf(folder, sizeof folder, "%s/bank", bundle_path);
    char users[BANK_FOLDER_ROOM];
    const BankSources sources = {folder, bank_users_folder(users) ? users : NULL, NULL};
    plugin->bank = length > 0 && length < PATH_ROOM ? bank_open(sources) : NULL;
    if (!plugin->bank) {
        lv2_log_error(logger, "Fourlimb: no memory for the bank in %s\n", folder);
        return false;
    }
    plugin->bank_messages = join_messages(bank_complaints(plugin->bank));
    if (plugin->bank_messages && *plugin->bank_messages) {
        lv2_log_warning(logger, "Fourlimb: parts of the bank were left out:\n%s",
                        plugin->bank_messages);
    }
    return plugin->bank_messages;
}

static void free_plugin(Plugin* const plugin)
{
    bank_free(plugin->bank);
    free(plugin->bank_messages);
    free(plugin);
}

/* Threading class: Instantiation. */
static LV2_Handle instantiate(const LV2_Descriptor* const descriptor, const double rate,
                              const char* const bundle_path,
                              const LV2_Feature* const* const features)
{
    (void)descriptor;
    LV2_URID_Map* map = NULL;
    LV2_Log_Logger logger = {0};
    const char* const missing = lv2_features_query(features, LV2_LOG__log, &logger.log, false,
                                                   LV2_URID__map, &map, true, NULL);
    lv2_log_logger_set_map(&logger, map);
    if (missing || !(rate > 0.0)) {
        lv2_log_error(&logger, "Fourlimb: the host offers no %s\n",
                      missing ? missing : "sample rate");
        return NULL;
    }
    Plugin* const plugin = calloc(1, sizeof(Plugin));
    if (!plugin || !open_bank(plugin, bundle_path, &logger)) {
        if (plugin) {
            free_plugin(plugin);
        }
        return NULL;
    }
    plugin->rate = rate;
    plugin->uris = uris_map(map);
    notify_init(&plugin->notify, map, plugin->bank_messages, rate);
    return plugin;
}

/* Threading class: Audio. */
static void connect_port(const LV2_Handle instance, const uint32_t port, void* const data)
{
    Plugin* const plugin = (Plugin*)instance;
    if (port == PORT_CONTROL) {
        plugin->control = (const LV2_Atom_Sequence*)data;
    } else if (port == PORT_MIDI_OUT) {
        plugin->midi_out = (LV2_Atom_Sequence*)data;
    } else if (port == PORT_NOTIFY) {
        plugin->notify_out = (LV2_Atom_Sequence*)data;
    } else if (port < PORT_FIRST_READOUT) {
        plugin->controls[port - PORT_FIRST_CONTROL] = (const float*)data;
    } else if (port < PORT_FIRST_READOUT + READOUT_COUNT) {
        plugin->readouts[port - PORT_FIRST_READOUT] = (float*)data;
    }
}

/* Threading class: Instantiation.  Everything but the ports starts afresh. */
static void activate(const LV2_Handle instance)
{
    Plugin* const plugin = (Plugin*)instance;
    engine_init(&plugin->engine, bank_library(plugin->bank), plugin->rate);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        plugin->values[i] = control_rows[i].normal;
    }
    outlook_start(&plugin->notify.outlook);
}

static void take_controls(Plugin* const plugin)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = plugin->controls[i] ? *plugin->controls[i] : control_rows[i].normal;
    }
    /* Bit for bit on purpose: not a number equals itself, and 0 isn't -0.
       NOLINTNEXTLINE(bugprone-suspicious-memory-comparison,cert-exp42-c,cert-flp37-c) */
    if (memcmp(values, plugin->values, sizeof values)) {
        memcpy(plugin->values, values, sizeof values);
        const Settings settings = settings_from_controls(values);
        engine_set(&plugin->engine, &settings);
    }
}

/* Plays up to frame `end` in slices, so that any block size is bounded work. */
static uint32_t play(Plugin* const plugin, const MidiOutput output, uint32_t done,
                     const uint32_t end)
{
    while (done < end) {
        const uint32_t left = end - done;
        const uint32_t frames = left < SLICE_FRAMES_MAX ? left : SLICE_FRAMES_MAX;
        engine_begin(&plugin->engine, midi_output_room(output));
        engine_advance(&plugin->engine, done, frames);
        midi_output_write(output, &plugin->engine.out, &plugin->uris);
        done += frames;
    }
    return done;
}

static void write_readouts(const Plugin* const plugin)
{
    float values[READOUT_COUNT];
    engine_readouts(&plugin->engine, values);
    for (int i = 0; i < READOUT_COUNT; ++i) {
        if (plugin->readouts[i]) {
            *plugin->readouts[i] = values[i];
        }
    }
}

static void take_event(Plugin* const plugin, const MidiOutput output, const InputEvent event,
                       const uint32_t frame)
{
    Report report;
    LV2_URID property = 0;
    const uint32_t size = (uint32_t)sizeof *event.body + event.body->size;
    if (input_report(event.body, &plugin->uris, &report)) {
        engine_begin(&plugin->engine, midi_output_room(output));
        engine_report(&plugin->engine, &report, frame);
        midi_output_write(output, &plugin->engine.out, &plugin->uris);
    } else if (hear_get(event.body, size, &plugin->uris, &property)) {
        notify_ask(&plugin->notify, property);
    }
}

/* Threading class: Audio. */
static void run(const LV2_Handle instance, const uint32_t frames)
{
    Plugin* const plugin = (Plugin*)instance;
    const MidiOutput output = midi_output(plugin->midi_out, &plugin->uris);
    take_controls(plugin);
    InputReader reader = input_reader(plugin->control, &plugin->uris);
    InputEvent event;
    uint32_t done = 0;
    while (input_next(&reader, &event)) {
        const int64_t last = frames;
        const int64_t at = event.frame < done ? done : event.frame > last ? last : event.frame;
        done = play(plugin, output, done, (uint32_t)at);
        take_event(plugin, output, event, done < frames || !frames ? done : frames - 1);
    }
    play(plugin, output, done, frames);
    write_readouts(plugin);
    notify_run(&plugin->notify, plugin->notify_out, &plugin->engine, frames, &plugin->uris);
}

/* Threading class: Instantiation. */
static void cleanup(const LV2_Handle instance)
{
    free_plugin((Plugin*)instance);
}

static const LV2_Descriptor descriptor = {
    FOURLIMB_GROOVE_URI, instantiate, connect_port, activate, run, NULL, cleanup, NULL,
};

LV2_SYMBOL_EXPORT const LV2_Descriptor* lv2_descriptor(const uint32_t index)
{
    return index == 0 ? &descriptor : NULL;
}
