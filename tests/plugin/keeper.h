// SPDX-License-Identifier: ISC
/* keeper.h - an LV2 host for one instance of the built plugin, with a worker as
   hosts have it (another thread, which may be slow), and state by lilv. */
#pragma once

#include "../../plugin/engine/groove/settings.h"
#include "../../plugin/bank/write_figure.h"
#include "../../ui/command/uri_table.h"
#include "../help/check.h"
#include "../help/wait.h"
#include "fresh_home.h"
#include "played.h"

#include <lv2/state/state.h>
#include <lv2/worker/worker.h>
#include <pthread.h>
#include <stdatomic.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define FL "urn:fourlimb:terms#"
#define TTL                                                                                        \
    "@prefix fl: <urn:fourlimb:terms#> .\n"                                                        \
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"

enum { KEEPER_ROOM = 1 << 17, JOBS_MOST = 64, TEXT_MOST = 1 << 17 };

typedef union {
    LV2_Atom_Sequence sequence;
    uint64_t room[KEEPER_ROOM / 8 + 2];
} KeeperBuffer;

typedef enum { NO_WORKER, WORKER_THREAD, WORKER_BY_HAND } WorkerKind;

typedef struct {
    Host* host; /* for lilv's sake */
    UriTable* uris;
    LV2_URID_Map map;
    LV2_URID_Unmap unmap;
    LilvInstance* instance;
    const LV2_Worker_Interface* worker;
    LV2_Worker_Schedule schedule;
    LV2_Feature features[3];
    const LV2_Feature* list[4];
    pthread_t thread;
    WorkerKind kind;
    atomic_int jobs; /* scheduled and not done */
    atomic_int delay_ms;
    atomic_bool full; /* refuse to schedule */
    atomic_bool ends;
    float controls[CONTROL_COUNT];
    KeeperBuffer input, midi, notify;
    LV2_Atom_Forge forge;
    LV2_Atom_Forge_Frame frame;
    Played played;
} Keeper;

static inline LV2_URID urid(Keeper* const keeper, const char* const uri)
{
    return uri_table_map(keeper->uris, uri);
}

static inline LV2_Worker_Status never_respond(const LV2_Worker_Respond_Handle handle,
                                              const uint32_t size, const void* const data)
{
    (void)handle;
    (void)size;
    (void)data;
    return LV2_WORKER_ERR_UNKNOWN;
}

static inline LV2_Worker_Status keeper_schedule(const LV2_Worker_Schedule_Handle handle,
                                                const uint32_t size, const void* const data)
{
    (void)size;
    (void)data;
    Keeper* const keeper = (Keeper*)handle;
    if (atomic_load(&keeper->full)) {
        return LV2_WORKER_ERR_NO_SPACE;
    }
    atomic_fetch_add(&keeper->jobs, 1);
    return LV2_WORKER_SUCCESS;
}

static inline void pause_ms(const int ms)
{
    nanosleep(&(struct timespec){ms / 1000, ms % 1000 * 1000000L}, NULL);
}

static inline void keeper_work(Keeper* const keeper)
{
    static const uint32_t nothing = 0;
    pause_ms(atomic_load(&keeper->delay_ms));
    keeper->worker->work(lilv_instance_get_handle(keeper->instance), never_respond, NULL,
                         sizeof nothing, &nothing);
}

static inline void* keeper_thread(void* const handle)
{
    Keeper* const keeper = (Keeper*)handle;
    while (!atomic_load(&keeper->ends)) {
        if (atomic_load(&keeper->jobs) > 0) {
            keeper_work(keeper);
            atomic_fetch_sub(&keeper->jobs, 1);
        } else {
            pause_ms(1);
        }
    }
    return NULL;
}

static inline void keeper_begin(Keeper* const keeper)
{
    lv2_atom_forge_set_buffer(&keeper->forge, (uint8_t*)&keeper->input, KEEPER_ROOM);
    lv2_atom_forge_sequence_head(&keeper->forge, &keeper->frame, 0);
}

static inline void keeper_connect(Keeper* const keeper)
{
    LilvInstance* const instance = keeper->instance;
    lilv_instance_connect_port(instance, PORT_CONTROL, &keeper->input);
    lilv_instance_connect_port(instance, PORT_MIDI_OUT, &keeper->midi);
    lilv_instance_connect_port(instance, PORT_NOTIFY, &keeper->notify);
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        keeper->controls[i] = control_rows[i].normal;
        lilv_instance_connect_port(instance, PORT_FIRST_CONTROL + i, &keeper->controls[i]);
    }
    keeper->controls[CONTROL_LOOSENESS] = 0.0f;
    keeper->controls[CONTROL_TOUCH] = 0.0f;
}

