// SPDX-License-Identifier: ISC
/* recorded.h - what the built plugin says to a window in a host, port event by port
   event, recorded anew at each run. */
#pragma once

#include "../../plugin/talk/encode.h"
#include "../../ui/command/host.h"
#include "own_desk.h"

#include <lv2/atom/util.h>

enum { RECORDED_MAX = 4096, RECORDED_RATE = 48000, RECORDED_BLOCK = 512 };

typedef struct {
    uint32_t port;
    uint32_t size;
    uint32_t format;
    double seconds;
    void* bytes;
} PortEvent;

typedef struct {
    int count;
    PortEvent events[RECORDED_MAX];
} Recorded;

static inline void recorded_add(Recorded* const recorded, const double seconds, const uint32_t port,
                                const uint32_t format, const void* const bytes, const uint32_t size)
{
    void* const copy = malloc(size);
    if (!copy || recorded->count == RECORDED_MAX) {
        free(copy);
        return;
    }
    memcpy(copy, bytes, size);
    recorded->events[recorded->count++] = (PortEvent){port, size, format, seconds, copy};
}

static inline void recorded_free(Recorded* const recorded)
{
    for (int i = 0; i < recorded->count; ++i) {
        free(recorded->events[i].bytes);
    }
    free(recorded);
}

static inline void recorded_set(Recorded* const recorded, Host* const host, const double seconds,
                                const Control control, const float value)
{
    char why[HOST_WHY_ROOM];
    if (!host_set(host, control_rows[control].symbol, value, why)) {
        printf("# %s\n", why);
        exit(2);
    }
    recorded_add(recorded, seconds, (uint32_t)(PORT_FIRST_CONTROL + control), 0, &value,
                 sizeof value);
}

/* The plugin's URIDs must be those of the desk: so its table is the host's. */
static inline LV2_URID recorded_map(LV2_URID_Map_Handle handle, const char* const uri)
{
    return host_urid((Host*)handle, uri);
}

static inline void recorded_run(Recorded* const recorded, Host* const host, double* const seconds,
                                const double lasts, const Uris* const uris)
{
    const double end = *seconds + lasts;
    for (int block = 0; *seconds < end; ++block) {
        if (block % 50 == 0) {
            lv2_atom_forge_frame_time(host_input(host), 0);
            encode_look(host_input(host), *seconds > 0.0 ? uris->fl_place : 0, uris);
        }
        host_run(host, RECORDED_BLOCK);
        *seconds += (double)RECORDED_BLOCK / RECORDED_RATE;
        LV2_ATOM_SEQUENCE_FOREACH (host_notify(host), event) {
            recorded_add(recorded, *seconds, PORT_NOTIFY, uris->atom_eventTransfer, &event->body,
                         (uint32_t)sizeof event->body + event->body.size);
        }
        for (uint32_t i = 0; i < READOUT_COUNT && block % 10 == 0; ++i) {
            const float value = host_get(host, readout_rows[i].symbol);
            recorded_add(recorded, *seconds, PORT_FIRST_READOUT + i, 0, &value, sizeof value);
        }
    }
}

/* Some bars of 7/8, a change at the bar, another phrase, a stop.  Sets the desk's
   own numbers for URIs to the host's. */
static inline Recorded* record(OwnDesk* const own)
{
    char why[HOST_WHY_ROOM];
    Host* const host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", RECORDED_RATE, why);
    Recorded* const recorded = calloc(1, sizeof *recorded);
    if (!host || !recorded) {
        printf("# %s\n", why);
        exit(2);
    }
    LV2_URID_Map map = {host, recorded_map};
    own->uris = uris_map(&map);
    HostPosition place = {
        .speed = 1.0f, .tempo = 160.0f, .beats_per_bar = 7.0f, .beat_unit = 8, .has_place = true};
    double seconds = 0.0;
    recorded_set(recorded, host, seconds, CONTROL_GROOVE, 2.0f);
    recorded_set(recorded, host, seconds, CONTROL_PHRASE_BARS, 5.0f);
    recorded_run(recorded, host, &seconds, 0.2, &own->uris);
    host_send_position(host, place);
    recorded_run(recorded, host, &seconds, 2.0, &own->uris);
    recorded_set(recorded, host, seconds, CONTROL_FEET, 3.0f);
    recorded_run(recorded, host, &seconds, 6.0, &own->uris);
    recorded_set(recorded, host, seconds, CONTROL_PHRASE_BARS, 3.0f);
    recorded_run(recorded, host, &seconds, 6.0, &own->uris);
    place.speed = 0.0f;
    place.bar = 2;
    host_send_position(host, place);
    recorded_run(recorded, host, &seconds, 1.5, &own->uris);
    host_close(host);
    return recorded;
}

static inline void replay_one(OwnDesk* const own, const PortEvent* const event)
{
    controller_tick(&own->model, event->seconds);
    incoming_port_event(&own->model, event->port, event->size, event->format, event->bytes);
}

static inline void replay(OwnDesk* const own, const Recorded* const recorded)
{
    for (int i = 0; i < recorded->count; ++i) {
        replay_one(own, &recorded->events[i]);
    }
}
