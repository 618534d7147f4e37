// SPDX-License-Identifier: ISC
/* kept_told.h - what the plugin keeps, as it tells it, and as it is shown. */
#pragma once

#include "model.h"

/* A piece of it was told; what there is of it goes. */
void kept_told(Model* model, const LV2_Atom* value);
void kept_told_close(Model* model);

/* Fills in what is shown of it. */
void kept_told_show(Model* model);
