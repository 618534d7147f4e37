// SPDX-License-Identifier: ISC
/* groove_saving.h - what plays now as a groove of the user's own: its name is asked for, figures
   that are nowhere yet are saved first, each under its name, then the groove, and that plays. */
#pragma once

#include "../../plugin/bank/own_groove.h"
#include "../scene/view.h"

typedef struct Model Model;

typedef struct {
    bool is_on;
    OwnGroove own;
    bool needs[GROOVE_USES_MAX]; /* figures that aren't saved yet */
    int sent;                    /* the one that isn't answered; -1: none */
    bool is_groove_sent;
    double since; /* seconds: when something was last heard of it */
    char label[TYPED_ROOM];
    char done[MESSAGE_ROOM]; /* figures that were saved with it, in words */
} GrooveSaving;

/* Asks for the name; says why if there is nothing that could be saved. */
void groove_saving_ask(Model* model);

/* The name is there: false, and the question stays with the reason, if it can't be taken. */
bool groove_saving_begin(Model* model);

/* What the plugin answers; true if it was about this. */
bool groove_saving_figure(Model* model, int64_t id);
void groove_saving_done(Model* model, int64_t id);
void groove_saving_refused(Model* model);

/* Another bank has come, or time goes on. */
void groove_saving_tick(Model* model);

void groove_saving_close(Model* model);
