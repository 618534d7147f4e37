// SPDX-License-Identifier: ISC
/* direct.h - the plugin linked into a test instead of loaded from its bundle, so that
   the linker can put the test between it and the C library; and a host for it with
   nothing but what is asked for here.  Everything is called from one thread. */
#pragma once

#include "../../plugin/engine/groove/settings.h"
#include "../../plugin/talk/uris.h"
#include "../../ui/command/uri_table.h"
#include "../bank/bank_folder.h"
#include "../help/check.h"

#include <lv2/atom/forge.h>
#include <lv2/core/lv2.h>
#include <lv2/log/log.h>
#include <lv2/state/state.h>
#include <lv2/time/time.h>
#include <lv2/worker/worker.h>
#include <stdarg.h>

#define FL "urn:fourlimb:terms#"
#define TTL                                                                                        \
    "@prefix fl: <urn:fourlimb:terms#> .\n"                                                        \
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"                                    \
    "@prefix : <urn:test:> .\n"

enum { DIRECT_ROOM = 1 << 17, DIRECT_TEXTS = 8, DIRECT_BLOCK = 256, DIRECT_TEXT = 1 << 16 };

static const char* const direct_keys[DIRECT_TEXTS] = {
    FL "handsDraft",    FL "feetDraft",  FL "turnaroundDraft", FL "ownEntries",
    FL "unreadEntries", FL "entryNames", FL "keptSelections",  FL "unreadKept"};

typedef union {
    LV2_Atom_Sequence sequence;
    uint64_t room[DIRECT_ROOM / 8 + 2];
} DirectBuffer;

typedef struct {
    UriTable* uris;
    LV2_URID_Map map;
    LV2_Worker_Schedule schedule;
    LV2_Log_Log log;
    const LV2_Descriptor* plugin;
    LV2_Handle handle;
    bool is_due;
    float controls[CONTROL_COUNT];
    DirectBuffer input, midi, notify;
    LV2_Atom_Forge forge;
    char texts[DIRECT_TEXTS][DIRECT_TEXT]; /* what was stored; "" for none */
} Direct;

static inline LV2_URID direct_urid(Direct* const direct, const char* const uri)
{
    return uri_table_map(direct->uris, uri);
}

static inline LV2_Worker_Status direct_schedule(const LV2_Worker_Schedule_Handle handle,
                                                const uint32_t size, const void* const data)
{
    (void)size;
    (void)data;
    ((Direct*)handle)->is_due = true;
    return LV2_WORKER_SUCCESS;
}

static inline int direct_print_list(const LV2_Log_Handle handle, const LV2_URID type,
                                    const char* const format, va_list arguments)
{
    (void)handle;
    (void)type;
    (void)format;
    (void)arguments;
    return 0;
}

static inline int direct_print(const LV2_Log_Handle handle, const LV2_URID type,
                               const char* const format, ...)
{
    (void)handle;
    (void)type;
    (void)format;
    return 0;
}

/* The host's own things; no instance yet. */
static inline void direct_open(Direct* const direct)
{
    memset(direct, 0, sizeof *direct);
    direct->uris = uri_table_new();
    direct->map = (LV2_URID_Map){direct->uris, uri_table_map};
    direct->schedule = (LV2_Worker_Schedule){direct, direct_schedule};
    direct->log = (LV2_Log_Log){NULL, direct_print, direct_print_list};
    direct->plugin = lv2_descriptor(0);
    lv2_atom_forge_init(&direct->forge, &direct->map);
    uris_map(&direct->map); /* so that the table grows no more */
    for (int i = 0; i < DIRECT_TEXTS; ++i) {
        direct_urid(direct, direct_keys[i]);
    }
}

static inline void direct_forget(Direct* const direct)
{
    for (int i = 0; i < DIRECT_TEXTS; ++i) {
        direct->texts[i][0] = '\0';
    }
}

static inline void direct_close(Direct* const direct)
{
    uri_table_free(direct->uris);
}

/* False if it will not. */
static inline bool direct_instantiate(Direct* const direct, const char* const bundle)
{
    const LV2_Feature map = {LV2_URID__map, &direct->map};
    const LV2_Feature worker = {LV2_WORKER__schedule, &direct->schedule};
    const LV2_Feature log = {LV2_LOG__log, &direct->log};
    const LV2_Feature* const features[] = {&map, &worker, &log, NULL};
    direct->handle = direct->plugin->instantiate(direct->plugin, 48000.0, bundle, features);
    return direct->handle;
}

static inline void direct_activate(Direct* const direct)
{
    direct->plugin->connect_port(direct->handle, PORT_CONTROL, &direct->input);
    direct->plugin->connect_port(direct->handle, PORT_MIDI_OUT, &direct->midi);
    direct->plugin->connect_port(direct->handle, PORT_NOTIFY, &direct->notify);
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        direct->controls[i] = control_rows[i].normal;
        direct->plugin->connect_port(direct->handle, PORT_FIRST_CONTROL + i, &direct->controls[i]);
    }
    direct->plugin->activate(direct->handle);
}

