// SPDX-License-Identifier: ISC
/* deleting.h - an own entry out of the user's bank, asked for first.  Its file is put aside
   by the plugin, so that it can be had again. */
#pragma once

#include "model.h"

/* What is chosen in the open list, else the figure that is edited: asks, or says why not. */
void deleting_ask(Model* model);

/* It is agreed to. */
void deleting_yes(Model* model);

/* The plugin has done it. */
void deleting_done(Model* model, int64_t id);
