// SPDX-License-Identifier: ISC
/* names.h - limbs and voices as ttl/terms.ttl names them.
   A test holds these tables against that file. */
#pragma once

#include "../engine/written/figure.h"

extern const char* const limb_names[LIMB_COUNT];
extern const char* const voice_names[VOICE_COUNT];

/* The index of `name` in a table of `count` names, or -1. */
int name_index(const char* const* names, int count, const char* name);
