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

/* Puts everything into an open file; false, with errno set, if it can't. */
typedef bool (*SaveWriter)(int file, void* context);

/* The same for what is too large for memory.  While the writer runs, an
   interruption (SIGINT, SIGTERM, SIGHUP) waits until the new file is gone; long
   writers ask for it and fail. */
bool save_by(const char* path, SaveWriter writer, void* context, bool replace,
             char why[SAVE_WHY_ROOM]);

/* True if an interruption waits. */
bool save_interrupted(void);

/* True if there is a file at `path` that a save would not replace; with why. */
bool save_refuses(const char* path, bool replace, char why[SAVE_WHY_ROOM]);
