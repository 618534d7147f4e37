// SPDX-License-Identifier: ISC
#include "complaints.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

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

void complain(Complaints* const complaints, const char* const format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char* const text = complaints->count < COMPLAINTS_MAX ? formatted(format, arguments) : NULL;
    va_end(arguments);
    if (text) {
        complaints->texts[complaints->count++] = text;
    } else {
        ++complaints->unkept;
    }
}

void complaints_clear(Complaints* const complaints)
{
    for (size_t i = 0; i < complaints->count; ++i) {
        free(complaints->texts[i]);
    }
    *complaints = (Complaints){.count = 0};
}
