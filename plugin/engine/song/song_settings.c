// SPDX-License-Identifier: ISC
#include "song_settings.h"

#include <stddef.h>

/* The depth at which an accent, level + 1 + depth (126 - level) by loudness.c, is louder or softer
   than it was by the same ratio as the level. */
static float depth_at(const float depth, const double from, const double to)
{
    const double room = (double)control_rows[CONTROL_LEVEL].most - 1.0 - to;
    const double most = (double)control_rows[CONTROL_ACCENT].most;
    const double old_room = (double)control_rows[CONTROL_LEVEL].most - 1.0 - from;
    const double share = (to / from * (1.0 + (double)depth / most * old_room) - 1.0) / room;
    return room <= 0.0 || share > 1.0 ? (float)most : share < 0.0 ? 0.0f : (float)(share * most);
}

/* Accents go with the level. */
static void put_level(float values[CONTROL_COUNT], const double level)
{
    const double from = (double)values[CONTROL_LEVEL];
    if (!differs(from, level)) {
        return;
    }
    values[CONTROL_LEVEL] = (float)(int32_t)(level + 0.5);
    values[CONTROL_ACCENT] = depth_at(values[CONTROL_ACCENT], from, level);
    values[CONTROL_ACCENT_FEET] = depth_at(values[CONTROL_ACCENT_FEET], from, level);
}

void song_settings_controls(const SongMap* const map, const int64_t tick,
                            float values[CONTROL_COUNT])
{
    const SongBar bar = song_map_at(map, tick);
    if (!bar.section) {
        return;
    }
    static const Control picks[] = {CONTROL_GROOVE, CONTROL_HANDS, CONTROL_FEET, CONTROL_TURNAROUND,
                                    CONTROL_CRASH};
    for (size_t i = 0; i < sizeof picks / sizeof *picks; ++i) {
        values[picks[i]] = control_rows[picks[i]].normal;
    }
    values[CONTROL_CRASH] = (float)bar.section->crash;
    for (uint32_t i = 0; i < bar.section->control_count; ++i) {
        values[bar.section->controls[i].control] = bar.section->controls[i].value;
    }
    values[CONTROL_TAKE] = (float)song_map_take(map, &bar);
    put_level(values, song_time_level(map, tick));
}
