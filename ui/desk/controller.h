// SPDX-License-Identifier: ISC
/* controller.h - behind the window, on top: what a person does, and time, go to whoever
   answers for them; what the plugin says comes in by incoming.h. */
#pragma once

#include "../pane/pane.h"
#include "model.h"

/* `bank` may be NULL: nothing can be picked then.  False if memory ran out. */
bool controller_open(Model* model, Bank* bank, const Uris* uris, ModelOutput output);
void controller_close(Model* model);

/* Another bank, or the same read again; the old one may go then.  False, with all as it
   was, if memory ran out. */
bool controller_bank(Model* model, Bank* bank);

/* `scale`: real pixels to a logical one. */
void controller_resize(Model* model, int width, int height, double scale);

/* The property wanted of the plugin now, 0 for all: as long as somebody looks on, said
   once a second at least, it goes on telling. */
LV2_URID controller_asks(const Model* model);

/* What the person did; anything may come in any order.  False for a key that does
   nothing here, as no key does that is pressed with Control, Alt or Super: they are
   the host's. */
bool controller_input(Model* model, const PaneEvent* event);

/* Time goes on: the place moves between two messages. */
void controller_tick(Model* model, double seconds);
