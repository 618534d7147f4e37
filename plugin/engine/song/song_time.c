// SPDX-License-Identifier: ISC
#include "song_time.h"

#include <math.h>

/* Of 0 < x: Newton's steps from the square root, which is exact on every machine, as are the
   steps' own roundings.  Six are enough for all doubles' digits from 0.001 to 1000. */
static double cube_root(const double x)
{
    double root = sqrt(x);
    for (int step = 0; step < 10; ++step) {
        root = (2.0 * root + x / (root * root)) / 3.0;
    }
    return root;
}

static int64_t row_ticks(const SongMap* const map, const uint32_t index)
{
    return map->rows[index].pass_ticks * map->song->sections[index].times;
}

static uint32_t row_at(const SongMap* const map, const int64_t tick)
{
    uint32_t index = 0;
    while (index + 1 < map->count && map->rows[index + 1].tick <= tick) {
        ++index;
    }
    return index;
}

/* A tick from the section's first line, brought into the section. */
static double within(const int64_t tick, const int64_t most)
{
    return tick < 0 ? 0.0 : tick > most ? (double)most : (double)tick;
}

static double line(const double from, const double to, const double at, const int64_t of)
{
    return of > 0 ? from + (to - from) * (at / (double)of) : to;
}

static double slowing(const SongRow* const row, const double share)
{
    const double w = row->ritard_to / row->tempo_to;
    return row->tempo_to * cube_root(1.0 + (w * w * w - 1.0) * share);
}

static double tempo_in(const SongRow* const row, const int64_t ticks, const double at)
{
    const int64_t ramp = ticks - row->ritard_ticks;
    return at <= (double)ramp ? line(row->tempo, row->tempo_to, at, ramp)
                              : slowing(row, (at - (double)ramp) / (double)row->ritard_ticks);
}

double song_time_tempo(const SongMap* const map, const int64_t tick)
{
    if (!map->count) {
        return 120.0;
    }
    const uint32_t index = row_at(map, tick);
    const SongRow* const row = &map->rows[index];
    const int64_t ticks = row_ticks(map, index);
    return tempo_in(row, ticks, within(tick - row->tick, ticks));
}

double song_time_level(const SongMap* const map, const int64_t tick)
{
    if (!map->count) {
        return (double)control_rows[CONTROL_LEVEL].normal;
    }
    const uint32_t index = row_at(map, tick);
    const SongRow* const row = &map->rows[index];
    const int64_t ticks = row_ticks(map, index);
    return line(row->level, row->level_to, within(tick - row->tick, ticks), ticks);
}

/* Where the tempo doesn't move within [begin, end) of a row. */
static bool stays(const SongRow* const row, const bool slows)
{
    return slows ? !differs(row->tempo_to, row->ritard_to) : !differs(row->tempo, row->tempo_to);
}

SongStep song_time_step(const SongMap* const map, const int64_t tick)
{
    const uint32_t index = row_at(map, tick);
    const SongRow* const row = &map->rows[index];
    const int64_t ticks = row_ticks(map, index);
    const int64_t turn = row->tick + ticks - row->ritard_ticks;
    const bool slows = tick >= turn;
    int64_t begin = slows ? turn : row->tick;
    int64_t end = slows ? row->tick + ticks : turn;
    if (!stays(row, slows)) {
        const int64_t step = TICKS_PER_QUARTER / SONG_STEPS_A_QUARTER;
        const SongBar bar = song_map_at(map, tick);
        const int64_t from = bar.tick + (tick - bar.tick) / step * step;
        const int64_t until =
            from + step < bar.tick + bar.ticks ? from + step : bar.tick + bar.ticks;
        begin = from > begin ? from : begin;
        end = until < end ? until : end;
    }
    const double middle = (double)(begin - row->tick) + (double)(end - begin) / 2.0;
    return (SongStep){begin, end, tempo_in(row, ticks, middle)};
}

double song_time_seconds(const SongMap* const map, const int64_t begin, const int64_t end)
{
    double seconds = 0.0;
    const int64_t last = end < map->ticks ? end : map->ticks;
    for (int64_t tick = begin > 0 ? begin : 0; tick < last;) {
        const SongStep step = song_time_step(map, tick);
        const int64_t until = step.end < last ? step.end : last;
        seconds += (double)(until - tick) / (double)TICKS_PER_QUARTER * 60.0 / step.tempo;
        tick = until;
    }
    return seconds;
}
