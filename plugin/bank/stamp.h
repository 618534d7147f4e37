// SPDX-License-Identifier: ISC
/* stamp.h - a number that changes when the files of a bank's folder do, so that
   they needn't be read to know.  Asks the file system: not for the audio thread. */
#pragma once

#include <stddef.h>
#include <stdint.h>

/* Names, sizes and times of the folder's *.ttl; 0 if there is no such folder. */
uint64_t stamp_folder(const char* folder);

/* The same of what is in them and their names, wherever and since when they are there. */
uint64_t stamp_contents(const char* folder);

/* A number that changes with any of the bytes. */
uint64_t stamp_bytes(const void* bytes, size_t size);
