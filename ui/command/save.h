// SPDX-License-Identifier: ISC
/* save.h - a file appears whole or not at all, and never over an older one
   unless that was asked for. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

enum { SAVE_WHY_ROOM = 512 };

/* Writes `size` bytes to `path` by way of a new file beside it.  False, with the
   reason and what to do in `why`, if that failed: then `path` is as it was. */
bool save_file(const char* path, const void* bytes, size_t size, bool replace,
               char why[SAVE_WHY_ROOM]);
