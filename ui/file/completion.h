// SPDX-License-Identifier: ISC
/* completion.h - the rest of a folder's name that somebody types, as far as the disk leaves
   no choice.  Waits for the disk: for a window's thread, never the audio thread. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

enum {
    COMPLETION_READ_MOST = 10000, /* entries of a folder: the rest isn't looked at */
    COMPLETION_NAMES_ROOM = 160   /* a line of help */
};

/* The folder of a file, or what is one itself, with its "/"; false if it isn't UTF-8, has no
   room, or isn't there. */
bool completion_folder_of(const char* path, char* folder, size_t room);

/* Lengthens `path` (UTF-8, in `room` bytes) by what all folders have in common that begin as
   its last part does, and by "/" if that is one folder alone.  "~" and "~/" are the home
   folder, and stay as typed.  Hidden ones only count where that part begins with a dot, and
   names that aren't UTF-8 never do.  `names`: those that fit, in order, if it isn't one
   alone; or in a few words why there is none.  False if nothing was added. */
bool completion_find(char* path, size_t room, char names[COMPLETION_NAMES_ROOM]);
