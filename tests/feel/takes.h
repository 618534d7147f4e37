// SPDX-License-Identifier: ISC
/* takes.h - performances of the built plugin, as offsets from the grid and
   velocities.  The groove is one of the test's own, in the user's bank. */
#pragma once

#include "../../ui/command/host.h"
#include "../rhythm/own_folder.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TAKE_MAX = 4096, TAKE_RATE = 48000 };

typedef struct {
    int count;
    double offset_ms[TAKE_MAX]; /* from the nearest grid line */
    double velocity[TAKE_MAX];
    int64_t frame[TAKE_MAX];
    int64_t slot[TAKE_MAX]; /* which grid line */
} Take;

/* What is played: the plugin's controls, tempo, and one key on an even grid. */
typedef struct {
    const char* groove; /* id as text is not needed: the first of the user's */
    float id;
    double tempo;
    double per_quarter; /* grid lines in a quarter note */
    int key;
    int quarters;
    int first_quarter; /* where the transport starts */
    uint32_t block;
    float take;
    float looseness; /* below 0: left at the default */
    float touch;     /* likewise */
} Session;

/* The built plugin with a bank of the test's own; ends the program if it can't. */
static inline Host* take_host(const char* const bank)
{
    OwnFolder own;
    char why[HOST_WHY_ROOM];
    own_folder_make(&own);
    own_folder_write(&own, "own.ttl", bank);
    setenv("XDG_DATA_HOME", own.root, 1);
    Host* const host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", TAKE_RATE, why);
    own_folder_remove(&own);
    if (!host) {
        printf("# %s\n", why);
        exit(2);
    }
    return host;
}

static inline void take_set(Host* const host, const char* const symbol, const float value)
{
    char why[HOST_WHY_ROOM];
    if (!host_set(host, symbol, value, why)) {
        printf("# %s\n", why);
    }
}

static inline void take_position(Host* const host, const int64_t frame, const double tempo,
                                 const float speed)
{
    host_send_position(host, (HostPosition){.frame = frame,
                                            .speed = speed,
                                            .tempo = (float)tempo,
                                            .beats_per_bar = 4.0f,
                                            .beat_unit = 4});
}

static inline void take_gather(Host* const host, const Session* const session, const int64_t start,
                               Take* const take)
{
    const double line = 60.0 / session->tempo * TAKE_RATE / session->per_quarter;
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(host), event) {
        const uint8_t* const bytes = (const uint8_t*)event + sizeof(LV2_Atom_Event);
        if (bytes[0] >> 4 == 9 && bytes[1] == session->key && take->count < TAKE_MAX) {
            const int64_t frame = start + event->time.frames;
            const double slot = floor((double)frame / line + 0.5);
            take->offset_ms[take->count] = ((double)frame - slot * line) / TAKE_RATE * 1000.0;
            take->velocity[take->count] = bytes[2];
            take->slot[take->count] = (int64_t)slot;
            take->frame[take->count++] = frame;
        }
    }
}

/* Plays a session; `host` may be used again. */
static inline void take_play(Host* const host, const Session* const session, Take* const take)
{
    const double quarter = 60.0 / session->tempo * TAKE_RATE;
    const int64_t begin = (int64_t)floor(session->first_quarter * quarter + 0.5);
    const int64_t end = begin + (int64_t)(session->quarters * quarter);
    take->count = 0;
    take_set(host, "groove", session->id);
    take_set(host, "take", session->take);
    take_set(host, "kit", 2.0f);
    take_set(host, "liberty", 0.0f);
    take_set(host, "looseness", session->looseness < 0.0f ? 18.0f : session->looseness);
    take_set(host, "touch", session->touch < 0.0f ? 50.0f : session->touch);
    take_position(host, begin, session->tempo, 1.0f);
    for (int64_t at = begin; at < end; at += session->block) {
        const int64_t left = end - at;
        host_run(host, left < session->block ? (uint32_t)left : session->block);
        take_gather(host, session, at, take);
    }
    take_position(host, end, session->tempo, 0.0f);
    host_run(host, 1);
}
