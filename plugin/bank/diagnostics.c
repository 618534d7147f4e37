// SPDX-License-Identifier: ISC
#include "diagnostics.h"

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

void diagnostics_add(Diagnostics* const diagnostics, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char* const text = diagnostics->count < DIAGNOSTICS_MAX ? formatted(format, arguments) : NULL;
    va_end(arguments);
    if (text) {
        make_utf8(text);
        diagnostics->texts[diagnostics->count++] = text;
    } else {
        ++diagnostics->unkept;
    }
}

void diagnostics_add_first(Diagnostics* const diagnostics, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char* const text = formatted(format, arguments);
    va_end(arguments);
    if (!text) {
        ++diagnostics->unkept;
        return;
    }
    if (diagnostics->count == DIAGNOSTICS_MAX) {
        free(diagnostics->texts[--diagnostics->count]);
        ++diagnostics->unkept;
    }
    make_utf8(text);
    memmove(&diagnostics->texts[1], &diagnostics->texts[0],
            diagnostics->count * sizeof *diagnostics->texts);
    diagnostics->texts[0] = text;
    ++diagnostics->count;
}

void diagnostics_clear(Diagnostics* const diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; ++i) {
        free(diagnostics->texts[i]);
    }
    *diagnostics = (Diagnostics){.count = 0};
}
