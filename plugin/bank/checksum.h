// SPDX-License-Identifier: ISC
/* checksum.h - a text that tells by its first line, a comment, whether it is still as it
   was written.  A guard against accidents, not against forgers.  Inside the bank room. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

/* The text behind such a line; NULL if there is no memory.  The caller frees. */
char* checksum_put(const char* text);

/* True if the text has such a line and nothing behind it has changed. */
bool checksum_holds(const char* text, size_t size);
