// SPDX-License-Identifier: ISC
#include "request.h"

#include <stdio.h>
#include <stdlib.h>
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

bool request_lighten(const char* const text, LightenWish* const wish)
{
    static const struct {
        const char* name;
        LightenWish wish;
    } rows[] = {
        {"feet", {.limbs = {false, false, true, true}}},
        {"hands", {.limbs = {true, true}}},
        {"right-hand", {.limbs = {true}}},
        {"left-hand", {.limbs = {false, true}}},
        {"right-foot", {.limbs = {false, false, true}}},
        {"left-foot", {.limbs = {false, false, false, true}}},
    };
    const char* const equals = strchr(text, '=');
    const size_t length = equals ? (size_t)(equals - text) : strlen(rows[0].name);
    const char* const name = equals ? text : rows[0].name;
    char* end = NULL;
    const long rate = strtol(equals ? equals + 1 : text, &end, 10);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        if (strlen(rows[i].name) == length && !strncmp(rows[i].name, name, length)) {
            *wish = rows[i].wish;
            wish->rate = (int)rate;
            return !*end && rate >= 1 && rate <= 40;
        }
    }
    return false;
}
