// SPDX-License-Identifier: ISC
/* decode.h - reads what encode.h writes.  Every size and type is checked: a host may
   hand over anything.  No allocation; any thread. */
#pragma once

#include "seen.h"
#include "encode.h"
#include "uris.h"

#include <lv2/atom/atom.h>
#include <stdbool.h>

/* True if it is an fl:Message: which property, and its value, which is whole. */
bool decode_message(const LV2_Atom* message, uint32_t size, const Uris* uris, LV2_URID* property,
                    const LV2_Atom** value);

/* True if it is an fl:Look; the property it wants, 0 for all. */
bool decode_look(const LV2_Atom* message, uint32_t size, const Uris* uris, LV2_URID* wanted);

/* True if it is an fl:ToldSection that makes sense, controls that are missing at their
   defaults. */
bool decode_section(const LV2_Atom* message, uint32_t size, const Uris* uris, ToldSection* section);

/* False, with nothing changed, if the value isn't one; fields out of range are
   brought into range, strokes that make no sense are left out. */
bool decode_bar(const LV2_Atom* value, const Uris* uris, SeenBar* bar);
bool decode_piece(const LV2_Atom* value, const Uris* uris, Piece* piece);  /* text: the value's */
bool decode_kept(const LV2_Atom* value, const Uris* uris, KeptWord* word); /* name: the value's */
bool decode_place(const LV2_Atom* value, const Uris* uris, SeenPlace* place);
