// SPDX-License-Identifier: ISC
/* saving.h - what was changed goes into the user's own bank: hands, feet and fill, each under
   its name, one after the other.  A name that is missing, or the factory's, is asked for. */
#pragma once

#include "model.h"

/* Saves all that is changed, and what is open.  `asks`: who never saved it under its name from
   here is asked for that first. */
void saving_begin(Model* model, bool asks);

/* A name was typed: on with it; it wasn't: nothing more is saved. */
void saving_named(Model* model);
void saving_leave(Model* model);

/* The plugin has saved what was sent, or hasn't.  True if that was the last of them. */
bool saving_answered(Model* model, int64_t id);
void saving_refused(Model* model);

/* True if the factory has one of this kind and name, whatever its case. */
bool saving_is_factorys(const Model* model, EntryKind kind, const char* name);
