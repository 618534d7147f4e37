// SPDX-License-Identifier: ISC
/* save.h - a file appears whole or not at all, and never over an older one unless that
   was asked for.  What earlier saves to the same name left where they were killed is
   swept.  Waits for the disk: never on the audio thread.  A limit on files' sizes is a
   failure like another: its signal is kept from the program. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

enum { SAVE_WHY_ROOM = 512 };

typedef enum {
    SAVE_DONE,
    SAVE_TAKEN,   /* something has the name */
    SAVE_CHANGED, /* it isn't what it was any more */
    SAVE_FAILED
} SaveResult;

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

typedef struct {
    const void* bytes;
    size_t size;
} SaveText;

/* The writer of a SaveText. */
bool save_text(int file, void* text);

/* save_file without `replace`; SAVE_TAKEN if `path` is there, however many programs
   save to it at once. */
SaveResult save_new(const char* path, SaveText text, char why[SAVE_WHY_ROOM]);

/* Puts a text in the place of `older` at `path`, which from then on has the name
   `backup`, in place of what had that.  SAVE_CHANGED if something else stands there, or
   somebody else is replacing it just now.  Unless it is SAVE_DONE all is as it was. */
SaveResult save_swap(const char* path, SaveText older, const char* backup, SaveText text,
                     char why[SAVE_WHY_ROOM]);

/* Adds a text at the end of a small file, which is made if it isn't there; nothing is
   waited for.  False, with errno set, if that can't be, or it is no plain file. */
bool save_append(const char* path, SaveText text);

/* True, with why, if there is something at `path` that a save would not replace:
   without `replace` anything, with it what is no plain file, such as a device. */
bool save_refuses(const char* path, bool replace, char why[SAVE_WHY_ROOM]);
