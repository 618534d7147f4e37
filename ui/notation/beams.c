// SPDX-License-Identifier: ISC
#include "beams.h"

#include <stddef.h>

static int levels_of(const RhythmNote* const note)
{
    int levels = 0;
    for (int value = note->value; !note->is_rest && value < RHYTHM_WHOLE / 4; value *= 2) {
        ++levels;
    }
    return levels;
}

/* The first and last note of the outer tuplet that a note stands in. */
static void find_tuplet(const Rhythm* const rhythm, const int index, int* const first,
                        int* const last)
{
    *first = *last = index;
    while (*first > 0 && !rhythm->notes[*first].tuplets[0].starts) {
        --*first;
    }
    while (*last < rhythm->count - 1 && !rhythm->notes[*last].tuplets[0].stops) {
        ++*last;
    }
}

/* The beat it is beamed in, or of a longer tuplet a number below 0. */
static int64_t group_of(const Rhythm* const rhythm, const int index, const Meter meter)
{
    const RhythmNote* const note = &rhythm->notes[index];
    const int64_t beat = rhythm_beam_ticks(meter);
    const int64_t groups = meter_bar_ticks(meter) / beat;
    const int64_t group = note->tick / beat;
    if (note->depth > 0) {
        int first = 0;
        int last = 0;
        find_tuplet(rhythm, index, &first, &last);
        const RhythmNote end = rhythm->notes[last];
        if (end.tick + end.ticks - rhythm->notes[first].tick > beat) {
            return -1 - first;
        }
    }
    return group < groups || !groups ? group : groups - 1;
}

static bool is_joined(const Rhythm* const rhythm, const int left, const int level,
                      const Meter meter)
{
    return left >= 0 && left + 1 < rhythm->count && levels_of(&rhythm->notes[left]) >= level &&
           levels_of(&rhythm->notes[left + 1]) >= level &&
           group_of(rhythm, left, meter) == group_of(rhythm, left + 1, meter);
}

const char* beams_word(const Rhythm* const rhythm, const int index, const int level,
                       const Meter meter)
{
    const bool before = is_joined(rhythm, index - 1, level, meter);
    const bool after = is_joined(rhythm, index, level, meter);
    if (levels_of(&rhythm->notes[index]) < level) {
        return NULL;
    }
    if (before || after) {
        return before && after ? "continue" : before ? "end" : "begin";
    }
    return is_joined(rhythm, index - 1, 1, meter) ? "backward hook"
           : is_joined(rhythm, index, 1, meter)   ? "forward hook"
                                                  : NULL;
}
