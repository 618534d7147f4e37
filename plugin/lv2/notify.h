// SPDX-License-Identifier: ISC
/* notify.h - what the plugin tells about itself, as patch:Set on `notify`: strokes
   that found no room, what is wrong with the bank, and, for as long as somebody
   looks on, the phrase as it will be played and the place in it.  Audio thread. */
#pragma once

#include "../bank/complaints.h"
#include "../engine/outlook.h"
#include "../talk/tell.h"

#include <stdbool.h>

typedef struct {
    LV2_Atom_Forge forge;
    const char* bank_messages; /* one a line; "" if all is well */
    uint32_t told_dropped;
    bool asked;          /* patch:Get for all, without an answer yet */
    double rate;         /* frames a second */
    int64_t watched;     /* frames for which somebody still looks on */
    int64_t since_place; /* frames since the place was told */
    SeenPlace told_place;
    Outlook outlook;
} Notify;

/* `bank_messages` must outlive it. */
void notify_init(Notify* notify, LV2_URID_Map* map, const char* bank_messages, double rate);

/* Somebody asked for a property, 0 for all: looks on from now, for three seconds
   unless asked again. */
void notify_ask(Notify* notify, LV2_URID property);

/* Fills the port's buffer after `frames` were played; what finds no room is told
   in a later block. */
void notify_run(Notify* notify, LV2_Atom_Sequence* sequence, const Engine* engine, uint32_t frames,
                const Uris* uris);
