// SPDX-License-Identifier: ISC
#include "utf8.h"

#include <stdbool.h>

static bool goes_on(const char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

size_t utf8_cut(const char* const text, const size_t length, const size_t most)
{
    size_t size = most;
    if (length <= most) {
        return length;
    }
    while (size > 0 && goes_on(text[size])) {
        --size;
    }
    return size;
}

/* What may come second, where that isn't all: no longer form than needed, no half of a
   pair, nothing beyond U+10FFFF (RFC 3629, section 4). */
static bool second_fits(const unsigned char lead, const unsigned char second)
{
    return lead == 0xE0   ? second >= 0xA0
           : lead == 0xED ? second < 0xA0
           : lead == 0xF0 ? second >= 0x90
           : lead == 0xF4 ? second < 0x90
                          : true;
}

/* Bytes of the sequence that begins here, 0 if none does. */
static size_t sequence(const char* const text)
{
    const unsigned char lead = (unsigned char)*text;
    const size_t size = lead < 0x80                   ? 1
                        : lead >= 0xC2 && lead < 0xE0 ? 2
                        : lead >= 0xE0 && lead < 0xF0 ? 3
                        : lead >= 0xF0 && lead < 0xF5 ? 4
                                                      : 0;
    for (size_t i = 1; i < size; ++i) {
        if (!goes_on(text[i])) {
            return 0;
        }
    }
    return size < 2 || second_fits(lead, (unsigned char)text[1]) ? size : 0;
}

void utf8_repair(char* text)
{
    while (*text) {
        const size_t size = sequence(text);
        if (!size) {
            *text = '?';
        }
        text += size ? size : 1;
    }
}
