// SPDX-License-Identifier: ISC
/* plugin.c - the LV2 plugin: lifecycle and run().  Nothing musical is decided here. */
#include "../engine/play/engine.h"
#include "../talk/decode.h"
#include "worker.h"
#include "inbox.h"
#include "notify.h"
#include "pass.h"
#include "ports.h"
#include "state.h"

#include <lv2/core/lv2.h>
#include <lv2/core/lv2_util.h>
#include <lv2/log/log.h>
#include <lv2/log/logger.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    Uris uris;
    Worker worker;
    Snapshot* snapshot; /* what plays */
    Engine engine;
    Through through;
    Inbox inbox;
    Notify notify;
    double rate;
    Ports ports;
    float readouts[READOUT_COUNT];
    uint32_t readouts_of; /* the engine's stirs */
    bool wants_fill;      /* one was asked for, but nothing rolled */
} Plugin;

static bool open_worker(Plugin* const plugin, const char* const bundle_path,
                        const LV2_Worker_Schedule* const schedule, LV2_Log_Logger* const logger)
{
    if (!worker_init(&plugin->worker, bundle_path, schedule)) {
        lv2_log_error(logger, "Fourlimb: no memory for the bank in %s\n", bundle_path);
        return false;
    }
    plugin->snapshot = worker_take(&plugin->worker);
    if (*snapshot_messages(plugin->snapshot)) {
        lv2_log_warning(logger, "Fourlimb: parts of the bank were left out:\n%s",
                        snapshot_messages(plugin->snapshot));
    }
    return true;
}

static void free_plugin(Plugin* const plugin)
{
    worker_clear(&plugin->worker);
    snapshot_free(plugin->snapshot);
    free(plugin);
}

/* Plays what the worker has made since the last block, if anything. */
static void take_snapshot(Plugin* const plugin)
{
    Snapshot* const snapshot = worker_take(&plugin->worker);
    if (snapshot) {
        notify_snapshot(&plugin->notify, snapshot);
        engine_use(&plugin->engine, snapshot_library(snapshot));
        worker_leave(&plugin->worker, plugin->snapshot);
        plugin->snapshot = snapshot;
    }
}

/* Everything but the ports. */
static void start_afresh(Plugin* const plugin)
{
    engine_init(&plugin->engine, snapshot_library(plugin->snapshot), plugin->rate);
    plugin->readouts_of = 0;
    plugin->through = (Through){.dropped = 0};
    take_snapshot(plugin);
    ports_start(&plugin->ports);
    preview_start(&plugin->notify.preview_feed.preview);
}

/* Threading class: Instantiation. */
static void activate(const LV2_Handle instance)
{
    start_afresh((Plugin*)instance);
}

/* Samples a second that make sense of frames; beyond any converter, both ways. */
static bool is_rate(const double rate)
{
    return rate >= 1e3 && rate <= 1e7;
}

/* False, and the log says so, if the host lacks what can't be done without. */
static bool is_equipped(LV2_Log_Logger* const logger, const char* const missing, const double rate)
{
    if (missing) {
        lv2_log_error(logger, "Fourlimb: the host offers no %s\n", missing);
    } else if (!is_rate(rate)) {
        lv2_log_error(logger,
                      "Fourlimb: a sample rate of %g Hz can't be played at; expected one from "
                      "1000 to 10000000\n",
                      rate);
    }
    return !missing && is_rate(rate);
}

/* Threading class: Instantiation. */
static LV2_Handle instantiate(const LV2_Descriptor* const descriptor, const double rate,
                              const char* const bundle_path,
                              const LV2_Feature* const* const features)
{
    (void)descriptor;
    LV2_URID_Map* map = NULL;
    LV2_Worker_Schedule* schedule = NULL;
    LV2_Log_Logger logger = {0};
    const char* const missing =
        lv2_features_query(features, LV2_LOG__log, &logger.log, false, LV2_WORKER__schedule,
                           &schedule, false, LV2_URID__map, &map, true, NULL);
    lv2_log_logger_set_map(&logger, map);
    if (!is_equipped(&logger, missing, rate)) {
        return NULL;
    }
    Plugin* const plugin = calloc(1, sizeof(Plugin));
    if (!plugin || !open_worker(plugin, bundle_path, schedule, &logger)) {
        if (plugin) {
            free_plugin(plugin);
        }
        return NULL;
    }
    plugin->rate = rate;
    ports_init(&plugin->ports);
    plugin->uris = uris_map(map);
    notify_init(&plugin->notify, map, plugin->worker.answers, rate);
    notify_snapshot(&plugin->notify, plugin->snapshot);
    start_afresh(plugin); /* hosts are to activate, but one that runs at once plays too */
    return plugin;
}

