// SPDX-License-Identifier: ISC
/* save.h - a file appears whole or not at all, and never over an older one
   unless that was asked for.  Waits for the disk: never on the audio thread. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

enum { SAVE_WHY_ROOM = 512 };

/* Writes `size` bytes to `path` by way of a new file beside it, and waits until
   they are on the disk.  A file that is replaced leaves its mode to the new one.
   False, with the reason and what to do in `why`, if that failed: then `path` is
   as it was. */
bool save_file(const char* path, const void* bytes, size_t size, bool replace,
               char why[SAVE_WHY_ROOM]);

/* Puts everything into an open file; false, with errno set, if it can't. */
typedef bool (*SaveWriter)(int file, void* context);

/* save_file for what is too large for memory: the writer fills the new file. */
bool save_by(const char* path, SaveWriter writer, void* context, bool replace,
             char why[SAVE_WHY_ROOM]);

/* True, with why, if there is something at `path` that a save would not replace:
   without `replace` anything, with it what is no plain file, such as a device. */
bool save_refuses(const char* path, bool replace, char why[SAVE_WHY_ROOM]);

/* Makes `backup` another name of the file `path`, in place of what had that name,
   so that it outlives a save_file to `path`; copies where links can't be had.
   Reasons as above. */
bool save_backup(const char* path, const char* backup, char why[SAVE_WHY_ROOM]);
