// SPDX-License-Identifier: ISC
#include "request.h"

#include <stdio.h>
#include <string.h>

const Section* request_first(const Request* const request)
{
    static const Section empty = {.bars = 0};
    return request->section_count ? &request->sections[0] : &empty;
}

bool request_put(ControlSetting settings[SETTINGS_MAX], int* const count, const char* const symbol,
                 const float value)
{
    int at = 0;
    while (at < *count && strcmp(settings[at].symbol, symbol)) {
        ++at;
    }
    if (at == SETTINGS_MAX) {
        return false;
    }
    *count = at < *count ? *count : at + 1;
    snprintf(settings[at].symbol, sizeof settings[at].symbol, "%s", symbol);
    settings[at].value = value;
    return true;
}

const float* request_find(const ControlSetting* const settings, const int count,
                          const char* const symbol)
{
    for (int i = 0; i < count; ++i) {
        if (!strcmp(settings[i].symbol, symbol)) {
            return &settings[i].value;
        }
    }
    return NULL;
}

double request_preset_value(const Section* const section, const char* const symbol,
                            const double otherwise)
{
    const float* const value = request_find(section->preset_values, section->preset_count, symbol);
    return value ? (double)*value : otherwise;
}
