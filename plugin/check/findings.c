// SPDX-License-Identifier: ISC
#include "findings.h"

#include <stdarg.h>
#include <stdio.h>

void findings_tell(Findings* const findings, const EntryInfo* const entry, const char* const format,
                   ...)
{
    char text[BANK_CHECK_ROOM];
    const int length = snprintf(text, sizeof text, "%s: ", entry->where);
    va_list arguments;
    va_start(arguments, format);
    if (length > 0 && (size_t)length < sizeof text) {
        vsnprintf(text + length, sizeof text - (size_t)length, format, arguments);
    }
    va_end(arguments);
    findings->check->tell(findings->check->to, text);
    ++findings->count;
}

bool findings_looks_at(const Findings* const findings, const EntryInfo* const entry)
{
    return entry->is_users || !findings->check->own_only;
}

void findings_place(const Meter meter, const int64_t tick, char* const text, const size_t size)
{
    const int64_t bar = meter_bar_ticks(meter);
    snprintf(text, size, "bar %lld, beat %.4g", (long long)(tick / bar) + 1,
             1.0 + (double)(tick % bar) / (double)meter_beat_ticks(meter));
}
