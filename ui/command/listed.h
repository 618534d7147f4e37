// SPDX-License-Identifier: ISC
/* listed.h - options of `fourlimb list`, as options.h has them; some are others', too. */
#pragma once

#include "request.h"

#define LISTED_GRIDS                                                                               \
    "quarters, eighths, triplets, sixteenths, quintuplets, sextuplets, septuplets, "               \
    "thirty-seconds or shuffle"

bool listed_grid(Request* request, const char* value);
bool listed_limit(Request* request, const char* value);
bool listed_family(Request* request, const char* value);
bool listed_presets(Request* request, const char* value);
bool listed_kits(Request* request, const char* value);
