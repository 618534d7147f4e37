// SPDX-License-Identifier: ISC
/* varied.h - variations of the feet by name: as an option of a section, as options.h has them. */
#pragma once

#include "request.h"

/* The number of a variation by its name in any case, or by that; -1 if there is none. */
int varied_number(const char* typed);

/* A section's variation; a second one is what becomes of the first. */
bool varied_take(Request* request, const char* value);
