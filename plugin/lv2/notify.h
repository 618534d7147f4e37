// SPDX-License-Identifier: ISC
/* notify.h - what the plugin tells about itself, as patch:Set on `notify`: the
   strokes that found no room, and what is wrong with the bank when asked. */
#pragma once

#include "../bank/complaints.h"
#include "uris.h"

#include <lv2/atom/forge.h>
#include <stdbool.h>

typedef struct {
    LV2_Atom_Forge forge;
    const char* bank_messages; /* one a line; "" if all is well */
    uint32_t told_dropped;
    bool asked; /* somebody sent patch:Get and has had no answer yet */
} Notify;

/* `bank_messages` must outlive it. */
void notify_init(Notify* notify, LV2_URID_Map* map, const char* bank_messages);

/* Fills the port's buffer; what finds no room is told in a later block. */
void notify_run(Notify* notify, LV2_Atom_Sequence* sequence, uint32_t dropped, const Uris* uris);