/* Ends the program if the plugin will not start. */
static inline Keeper* keeper_open(const WorkerKind kind)
{
    Keeper* const keeper = calloc(1, sizeof(Keeper));
    keeper->host = bundle_host(RATE);
    keeper->uris = uri_table_new();
    keeper->kind = kind;
    keeper->map = (LV2_URID_Map){keeper->uris, uri_table_map};
    keeper->unmap = (LV2_URID_Unmap){keeper->uris, uri_table_unmap};
    keeper->schedule = (LV2_Worker_Schedule){keeper, keeper_schedule};
    keeper->features[0] = (LV2_Feature){LV2_URID__map, &keeper->map};
    keeper->features[1] = (LV2_Feature){LV2_URID__unmap, &keeper->unmap};
    keeper->features[2] = (LV2_Feature){LV2_WORKER__schedule, &keeper->schedule};
    for (int i = 0; i < (kind == NO_WORKER ? 2 : 3); ++i) {
        keeper->list[i] = &keeper->features[i];
    }
    keeper->instance = lilv_plugin_instantiate(host_plugin(keeper->host), RATE, keeper->list);
    if (!keeper->instance) {
        printf("# the plugin will not start\n");
        exit(2);
    }
    keeper->worker = (const LV2_Worker_Interface*)lilv_instance_get_extension_data(
        keeper->instance, LV2_WORKER__interface);
    lv2_atom_forge_init(&keeper->forge, &keeper->map);
    keeper_connect(keeper);
    keeper_begin(keeper);
    if (kind == WORKER_THREAD) {
        pthread_create(&keeper->thread, NULL, keeper_thread, keeper);
    }
    lilv_instance_activate(keeper->instance);
    return keeper;
}

static inline void keeper_close(Keeper* const keeper)
{
    atomic_store(&keeper->ends, true);
    if (keeper->kind == WORKER_THREAD) {
        pthread_join(keeper->thread, NULL);
    }
    lilv_instance_deactivate(keeper->instance);
    lilv_instance_free(keeper->instance);
    host_close(keeper->host);
    uri_table_free(keeper->uris);
    free(keeper);
}

static inline void keeper_run(Keeper* const keeper, const uint32_t frames)
{
    const LV2_URID midi = urid(keeper, LV2_MIDI__MidiEvent);
    int64_t before = 0;
    lv2_atom_forge_pop(&keeper->forge, &keeper->frame);
    keeper->midi.sequence.atom = (LV2_Atom){KEEPER_ROOM, urid(keeper, LV2_ATOM__Chunk)};
    keeper->notify.sequence.atom = (LV2_Atom){KEEPER_ROOM, urid(keeper, LV2_ATOM__Chunk)};
    lilv_instance_run(keeper->instance, frames);
    LV2_ATOM_SEQUENCE_FOREACH (&keeper->midi.sequence, event) {
        take_event(&keeper->played, event, midi, frames, &before);
    }
    keeper->played.frames += frames;
    keeper_begin(keeper);
}

static inline void keeper_run_frames(Keeper* const keeper, const int64_t frames)
{
    const int64_t end = keeper->played.frames + frames;
    while (keeper->played.frames < end) {
        const int64_t left = end - keeper->played.frames;
        keeper_run(keeper, (uint32_t)(left < BLOCK ? left : BLOCK));
    }
}

static inline void keeper_float(Keeper* const keeper, const char* const key, const float value)
{
    lv2_atom_forge_key(&keeper->forge, urid(keeper, key));
    lv2_atom_forge_float(&keeper->forge, value);
}

/* Rolling from bar 0 at 120 in 4/4, or standing there. */
static inline void keeper_transport(Keeper* const keeper, const float speed)
{
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&keeper->forge, 0);
    lv2_atom_forge_object(&keeper->forge, &object, 0, urid(keeper, LV2_TIME__Position));
    keeper_float(keeper, LV2_TIME__speed, speed);
    keeper_float(keeper, LV2_TIME__beatsPerMinute, 120.0f);
    keeper_float(keeper, LV2_TIME__bar, 0.0f);
    keeper_float(keeper, LV2_TIME__barBeat, 0.0f);
    keeper_float(keeper, LV2_TIME__beatsPerBar, 4.0f);
    keeper_float(keeper, LV2_TIME__beatUnit, 4.0f);
    lv2_atom_forge_pop(&keeper->forge, &object);
}

static inline void keeper_stop(Keeper* const keeper)
{
    keeper_transport(keeper, 0.0f);
    keeper_run(keeper, BLOCK);
}

/* Bars from the top, with what was kept of MIDI before forgotten. */
static inline void keeper_play(Keeper* const keeper, const int bars)
{
    keeper_stop(keeper);
    keeper->played.count = keeper->played.lost = keeper->played.wrong = 0;
    keeper->played.frames = 0;
    keeper_transport(keeper, 1.0f);
    keeper_run_frames(keeper, (int64_t)bars * BAR_FRAMES);
}

static inline void keeper_set(Keeper* const keeper, const char* const property,
                              const char* const text)
{
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&keeper->forge, 0);
    lv2_atom_forge_object(&keeper->forge, &object, 0, urid(keeper, FL "Message"));
    lv2_atom_forge_key(&keeper->forge, urid(keeper, property));
    lv2_atom_forge_string(&keeper->forge, text, (uint32_t)strlen(text));
    lv2_atom_forge_pop(&keeper->forge, &object);
}

