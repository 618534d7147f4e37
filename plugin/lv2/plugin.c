// SPDX-License-Identifier: ISC
/* plugin.c - the LV2 plugin: how an instance begins, is kept and ends; what it plays is
   block.c's.  Nothing musical is decided here. */
#include "block.h"
#include "state.h"

#include <lv2/core/lv2.h>
#include <lv2/core/lv2_util.h>
#include <lv2/log/log.h>
#include <lv2/log/logger.h>
#include <stdlib.h>
#include <string.h>

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

/* Everything but the ports. */
static void start_afresh(Plugin* const plugin)
{
    engine_init(&plugin->engine, snapshot_library(plugin->snapshot), plugin->rate);
    plugin->readouts_of = 0;
    plugin->through = (Through){.dropped = 0};
    block_take_snapshot(plugin);
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

/* Threading class: Audio. */
static void run(const LV2_Handle instance, const uint32_t frames)
{
    block_run((Plugin*)instance, frames);
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