static inline void direct_cleanup(Direct* const direct)
{
    if (direct->handle) {
        direct->plugin->cleanup(direct->handle);
        direct->handle = NULL;
    }
}

static inline void direct_float(Direct* const direct, const char* const key, const float value)
{
    lv2_atom_forge_key(&direct->forge, direct_urid(direct, key));
    lv2_atom_forge_float(&direct->forge, value);
}

/* One block; at its beginning a text for a property, if not NULL, or a transport that
   rolls from the top. */
static inline void direct_run(Direct* const direct, const char* const property,
                              const char* const text)
{
    LV2_Atom_Forge* const forge = &direct->forge;
    LV2_Atom_Forge_Frame sequence, object;
    const LV2_URID chunk = direct_urid(direct, LV2_ATOM__Chunk);
    lv2_atom_forge_set_buffer(forge, (uint8_t*)&direct->input, DIRECT_ROOM);
    lv2_atom_forge_sequence_head(forge, &sequence, 0);
    lv2_atom_forge_frame_time(forge, 0);
    if (property) {
        lv2_atom_forge_object(forge, &object, 0, direct_urid(direct, FL "Message"));
        lv2_atom_forge_key(forge, direct_urid(direct, property));
        lv2_atom_forge_string(forge, text, (uint32_t)strlen(text));
    } else {
        lv2_atom_forge_object(forge, &object, 0, direct_urid(direct, LV2_TIME__Position));
        direct_float(direct, LV2_TIME__speed, 1.0f);
        direct_float(direct, LV2_TIME__bar, 0.0f);
        direct_float(direct, LV2_TIME__barBeat, 0.0f);
    }
    lv2_atom_forge_pop(forge, &object);
    lv2_atom_forge_pop(forge, &sequence);
    direct->midi.sequence.atom = (LV2_Atom){DIRECT_ROOM, chunk};
    direct->notify.sequence.atom = (LV2_Atom){DIRECT_ROOM, chunk};
    direct->plugin->run(direct->handle, DIRECT_BLOCK);
}

static inline LV2_Worker_Status direct_respond(const LV2_Worker_Respond_Handle handle,
                                               const uint32_t size, const void* const data)
{
    (void)handle;
    (void)size;
    (void)data;
    return LV2_WORKER_ERR_UNKNOWN;
}

/* What the worker was woken for. */
static inline void direct_work(Direct* const direct)
{
    const LV2_Worker_Interface* const worker =
        (const LV2_Worker_Interface*)direct->plugin->extension_data(LV2_WORKER__interface);
    if (direct->is_due) {
        direct->is_due = false;
        worker->work(direct->handle, direct_respond, NULL, 0, NULL);
    }
}

static inline int direct_text_of(Direct* const direct, const uint32_t key)
{
    int text = 0;
    while (text < DIRECT_TEXTS && direct_urid(direct, direct_keys[text]) != key) {
        ++text;
    }
    return text;
}

static inline LV2_State_Status direct_store(const LV2_State_Handle handle, const uint32_t key,
                                            const void* const value, const size_t size,
                                            const uint32_t type, const uint32_t flags)
{
    (void)size;
    (void)type;
    (void)flags;
    Direct* const direct = (Direct*)handle;
    const int text = direct_text_of(direct, key);
    if (text < DIRECT_TEXTS) {
        snprintf(direct->texts[text], DIRECT_TEXT, "%s", (const char*)value);
    }
    return LV2_STATE_SUCCESS;
}

static inline const void* direct_retrieve(const LV2_State_Handle handle, const uint32_t key,
                                          size_t* const size, uint32_t* const type,
                                          uint32_t* const flags)
{
    Direct* const direct = (Direct*)handle;
    const int text = direct_text_of(direct, key);
    const char* const found =
        text < DIRECT_TEXTS && *direct->texts[text] ? direct->texts[text] : NULL;
    *size = found ? strlen(found) + 1 : 0;
    *type = direct_urid(direct, LV2_ATOM__String);
    *flags = LV2_STATE_IS_POD;
    return found;
}

static inline const LV2_State_Interface* direct_state(const Direct* const direct)
{
    return (const LV2_State_Interface*)direct->plugin->extension_data(LV2_STATE__interface);
}

/* Into `texts`. */
static inline bool direct_save(Direct* const direct)
{
    direct_forget(direct);
    return direct_state(direct)->save(direct->handle, direct_store, direct, 0, NULL) ==
           LV2_STATE_SUCCESS;
}

/* From `texts`. */
static inline bool direct_restore(Direct* const direct)
{
    return direct_state(direct)->restore(direct->handle, direct_retrieve, direct, 0, NULL) ==
           LV2_STATE_SUCCESS;
}

/* The text that the last block told in a message, or NULL. */
static inline const char* direct_told(Direct* const direct, const char* const property)
{
    const char* found = NULL;
    LV2_ATOM_SEQUENCE_FOREACH (&direct->notify.sequence, event) {
        const LV2_Atom* value = NULL;
        lv2_atom_object_get((const LV2_Atom_Object*)&event->body, direct_urid(direct, property),
                            &value, 0);
        found = value ? (const char*)(value + 1) : found;
    }
    return found;
}
