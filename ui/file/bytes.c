// SPDX-License-Identifier: ISC
#include "bytes.h"

#include <stdlib.h>
#include <string.h>

void bytes_append(Bytes* const bytes, const void* const data, const size_t size)
{
    if (bytes->size + size > bytes->room) {
        const size_t room = 2 * (bytes->size + size) + 256;
        uint8_t* const grown = realloc(bytes->bytes, room);
        if (!grown) {
            bytes->failed = true;
            return;
        }
        bytes->bytes = grown;
        bytes->room = room;
    }
    if (size > 0) {
        memcpy(bytes->bytes + bytes->size, data, size);
        bytes->size += size;
    }
}

void bytes_free(Bytes* const bytes)
{
    free(bytes->bytes);
    *bytes = (Bytes){.bytes = NULL};
}