/* Threading class: Audio. */
static void connect_port(const LV2_Handle instance, const uint32_t port, void* const data)
{
    ports_connect(&((Plugin*)instance)->ports, port, data);
}

/* Those that differ from the defaults: a default session needs no names. */
static void remember_ids(Plugin* const plugin)
{
    Used used = {.settled = false};
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const int32_t id = settings_pick(plugin->ports.values, (EntryKind)kind);
        const int32_t normal = (int32_t)control_rows[kind_controls[kind]].normal;
        used.ids[kind] = id > 0 && id != normal ? (uint32_t)id : 0;
    }
    worker_use(&plugin->worker, &used, plugin->snapshot);
}

/* Of a block in which it begins to roll, too. */
static void ask_for_fill(Plugin* const plugin)
{
    plugin->wants_fill = plugin->wants_fill && !engine_fill_now(&plugin->engine);
}

static void take_controls(Plugin* const plugin)
{
    const float* const values = plugin->ports.values;
    const bool wanted = values[CONTROL_FILL_NOW] > 0.0f;
    plugin->wants_fill = false; /* it is for one block */
    if (ports_take(&plugin->ports)) {
        const Settings settings = settings_from_controls(values);
        engine_set(&plugin->engine, &settings);
        remember_ids(plugin);
        plugin->wants_fill = !wanted && values[CONTROL_FILL_NOW] > 0.0f;
        ask_for_fill(plugin);
    }
}

/* Plays up to frame `end` in slices, so that any block size is bounded work. */
static uint32_t play(Plugin* const plugin, const MidiOutput output, uint32_t done,
                     const uint32_t end)
{
    if (done < end && engine_wait(&plugin->engine, end - done)) {
        return end;
    }
    while (done < end) {
        const uint32_t left = end - done;
        const uint32_t frames = left < SLICE_FRAMES_MAX ? left : SLICE_FRAMES_MAX;
        engine_begin(&plugin->engine, midi_output_room(output));
        engine_advance(&plugin->engine, done, frames);
        midi_output_write(output, &plugin->engine.out, &plugin->through, &plugin->uris);
        done += frames;
    }
    return done;
}

/* A block in which nothing stirred tells what the one before did. */
static void tell_readouts(Plugin* const plugin)
{
    if (plugin->readouts_of != plugin->engine.stirs) {
        plugin->readouts_of = plugin->engine.stirs;
        engine_readouts(&plugin->engine, plugin->readouts);
    }
    ports_tell(&plugin->ports, plugin->readouts);
}

/* What is asked for by a property, or ASKS. */
static Ask ask_of(const LV2_URID property, const Uris* const uris)
{
    int ask = 0;
    while (ask < FIGURE_KINDS && uris->fl_drafts[ask] != property) {
        ++ask;
    }
    return ask < FIGURE_KINDS                ? (Ask)ask
           : property == uris->fl_saveFigure ? ASK_SAVE_FIGURE
           : property == uris->fl_saveKit    ? ASK_SAVE_KIT
                                             : ASKS;
}

static void take_set(Plugin* const plugin, const LV2_URID property, const LV2_Atom* const value)
{
    const Ask ask = ask_of(property, &plugin->uris);
    const char* why = "the value is not a text; expected an atom:String";
    if (ask != ASKS &&
        (value->type != plugin->uris.atom_String ||
         !worker_ask(&plugin->worker, ask, (const char*)(value + 1), value->size, &why))) {
        plugin->notify.refused = why;
    }
}

/* Notes that keys are learned from are used up; all else goes through, if it may. */
static void take_midi(Plugin* const plugin, const MidiOutput output, const LV2_Atom* const message,
                      const uint32_t frame)
{
    const bool is_used = preview_feed_midi(&plugin->notify.preview_feed,
                                           (const uint8_t*)(message + 1), message->size);
    const bool passes = engine_settings(&plugin->engine)->through && !is_used;
    pass_midi(&plugin->through, output, message, frame, passes, &plugin->uris);
}

/* Sections of a song from a host that knows them; a new song starts from the ports. */
static void take_section(Plugin* const plugin, const ToldSection* const section)
{
    const PlanEntry entry = {.from = {section->bar, 0},
                             .origin = section->origin,
                             .meter = section->meter,
                             .tempo = section->tempo,
                             .ends = section->ends,
                             .settings = settings_from_controls(section->controls)};
    if (section->begins) {
        const Settings settings = settings_from_controls(plugin->ports.values);
        engine_plan_clear(&plugin->engine);
        engine_set(&plugin->engine, &settings);
    }
    engine_plan_put(&plugin->engine, &entry);
}

