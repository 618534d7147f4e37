// SPDX-License-Identifier: ISC
/* bytes.h - a file's bytes, growing in memory. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* All zeros is empty.  A failed allocation is remembered, to be told at the end. */
typedef struct {
    uint8_t* bytes;
    size_t size;
    size_t room;
    bool failed;
} Bytes;

void bytes_append(Bytes* bytes, const void* data, size_t size);

/* And empties it. */
void bytes_free(Bytes* bytes);
