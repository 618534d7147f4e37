// SPDX-License-Identifier: ISC
#include "steps.h"

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

/* Some equal groups of steps. */
typedef struct {
    char steps[EVEN_STEPS_MAX + 1];
    int count;
} Groups;

/* Appends within EVEN_STEPS_MAX, which all groups together never exceed. */
static void append(char to[EVEN_STEPS_MAX + 1], const char* const steps)
{
    const size_t length = strlen(to);
    const size_t more = strlen(steps);
    if (length + more <= EVEN_STEPS_MAX) {
        memcpy(to + length, steps, more + 1);
    }
}

void steps_even(const int strokes, const int count, char steps[EVEN_STEPS_MAX + 1])
{
    Groups struck = {"o", strokes};
    Groups left = {".", count - strokes};
    bool rests = left.count > 0; /* shared out in any case, be it a single one */
    while (rests || left.count > 1) {
        const Groups before = struck;
        rests = false;
        const int pairs = struck.count < left.count ? struck.count : left.count;
        append(struck.steps, left.steps);
        struck.count = pairs;
        if (before.count > pairs) {
            left = before;
            left.count = before.count - pairs;
        } else {
            left.count -= pairs;
        }
    }
    steps[0] = '\0';
    for (int i = 0; i < struck.count; ++i) {
        append(steps, struck.steps);
    }
    for (int i = 0; i < left.count; ++i) {
        append(steps, left.steps);
    }
    steps[0] = 'O';
}
