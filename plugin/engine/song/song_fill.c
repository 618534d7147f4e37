// SPDX-License-Identifier: ISC
#include "song_fill.h"

#include "../groove/selection.h"
#include "song_settings.h"

#include <string.h>

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

static const Figure* figure_of(const SongMap* const map, const uint32_t row,
                               const Library* const library, const float controls[CONTROL_COUNT])
{
    float values[CONTROL_COUNT];
    const SongSection* const section = &map->song->sections[row];
    memcpy(values, controls, sizeof values);
    song_settings_controls(map, map->rows[row].tick, values);
    if (section->fill) {
        values[CONTROL_TURNAROUND] = (float)section->fill;
    }
    const Settings settings = settings_from_controls(values);
    return selection_make(library, &settings, 120.0).turnaround;
}

/* Bars that it reaches into, as fill.h has its length. */
static int64_t bars_of(const SongRow* const row, const Figure* const figure, const uint32_t beats)
{
    const Meter last = song_map_pass_meter(row, row->pass_bars - 1);
    const int64_t bar = meter_bar_ticks(last);
    const int64_t own = figure->bars && figure->bars < FILL_BARS_MAX ? figure->bars : FILL_BARS_MAX;
    int64_t ticks = lesser(figure->cycle_ticks, lesser(own, row->pass_bars) * bar);
    ticks = beats ? lesser(ticks, beats * meter_beat_ticks(last)) : ticks;
    return (ticks + bar - 1) / bar;
}

/* The longest way round that ends where the section does, and nowhere in the fill. */
static uint32_t round_of(const int64_t pass_bars, const int64_t bars)
{
    const int64_t most = (int64_t)control_rows[CONTROL_FILL_EVERY].most;
    for (int64_t every = lesser(pass_bars, most); every >= bars; --every) {
        if (pass_bars % every == 0) {
            return (uint32_t)every;
        }
    }
    return 0;
}

static bool are_alike(const SongRow* const row, const int64_t bars)
{
    const Meter last = song_map_pass_meter(row, row->pass_bars - 1);
    bool alike = true;
    for (int64_t bar = row->pass_bars - bars; bar < row->pass_bars; ++bar) {
        alike &= meter_equal(song_map_pass_meter(row, bar), last);
    }
    return alike;
}

SongFill song_fill(const SongMap* const map, const uint32_t index, const Library* const library,
                   const float controls[CONTROL_COUNT])
{
    const SongSection* const section = &map->song->sections[index];
    const SongRow* const row = &map->rows[index];
    const uint32_t most = (uint32_t)control_rows[CONTROL_FILL_BEATS].most;
    SongFill fill = {.id = section->fill, .beats = section->ending_beats};
    const Figure* const figure =
        section->ending == SONG_FILL ? figure_of(map, index, library, controls) : NULL;
    if (!figure) {
        return fill;
    }
    if (fill.beats > most) {
        fill.beats = most;
        fill.why = SONG_FILL_LONG;
    }
    fill.bars = bars_of(row, figure, fill.beats);
    if (!are_alike(row, fill.bars)) {
        fill.bars = 1;
        fill.beats = (uint32_t)song_map_pass_meter(row, row->pass_bars - 1).beats_per_bar;
        fill.beats = fill.beats < most ? fill.beats : most;
        fill.why = SONG_FILL_METERS;
    }
    fill.every = round_of(row->pass_bars, fill.bars);
    fill.from = row->pass_bars - fill.bars;
    if (!fill.every) {
        fill.bars = 0;
        fill.why = SONG_FILL_NEVER;
    }
    return fill;
}

void song_fill_controls(const SongFill* const fill, float values[CONTROL_COUNT])
{
    values[CONTROL_FILL_EVERY] = (float)fill->every;
    values[CONTROL_FILL_BEATS] = (float)fill->beats;
    if (fill->id) {
        values[CONTROL_TURNAROUND] = (float)fill->id;
    }
}
