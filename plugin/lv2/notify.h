// SPDX-License-Identifier: ISC
/* notify.h - what the plugin tells about itself, as messages (talk/encode.h) on `notify`: the
   strokes that found no room, what is wrong with the bank, the entries that the
   session alone has, what is kept, the drafts that play, what came of what was asked for,
   and, for as long as somebody looks on, the phrase as it will be played.  Audio thread; allocates nothing. */
#pragma once

#include "../bank/snapshot.h"
#include "preview_feed.h"
#include "queue.h"

#include <stdbool.h>

/* A text that is told piece by piece. */
typedef struct {
    int32_t which; /* how many have come */
    bool is_due;
    uint32_t at; /* from here on */
} Telling;

typedef struct {
    LV2_Atom_Forge forge;
    const Snapshot* snapshot; /* what plays */
    Queue* answers;           /* see worker.h */
    const char* refused;      /* a sentence of ours, or NULL */
    uint32_t lost_notes;      /* that came in and found no room, beside our own strokes */
    uint32_t told_dropped;
    bool is_due;      /* any of what follows may be */
    bool dropped_due; /* to be told though nothing more was dropped */
    bool bank_due;
    bool draft_due[FIGURE_KINDS];
    Telling entries; /* the session's own */
    Telling kept;    /* what is kept */
    PreviewFeed preview_feed;
} Notify;

/* Of zeros, as calloc gives it; `answers` must outlive it. */
void notify_init(Notify* notify, LV2_URID_Map* map, Queue* answers, double rate);

/* Something else plays from now on: what is another in it will be told. */
void notify_snapshot(Notify* notify, const Snapshot* snapshot);

/* Somebody looks on from now, and wants a property, 0 for all there is. */
void notify_asked(Notify* notify, LV2_URID property, const Uris* uris);

/* Fills the port's buffer after `frames` were played; what finds no room is told
   in a later block. */
void notify_run(Notify* notify, LV2_Atom_Sequence* sequence, const Engine* engine, uint32_t frames,
                const Uris* uris);