static void take_event(Plugin* const plugin, const MidiOutput output, const InputEvent event,
                       const uint32_t frame)
{
    Report report;
    LV2_URID property = 0;
    const uint32_t size = (uint32_t)sizeof *event.body + event.body->size;
    const LV2_Atom* value = NULL;
    ToldSection section;
    if (event.body->type == plugin->uris.midi_MidiEvent) {
        take_midi(plugin, output, event.body, frame);
    } else if (input_report(event.body, &plugin->uris, &report)) {
        engine_begin(&plugin->engine, midi_output_room(output));
        engine_report(&plugin->engine, &report, frame);
        midi_output_write(output, &plugin->engine.out, &plugin->through, &plugin->uris);
    } else if (decode_section(event.body, size, &plugin->uris, &section)) {
        take_section(plugin, &section);
    } else if (decode_look(event.body, size, &plugin->uris, &property)) {
        notify_asked(&plugin->notify, property, &plugin->uris);
    } else if (decode_message(event.body, size, &plugin->uris, &property, &value)) {
        take_set(plugin, property, value);
    }
}

/* Plays from one event to the next; frames that make no sense are brought into the
   block, and none goes back. */
static uint32_t play_inbox(Plugin* const plugin, const MidiOutput output, uint32_t done,
                           const uint32_t frames)
{
    InputEvent event;
    while (inbox_next(&plugin->inbox, &event)) {
        const int64_t last = frames;
        const int64_t at = event.frame < done ? done : event.frame > last ? last : event.frame;
        done = play(plugin, output, done, (uint32_t)at);
        take_event(plugin, output, event, done < frames || !frames ? done : frames - 1);
    }
    return done;
}

/* Threading class: Audio. */
static void run(const LV2_Handle instance, const uint32_t frames)
{
    Plugin* const plugin = (Plugin*)instance;
    const MidiOutput output = midi_output(plugin->ports.midi_out, &plugin->uris);
    take_snapshot(plugin);
    take_controls(plugin);
    InputReader reader = input_reader(plugin->ports.control, &plugin->uris);
    uint32_t done = 0;
    if (pass_is_late(&plugin->through)) {
        pass_late(&plugin->through, output, &plugin->uris);
    }
    while (inbox_fill(&plugin->inbox, &reader)) {
        done = play_inbox(plugin, output, done, frames);
    }
    play(plugin, output, done, frames);
    ask_for_fill(plugin);
    tell_readouts(plugin);
    plugin->notify.lost_notes = plugin->through.dropped;
    notify_run(&plugin->notify, plugin->ports.notify_out, &plugin->engine, frames, &plugin->uris);
    worker_wake(&plugin->worker);
}

static LV2_State_Status save(const LV2_Handle instance, const LV2_State_Store_Function store,
                             const LV2_State_Handle handle, const uint32_t flags,
                             const LV2_Feature* const* const features)
{
    (void)flags;
    (void)features;
    Plugin* const plugin = (Plugin*)instance;
    return state_save(&plugin->worker, &plugin->uris, store, handle);
}

/* state:threadSafeRestore: may be called while run() and work() are. */
static LV2_State_Status restore(const LV2_Handle instance,
                                const LV2_State_Retrieve_Function retrieve,
                                const LV2_State_Handle handle, const uint32_t flags,
                                const LV2_Feature* const* const features)
{
    (void)flags;
    (void)features;
    Plugin* const plugin = (Plugin*)instance;
    return state_restore(&plugin->worker, &plugin->uris, retrieve, handle);
}

static LV2_Worker_Status work(const LV2_Handle instance, const LV2_Worker_Respond_Function respond,
                              const LV2_Worker_Respond_Handle handle, const uint32_t size,
                              const void* const data)
{
    (void)respond;
    (void)handle;
    (void)size;
    (void)data;
    worker_run(&((Plugin*)instance)->worker);
    return LV2_WORKER_SUCCESS;
}

/* Answers lie in the worker, where run() finds them. */
static LV2_Worker_Status work_response(const LV2_Handle instance, const uint32_t size,
                                       const void* const body)
{
    (void)instance;
    (void)size;
    (void)body;
    return LV2_WORKER_SUCCESS;
}

/* Threading class: Discovery. */
static const void* extension_data(const char* const uri)
{
    static const LV2_State_Interface state = {save, restore};
    static const LV2_Worker_Interface worker = {work, work_response, NULL};
    return !strcmp(uri, LV2_STATE__interface)    ? (const void*)&state
           : !strcmp(uri, LV2_WORKER__interface) ? (const void*)&worker
                                                 : NULL;
}

/* Threading class: Instantiation. */
static void cleanup(const LV2_Handle instance)
{
    free_plugin((Plugin*)instance);
}

static const LV2_Descriptor descriptor = {
    FOURLIMB_GROOVE_URI, instantiate, connect_port, activate, run, NULL, cleanup, extension_data,
};

LV2_SYMBOL_EXPORT const LV2_Descriptor* lv2_descriptor(const uint32_t index)
{
    return index == 0 ? &descriptor : NULL;
}
