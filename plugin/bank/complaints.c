// SPDX-License-Identifier: ISC
#include "complaints.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__attribute__((format(printf, 1, 0))) static char* formatted(const char* const format,
                                                             va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char* const text = length < 0 ? NULL : malloc((size_t)length + 1);
    if (text) {
        vsnprintf(text, (size_t)length + 1, format, arguments);
    }
    return text;
}

/* Bytes of the UTF-8 sequence that begins here, 0 if none does. */
static size_t sequence(const char* const text)
{
    const unsigned char lead = (unsigned char)*text;
    const size_t size = lead < 0x80                   ? 1
                        : lead >= 0xC2 && lead < 0xE0 ? 2
                        : lead >= 0xE0 && lead < 0xF0 ? 3
                        : lead >= 0xF0 && lead < 0xF5 ? 4
                                                      : 0;
    for (size_t i = 1; i < size; ++i) {
        if (((unsigned char)text[i] & 0xC0) != 0x80) {
            return 0;
        }
    }
    return size;
}

/* Messages quote files: what isn't UTF-8 there must not spoil the message. */
static void make_utf8(char* text)
{
    while (*text) {
        const size_t size = sequence(text);
        if (!size) {
            *text = '?';
        }
        text += size ? size : 1;
    }
}

void complain(Complaints* const complaints, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char* const text = complaints->count < COMPLAINTS_MAX ? formatted(format, arguments) : NULL;
    va_end(arguments);
    if (text) {
        make_utf8(text);
        complaints->texts[complaints->count++] = text;
    } else {
        ++complaints->unkept;
    }
}

void complain_first(Complaints* const complaints, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char* const text = formatted(format, arguments);
    va_end(arguments);
    if (!text) {
        ++complaints->unkept;
        return;
    }
    if (complaints->count == COMPLAINTS_MAX) {
        free(complaints->texts[--complaints->count]);
        ++complaints->unkept;
    }
    make_utf8(text);
    memmove(&complaints->texts[1], &complaints->texts[0],
            complaints->count * sizeof *complaints->texts);
    complaints->texts[0] = text;
    ++complaints->count;
}

void complaints_clear(Complaints* const complaints)
{
    for (size_t i = 0; i < complaints->count; ++i) {
        free(complaints->texts[i]);
    }
    *complaints = (Complaints){.count = 0};
}
