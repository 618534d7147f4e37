// SPDX-License-Identifier: ISC
#include "section.h"

#include "typed.h"

#include <stdlib.h>
#include <string.h>

/* The section that options now speak of; the first may begin without a groove. */
static Section* section_now(Request* const request)
{
    request->section_count += !request->section_count;
    return &request->sections[request->section_count - 1];
}

/* The section that a groove or preset begins: the first may have begun already. */
static Section* begin_section(Request* const request, const char* const option,
                              const char* const value)
{
    Section* const now = section_now(request);
    if (!now->groove && !now->preset) {
        return now;
    }
    if (request->section_count == SECTIONS_MAX) {
        typed_wrong(option, value, "64 sections at most");
        return NULL;
    }
    return &request->sections[request->section_count++];
}

bool section_groove(Request* const request, const char* const value)
{
    Section* const section = begin_section(request, "--groove", value);
    if (section) {
        section->groove = value;
    }
    return section;
}

bool section_preset(Request* const request, const char* const value)
{
    Section* const section = begin_section(request, "--preset", value);
    if (section) {
        section->preset = value;
    }
    return section;
}

bool section_hands(Request* const request, const char* const value)
{
    section_now(request)->hands = value;
    return true;
}

bool section_feet(Request* const request, const char* const value)
{
    section_now(request)->feet = value;
    return true;
}

bool section_turnaround(Request* const request, const char* const value)
{
    section_now(request)->turnaround = value;
    return true;
}

bool section_kit(Request* const request, const char* const value)
{
    section_now(request)->kit = value;
    return true;
}

bool section_bars(Request* const request, const char* const value)
{
    return typed_whole(value, 1, 10000, &section_now(request)->bars) ||
           typed_wrong("--bars", value, "a whole number from 1 to 10000");
}

bool section_tempo(Request* const request, const char* const value)
{
    return typed_tempo("--tempo", value, &section_now(request)->tempo);
}

bool section_meter(Request* const request, const char* const value)
{
    Section* const section = section_now(request);
    char* end = NULL;
    const long beats = strtol(value, &end, 10);
    const bool slash = end != value && *end == '/';
    const long unit = slash ? strtol(end + 1, &end, 10) : 0;
    if (!slash || *end || beats < 1 || beats > 64 ||
        (unit != 2 && unit != 4 && unit != 8 && unit != 16)) {
        return typed_wrong("--meter", value, "beats and beat unit, such as 4/4, 7/8 or 12/8");
    }
    section->beats = (int)beats;
    section->beat_unit = (int)unit;
    return true;
}

static bool put(Request* const request, const char* const option, const char* const value,
                const char* const symbol, const double number)
{
    Section* const section = section_now(request);
    return request_put(section->settings, &section->setting_count, symbol, (float)number) ||
           typed_wrong(option, value, "fewer settings in one section");
}

bool section_set(Request* const request, const char* const value)
{
    const char* const equals = strchr(value, '=');
    const size_t length = equals ? (size_t)(equals - value) : 0;
    char symbol[CONTROL_SYMBOL_ROOM];
    double number = 0.0;
    if (length < 1 || length >= sizeof symbol || !typed_number(equals + 1, -1e9, 1e9, &number)) {
        return typed_wrong("--set", value, "symbol=number, such as split_feet=1");
    }
    memcpy(symbol, value, length);
    symbol[length] = '\0';
    return put(request, "--set", value, symbol, number);
}

bool section_left_handed(Request* const request, const char* const value)
{
    (void)value;
    section_now(request)->left_handed = true;
    return true;
}

/* ---- In words what --set says in numbers */

bool section_click(Request* const request, const char* const value)
{
    static const char* const words[] = {"off", "count-in", "always"};
    const int word = typed_word(value, words, 3);
    return word < 0 ? typed_wrong("--click", value, "off, count-in or always")
                    : put(request, "--click", value, "click", word);
}

bool section_ride_on(Request* const request, const char* const value)
{
    static const char* const words[] = {"as-written", "closed", "half-open", "open",     "ride",
                                        "bell",       "crash",  "china",     "floor-tom"};
    const int word = typed_word(value, words, 9);
    return word < 0 ? typed_wrong("--ride-on", value,
                                  "closed, half-open, open, ride, bell, crash, china or floor-tom")
                    : put(request, "--ride-on", value, "ride_on", word);
}

bool section_count_in(Request* const request, const char* const value)
{
    int bars = 0;
    return typed_whole(value, 0, 4, &bars)
               ? put(request, "--count-in", value, "count_in", bars)
               : typed_wrong("--count-in", value, "a whole number of bars from 0 to 4");
}
