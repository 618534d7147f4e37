// SPDX-License-Identifier: ISC
#include "diagnostics.h"

#include "utf8.h"

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

void diagnostics_add(Diagnostics* const diagnostics, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char* const text = diagnostics->count < DIAGNOSTICS_MAX ? formatted(format, arguments) : NULL;
    va_end(arguments);
    if (text) {
        utf8_repair(text); /* quoted files may hold anything */
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
    utf8_repair(text);
    memmove(&diagnostics->texts[1], &diagnostics->texts[0],
            diagnostics->count * sizeof *diagnostics->texts);
    diagnostics->texts[0] = text;
    ++diagnostics->count;
}

bool diagnostics_copy(const Diagnostics* const from, Diagnostics* const empty)
{
    empty->unkept = from->unkept;
    for (; empty->count < from->count; ++empty->count) {
        empty->texts[empty->count] = strdup(from->texts[empty->count]);
        if (!empty->texts[empty->count]) {
            return false;
        }
    }
    return true;
}

void diagnostics_clear(Diagnostics* const diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; ++i) {
        free(diagnostics->texts[i]);
    }
    *diagnostics = (Diagnostics){.count = 0};
}
