// SPDX-License-Identifier: ISC
#include "song_stretch.h"

#include "song_beats.h"
#include "song_fill.h"
#include "song_road.h"
#include "song_settings.h"

#include <string.h>

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* ---- What holds */

/* The beat's first tick: a level that moves has a step there. */
static int64_t beat_of(const SongBar* const bar, const int64_t tick)
{
    const int64_t beat = meter_beat_ticks(bar->meter);
    return bar->tick + (tick - bar->tick) / beat * beat;
}

static void silence(float values[CONTROL_COUNT])
{
    values[CONTROL_RIGHT_HAND] = values[CONTROL_LEFT_HAND] = 0.0f;
    values[CONTROL_RIGHT_FOOT] = values[CONTROL_LEFT_FOOT] = 0.0f;
}

static void find_controls(SongStretch* const stretch, const SongMap* const map,
                          const SongFill* const fill, const int64_t tick)
{
    const SongBar* const bar = &stretch->bar;
    int64_t until = 0;
    song_settings_controls(map, beat_of(bar, tick), stretch->controls);
    stretch->controls[CONTROL_CLOCK] = CLOCK_HOST;
    stretch->controls[CONTROL_ENABLED] = 1.0f;
    if (song_road(map, bar->row).many_meters && !song_value(bar->section, CONTROL_REALIGN)) {
        stretch->controls[CONTROL_REALIGN] = REALIGN_BAR;
    }
    if (fill->bars && bar->in_pass >= fill->from) {
        song_fill_controls(fill, stretch->controls);
    }
    if (song_beats_silent(map, tick, &until)) {
        silence(stretch->controls);
    }
}

/* ---- Until where */

static int64_t end_of(const SongMap* const map, const SongBar* const bar,
                      const SongFill* const fill, const int64_t tick)
{
    const SongRow* const row = &map->rows[bar->row];
    const int64_t begin = row->tick + bar->pass * row->pass_ticks;
    const int64_t line = begin + song_map_pass_tick(row, fill->from);
    int64_t end = 0;
    song_beats_silent(map, tick, &end);
    end = lesser(lesser(end, begin + row->pass_ticks), song_time_step(map, tick).end);
    end = fill->bars && tick < line ? lesser(end, line) : end;
    if (song_road(map, bar->row).many_meters) {
        end = lesser(end, bar->tick + bar->ticks);
    }
    if (differs(row->level, row->level_to)) {
        const int64_t beat = beat_of(bar, tick) + meter_beat_ticks(bar->meter);
        end = lesser(end, lesser(beat, bar->tick + bar->ticks));
    }
    return end;
}

SongStretch song_stretch(const SongMap* const map, const Library* const library,
                         const float ports[CONTROL_COUNT], const int64_t tick)
{
    SongStretch stretch = {.bar = song_map_at(map, tick), .end = tick < 0 ? 0 : INT64_MAX};
    memcpy(stretch.controls, ports, sizeof stretch.controls);
    if (stretch.bar.section) {
        const SongFill fill = song_fill(map, stretch.bar.row, library, ports);
        stretch.tempo = song_time_step(map, tick).tempo;
        stretch.end = end_of(map, &stretch.bar, &fill, tick);
        find_controls(&stretch, map, &fill, tick);
    }
    return stretch;
}
