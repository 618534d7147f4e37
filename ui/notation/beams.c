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

/* The group of beats that a tick stands in, from 0, and where that ends. */
static int64_t group_at(const Sheet* const sheet, const int64_t tick, int64_t* const end)
{
    const int64_t beat = meter_beat_ticks(sheet->meter);
    int64_t group = 0;
    *end = sheet->groups[0] * beat;
    while (group + 1 < sheet->group_count && tick >= *end) {
        *end += sheet->groups[++group] * beat;
    }
    return group;
}

/* Likewise of quarters, or beats of three; what is left at the bar's end is its last one's. */
static int64_t beat_at(const Meter meter, const int64_t tick, int64_t* const end)
{
    const int64_t beat = rhythm_beam_ticks(meter);
    const int64_t beats = meter_bar_ticks(meter) / beat;
    const int64_t at = tick / beat;
    const int64_t last = beats > 0 ? beats - 1 : 0;
    *end = at < last ? (at + 1) * beat : meter_bar_ticks(meter);
    return at < last ? at : last;
}

/* What it is beamed in; of a longer tuplet a number below 0. */
static int64_t group_of(const Rhythm* const rhythm, const int index, const Sheet* const sheet)
{
    int64_t end = 0;
    int first = index;
    int last = index;
    const RhythmNote* const note = &rhythm->notes[index];
    if (note->depth > 0) {
        find_tuplet(rhythm, index, &first, &last);
    }
    const int64_t begin = rhythm->notes[first].tick;
    const int64_t group =
        sheet->group_count ? group_at(sheet, begin, &end) : beat_at(sheet->meter, begin, &end);
    const bool is_long = rhythm->notes[last].tick + rhythm->notes[last].ticks > end;
    return note->depth > 0 && is_long ? -1 - first : group;
}

static bool is_joined(const Rhythm* const rhythm, const int left, const int level,
                      const Sheet* const sheet)
{
    return left >= 0 && left + 1 < rhythm->count && levels_of(&rhythm->notes[left]) >= level &&
           levels_of(&rhythm->notes[left + 1]) >= level &&
           group_of(rhythm, left, sheet) == group_of(rhythm, left + 1, sheet);
}

const char* beams_word(const Rhythm* const rhythm, const int index, const int level,
                       const Sheet* const sheet)
{
    const bool before = is_joined(rhythm, index - 1, level, sheet);
    const bool after = is_joined(rhythm, index, level, sheet);
    if (levels_of(&rhythm->notes[index]) < level) {
        return NULL;
    }
    if (before || after) {
        return before && after ? "continue" : before ? "end" : "begin";
    }
    return is_joined(rhythm, index - 1, 1, sheet) ? "backward hook"
           : is_joined(rhythm, index, 1, sheet)   ? "forward hook"
                                                  : NULL;
}
