// SPDX-License-Identifier: ISC
/* temp.h - a file on its way: it has a name of its own beside the one it is made for,
   NAME.part-PROCESS-NUMBER, and is locked as long as whoever makes it lives.  So what
   a killed program left is known as such, and swept.  Inside the bank room.  Waits for
   the disk, for locks never. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

typedef struct {
    int file;   /* -1: none */
    char* path; /* NULL once it has another name */
} Temp;

/* A new, empty file for `path`; false, with errno set, if none can be made. */
bool temp_open(Temp* temp, const char* path);

/* Another name of the file `from` on its way to be `path`.  False, with errno set, if
   that can't be: EWOULDBLOCK where somebody else is replacing the file. */
bool temp_link(Temp* temp, const char* from, const char* path);

/* Opens a file for reading and locks it as if it were on its way, so that nobody else
   replaces it; -1, with errno set, if that can't be: EWOULDBLOCK as above. */
int temp_hold(const char* path);

/* Writes all; false, with errno set, if that fails. */
bool temp_write(const Temp* temp, const char* bytes, size_t size);

/* Gives it its name, in place of what has it if `replace` is set, else only where none
   has (EEXIST).  One step for whoever looks. */
bool temp_name(Temp* temp, const char* path, bool replace);

/* Ends it: what has no name yet is removed.  errno stays. */
void temp_close(Temp* temp);

/* Removes what killed programs left for `path`; in a folder, for any of its *.ttl. */
void temp_sweep_for(const char* path);
void temp_sweep_folder(const char* folder);
