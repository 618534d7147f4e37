// SPDX-License-Identifier: ISC
#include "steps.h"

#include "../engine/written/even.h"

#include <string.h>

static bool is_spacing(const char sign)
{
    return sign == ' ' || sign == '|' || sign == '\t' || sign == '\n' || sign == '\r';
}

int step_level(const char sign)
{
    switch (sign) {
    case '.':
        return LEVEL_REST;
    case 'g':
        return LEVEL_GHOST;
    case 'o':
        return LEVEL_NORMAL;
    case 'O':
        return LEVEL_ACCENT;
    case 'f':
        return LEVEL_FLAM;
    case 'd':
        return LEVEL_DRAG;
    default:
        return -1;
    }
}

int steps_count(const char* const steps, char* const wrong)
{
    int count = 0;
    for (const char* sign = steps; *sign; ++sign) {
        if (is_spacing(*sign)) {
            continue;
        }
        if (step_level(*sign) < 0) {
            *wrong = *sign;
            return -1;
        }
        ++count;
    }
    return count;
}

void steps_read(const char* const steps, const int64_t step, Stroke stroke, Stroke* const strokes,
                const uint32_t room, uint32_t* const count)
{
    stroke.tick = 0;
    for (const char* sign = steps; *sign; ++sign) {
        if (is_spacing(*sign)) {
            continue;
        }
        stroke.level = (uint8_t)step_level(*sign);
        if (stroke.level > LEVEL_REST) {
            if (*count < room) {
                strokes[*count] = stroke;
            }
            ++*count;
        }
        stroke.tick += step;
    }
}

void steps_even(const int strokes, const int count, char steps[EVEN_STEPS_MAX + 1])
{
    bool struck[EVEN_STEPS_MAX];
    even_spread((uint32_t)strokes, (uint32_t)count, struck);
    for (int i = 0; i < count; ++i) {
        steps[i] = struck[i] ? 'o' : '.';
    }
    steps[0] = 'O';
    steps[count] = '\0';
}
