// SPDX-License-Identifier: ISC
/* shelf.h - the user's own figures and kit maps, in mine.ttl in the user's bank
   folder.  Saving is whole or not at all, keeps the older file as mine.ttl.bak,
   and waits for others who save; what people wrote into the file stays.  Waits
   for the disk: never on the audio thread. */
#pragma once

#include "bank.h"

#include <stddef.h>

enum { SHELF_WHY_ROOM = 1024 };

/* Saves the one figure or kit map that a Turtle text describes; it needs a label.
   A text whose fl:id is 1000 or higher goes over the entry of its kind that has
   it in mine.ttl, or becomes that entry if no file of the folder has it; any
   other gets a new id that no file of the folder ever had, at least `least_id`.
   `folder` is made if it isn't there; NULL means that none can be named.
   The id, or 0 with the reason and what to do in `why`: then nothing changed. */
uint32_t shelf_save(const char* folder, const char* text, size_t size, uint32_t least_id,
                    char why[SHELF_WHY_ROOM]);
