// SPDX-License-Identifier: ISC
/* hear.h - reads what tell.h writes.  Every size and type is checked: a host may
   hand over anything.  No allocation; any thread. */
#pragma once

#include "../engine/outlook.h"
#include "tell.h"
#include "uris.h"

#include <lv2/atom/atom.h>
#include <stdbool.h>

/* True if it is a patch:Set: which property, and its value, which is whole. */
bool hear_set(const LV2_Atom* message, uint32_t size, const Uris* uris, LV2_URID* property,
              const LV2_Atom** value);

/* True if it is a patch:Get; the property it asks for, 0 for all. */
bool hear_get(const LV2_Atom* message, uint32_t size, const Uris* uris, LV2_URID* property);

/* True if it is an fl:Section that makes sense, controls that are missing at their
   defaults; `begins` if it is a song's first. */
bool hear_section(const LV2_Atom* message, uint32_t size, const Uris* uris, PlanEntry* section,
                  bool* begins);

/* False, with nothing changed, if the value isn't one; fields out of range are
   brought into range, strokes that make no sense are left out. */
bool hear_bar(const LV2_Atom* value, const Uris* uris, SeenBar* bar);
bool hear_piece(const LV2_Atom* value, const Uris* uris, Piece* piece); /* text: the value's */
bool hear_place(const LV2_Atom* value, const Uris* uris, SeenPlace* place);