static inline void keeper_look(Keeper* const keeper)
{
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(&keeper->forge, 0);
    lv2_atom_forge_object(&keeper->forge, &object, 0, urid(keeper, FL "Look"));
    lv2_atom_forge_pop(&keeper->forge, &object);
}

/* The value that the last block told in a message, or NULL. */
static inline const LV2_Atom* keeper_told(Keeper* const keeper, const char* const property)
{
    const LV2_Atom* found = NULL;
    LV2_ATOM_SEQUENCE_FOREACH (&keeper->notify.sequence, event) {
        const LV2_Atom_Object* const object = (const LV2_Atom_Object*)&event->body;
        if (object->body.otype == urid(keeper, FL "Message")) {
            lv2_atom_object_get(object, urid(keeper, property), &found, 0);
        }
    }
    return found;
}

static inline const char* keeper_told_text(Keeper* const keeper, const char* const property)
{
    const LV2_Atom* const value = keeper_told(keeper, property);
    return value && value->type == urid(keeper, LV2_ATOM__String) ? (const char*)(value + 1) : NULL;
}

/* The number of an atom:Long, or -1 if it isn't one. */
static inline int64_t long_of(Keeper* const keeper, const LV2_Atom* const value)
{
    int64_t number = -1;
    if (value && value->type == urid(keeper, LV2_ATOM__Long)) {
        memcpy(&number, value + 1, sizeof number);
    }
    return number;
}

static inline int64_t keeper_told_long(Keeper* const keeper, const char* const property)
{
    return long_of(keeper, keeper_told(keeper, property));
}

/* Runs blocks of no transport until the property is told; false if it never is: after
   3000 blocks, but for a worker with a thread of its own, which takes the time it takes. */
static inline bool keeper_await(Keeper* const keeper, const char* const property)
{
    Wait wait = wait_until(property);
    for (int i = 0; i < 3000 || keeper->kind == WORKER_THREAD; ++i) {
        keeper_run(keeper, 64);
        if (keeper_told(keeper, property)) {
            return true;
        }
        if (keeper->kind == WORKER_BY_HAND && atomic_exchange(&keeper->jobs, 0)) {
            keeper_work(keeper);
        }
        if (keeper->kind == WORKER_THREAD && !wait_goes_on(&wait)) {
            return false;
        }
    }
    return false;
}

/* Until the worker's thread has done all it was asked for. */
static inline bool keeper_rests(Keeper* const keeper)
{
    Wait wait = wait_until("the worker has nothing left to do");
    while (atomic_load(&keeper->jobs)) {
        if (!wait_goes_on(&wait)) {
            return false;
        }
    }
    return true;
}

/* Sets a draft and waits until it plays; ends the test's hope if it never does. */
static inline void keeper_draft(Keeper* const keeper, const char* const property,
                                const char* const text)
{
    keeper_stop(keeper);
    keeper_set(keeper, property, text);
    CHECK(keeper_await(keeper, property));
}

/* Asks for something that must be refused for a reason. */
static inline void check_refused(Keeper* const keeper, const char* const property,
                                 const char* const text, const char* const why)
{
    keeper_set(keeper, property, text);
    CHECK(keeper_await(keeper, FL "refused"));
    const char* const told = keeper_told_text(keeper, FL "refused");
    if (!CHECK(told && strstr(told, why))) {
        printf("# told: %s\n", told ? told : "nothing");
    }
}

/* Asks for a feet figure to be saved, and is told this id. */
static inline void keeper_saves(Keeper* const keeper, const char* const figure, const int64_t id)
{
    keeper_set(keeper, FL "saveFigure", figure);
    CHECK(keeper_await(keeper, FL "savedFigure"));
    CHECK_INT(keeper_told_long(keeper, FL "savedFigure"), id);
}

/* A figure of feet with an id and steps in sixteenths of the right foot. */
static inline const char* feet_text(const uint32_t id, const char* const label,
                                    const char* const steps)
{
    static char text[2048];
    char number[32] = "";
    if (id) {
        snprintf(number, sizeof number, "fl:id %u ; ", id);
    }
    snprintf(text, sizeof text,
             TTL "<urn:test:draft> a fl:FeetFigure ; %srdfs:label \"%s\" ; fl:bars 1 ;\n"
                 "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; "
                 "fl:steps \"%s\" ] .\n",
             number, label, steps);
    return text;
}

/* Which of the bar's sixteenths begin a note of the key, as steps. */
static inline const char* bar_steps(const Keeper* const keeper, const int bar, const uint8_t key)
{
    static char steps[17];
    for (int i = 0; i < 16; ++i) {
        const int64_t frame = (int64_t)bar * BAR_FRAMES + i * (QUARTER_FRAMES / 4);
        steps[i] = begins(&keeper->played, frame, key) ? 'o' : '.';
    }
    return steps;
}

enum { KICK = 36 }; /* General MIDI Level 1, percussion key map */
