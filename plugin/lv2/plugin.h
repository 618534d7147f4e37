// SPDX-License-Identifier: ISC
/* plugin.h - what an instance is made of, for plugin.c and block.c alone. */
#pragma once

#include "../engine/play/engine.h"
#include "inbox.h"
#include "notify.h"
#include "ports.h"
#include "worker.h"

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
    uint32_t unsettled;   /* reports of this block that changed what plays or where */
    bool wants_fill;      /* one was asked for, but nothing rolled */
    bool kept_moved;      /* what is kept is another since the settings were made */
} Plugin;
