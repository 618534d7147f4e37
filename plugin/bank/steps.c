// SPDX-License-Identifier: ISC
#include "steps.h"

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

void steps_read(const char* const steps, const int64_t step, const Limb limb, const Voice voice,
                Stroke* const strokes, const uint32_t room, uint32_t* const count)
{
    int64_t tick = 0;
    for (const char* sign = steps; *sign; ++sign) {
        if (is_spacing(*sign)) {
            continue;
        }
        const int level = step_level(*sign);
        if (level > LEVEL_REST) {
            if (*count < room) {
                strokes[*count] = (Stroke){tick, (uint8_t)limb, (uint8_t)voice, (uint8_t)level};
            }
            ++*count;
        }
        tick += step;
    }
}
