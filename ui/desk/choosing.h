// SPDX-License-Identifier: ISC
/* choosing.h - a dial of words lays them out in the panel, each to be picked directly. */
#pragma once

#include "model.h"

/* True if the control's dial has words that aren't side by side already. */
bool choosing_can(const Model* model, Control control);

void choosing_open(Model* model, Control control);

/* The word so many from the least; the dial has the focus again. */
void choosing_pick(Model* model, int word);

/* With the value as it is. */
void choosing_leave(Model* model);
