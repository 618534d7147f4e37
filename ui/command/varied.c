// SPDX-License-Identifier: ISC
#include "varied.h"

#include "../../plugin/engine/varied/variation.h"
#include "typed.h"

#include <strings.h>

#define VARIED_NAME(number, NAME, make, words, help) [number] = (words),
static const char* const names[VARIATION_COUNT] = {"as chosen", VARIATION_ROWS(VARIED_NAME)};
#undef VARIED_NAME

int varied_number(const char* const typed)
{
    int number = -1;
    if (typed_whole(typed, 0, VARIATION_COUNT - 1, &number)) {
        return number;
    }
    for (int i = 0; i < VARIATION_COUNT; ++i) {
        if (!strcasecmp(typed, names[i])) {
            return i;
        }
    }
    return -1;
}

bool varied_take(Request* const request, const char* const value)
{
    const int number = varied_number(value);
    request->section_count += !request->section_count;
    Section* const section = &request->sections[request->section_count - 1];
    const char* const symbol = request_find(section->settings, section->setting_count, "variation")
                                   ? "variation_then"
                                   : "variation";
    return (number >= 0 &&
            request_put(section->settings, &section->setting_count, symbol, (float)number)) ||
           typed_wrong("--variation", value,
                       "a variation of the feet, by name or number, as `fourlimb vary` has them");
}
