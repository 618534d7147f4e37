// SPDX-License-Identifier: ISC
#include "song_settings.h"

#include <stddef.h>

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
    values[CONTROL_LEVEL] = (float)(int32_t)(song_time_level(map, tick) + 0.5);
}
