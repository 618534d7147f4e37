// SPDX-License-Identifier: ISC
/* presets.h - the bundle's LV2 presets, as any host finds them by lilv. */
#pragma once

#include "request.h"

/* Fills in the values of every preset that the request names.  False, with a
   message that says what is near, if there is none of a name. */
bool presets_resolve(Request* request);

/* Prints them by bank, each with what it is for.  False, with a message, if the
   bundle can't be loaded. */
bool presets_print(const char* bundle);
