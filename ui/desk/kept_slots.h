// SPDX-License-Identifier: ISC
/* kept_slots.h - what a person does with what is kept: slots are numbered from 1, and none
   moves. */
#pragma once

#include "model.h"

/* Keeps what is selected, or what is kept and plays, in the first empty slot, or in one, by
   the name that is offered, or by one. */
void kept_slots_keep(Model* model);
void kept_slots_keep_as(Model* model, int slot, const char* name);

/* A name made of variation, feet and groove: what tells it from others first, as a strip of
   names has room for the beginning. */
void kept_slots_offer(const Model* model, char name[KEPT_SHOWN_ROOM]);

void kept_slots_name(Model* model, int slot, const char* name);

/* Empties a slot, and says how it comes back; puts back what the last change of a slot took. */
void kept_slots_drop(Model* model, int slot);
void kept_slots_take_back(Model* model);

/* The key of both: drops what plays; where none plays, what was dropped last comes back. */
void kept_slots_drop_or_back(Model* model);

/* What is kept in the slot comes in at its line; asked again, what is picked does.  It and the
   one before are the pair. */
void kept_slots_play(Model* model, int slot);

/* The other one of the pair. */
void kept_slots_swap(Model* model);

/* The other eight are shown. */
void kept_slots_other_lot(Model* model);
