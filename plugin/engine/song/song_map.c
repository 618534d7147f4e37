// SPDX-License-Identifier: ISC
#include "song_map.h"

#include "../groove/selection.h"

#include <stddef.h>

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* ---- What follows from what stands before */

/* The groove that a section picks; as anywhere, the first for an id that nobody has. */
static const Groove* groove_of(const SongSection* const section, const Library* const library)
{
    Settings settings = {.groove = 0};
    const float* const asked = song_value(section, CONTROL_GROOVE);
    settings.groove = asked ? (uint32_t)*asked : (uint32_t)control_rows[CONTROL_GROOVE].normal;
    return section->rests && !asked ? NULL : selection_make(library, &settings, 120.0).groove;
}

static Meter last_meter(const SongRow* const before)
{
    return before ? song_map_pass_meter(before, before->pass_bars - 1) : (Meter){4.0, 4};
}

static void find_meters(SongRow* const row, const SongSection* const section,
                        const SongRow* const before, const Groove* const groove)
{
    row->meter_count = section->meter_count ? section->meter_count : 1;
    row->meters[0] = groove ? groove->meter : last_meter(before);
    for (uint32_t i = 0; i < section->meter_count; ++i) {
        row->meters[i] = section->meters[i];
    }
    if (section->beats) {
        row->meter_count = 1;
        row->meters[0].beats_per_bar = section->beats;
    }
    row->round_ticks = 0;
    for (uint32_t i = 0; i < row->meter_count; ++i) {
        row->round_ticks += meter_bar_ticks(row->meters[i]);
    }
}

static double first_of(const double a, const double b, const double c)
{
    return a > 0.0 ? a : b > 0.0 ? b : c;
}

static void find_tempo(SongRow* const row, const SongSection* const section, const Song* const song,
                       const SongRow* const before, const Groove* const groove)
{
    const double written = groove ? groove->tempo : 120.0;
    row->tempo = first_of(section->tempo, before ? before->tempo_to : song->tempo, written);
    row->tempo_to = first_of(section->tempo_to, row->tempo, written);
    row->ritard_to = section->ritard_to > 0.0 ? section->ritard_to : row->tempo_to * SONG_RITARD;
    const Meter meter = last_meter(row);
    row->ritard_ticks =
        lesser(section->ritard_beats * meter_beat_ticks(meter), row->pass_ticks * section->times);
}

static void find_level(SongRow* const row, const SongSection* const section, const Song* const song,
                       const SongRow* const before)
{
    const double normal = (double)control_rows[CONTROL_LEVEL].normal;
    row->level = first_of(section->level, before ? before->level_to : song->level, normal);
    row->level_to = first_of(section->level_to, row->level, normal);
}

/* Passes through the same picks before this section. */
static uint32_t passes_before(const Song* const song, const uint32_t index)
{
    uint32_t passes = 0;
    for (uint32_t i = 0; i < index; ++i) {
        const bool same = song_picks_alike(&song->sections[i], &song->sections[index]);
        passes += same ? song->sections[i].times : 0;
    }
    return passes;
}

static void find_row(SongMap* const map, const uint32_t index, const Library* const library)
{
    const Song* const song = map->song;
    const SongSection* const section = &song->sections[index];
    const SongRow* const before = index ? &map->rows[index - 1] : NULL;
    const Groove* const groove = groove_of(section, library);
    SongRow* const row = &map->rows[index];
    *row = (SongRow){.bar = map->bars, .tick = map->ticks, .pass_bars = section->bars};
    find_meters(row, section, before, groove);
    row->pass_ticks = song_map_pass_tick(row, row->pass_bars);
    find_tempo(row, section, song, before, groove);
    find_level(row, section, song, before);
    row->take = section->take ? section->take : song->take + passes_before(song, index);
    map->bars += row->pass_bars * section->times;
    map->ticks += row->pass_ticks * section->times;
}

void song_map_make(SongMap* const map, const Song* const song, const Library* const library)
{
    map->song = song;
    map->count = song->section_count;
    map->bars = map->ticks = 0;
    for (uint32_t i = 0; i < song->section_count; ++i) {
        find_row(map, i, library);
    }
}

/* ---- By place */

/* Bars before the meters come round. */
static int64_t round_bars(const SongRow* const row)
{
    return row->meter_count ? row->meter_count : 1;
}

int64_t song_map_pass_tick(const SongRow* const row, const int64_t bar)
{
    int64_t tick = bar / round_bars(row) * row->round_ticks;
    for (int64_t i = 0; i < bar % round_bars(row); ++i) {
        tick += meter_bar_ticks(row->meters[i]);
    }
    return tick;
}

Meter song_map_pass_meter(const SongRow* const row, const int64_t bar)
{
    return row->meters[bar % round_bars(row)];
}

/* The bar of a pass that one of its ticks lies in. */
static int64_t pass_bar(const SongRow* const row, const int64_t tick)
{
    int64_t bar = tick / row->round_ticks * round_bars(row);
    int64_t left = tick % row->round_ticks;
    for (uint32_t i = 0; left >= meter_bar_ticks(row->meters[i]); ++i) {
        left -= meter_bar_ticks(row->meters[i]);
        ++bar;
    }
    return bar;
}

static SongBar bar_of(const SongMap* const map, const uint32_t index, const int64_t in_row)
{
    const SongRow* const row = &map->rows[index];
    const int64_t pass = in_row / row->pass_bars;
    const int64_t in_pass = in_row % row->pass_bars;
    const Meter meter = song_map_pass_meter(row, in_pass);
    return (SongBar){.section = &map->song->sections[index],
                     .row = index,
                     .pass = (uint32_t)pass,
                     .in_pass = in_pass,
                     .first = row->bar + pass * row->pass_bars,
                     .tick = row->tick + pass * row->pass_ticks + song_map_pass_tick(row, in_pass),
                     .ticks = meter_bar_ticks(meter),
                     .meter = meter};
}

SongBar song_map_bar(const SongMap* const map, const int64_t bar)
{
    if (bar < 0 || bar >= map->bars) {
        return (SongBar){.section = NULL};
    }
    uint32_t row = 0;
    while (row + 1 < map->count && map->rows[row + 1].bar <= bar) {
        ++row;
    }
    return bar_of(map, row, bar - map->rows[row].bar);
}

SongBar song_map_at(const SongMap* const map, const int64_t tick)
{
    if (tick < 0 || tick >= map->ticks) {
        return (SongBar){.section = NULL};
    }
    uint32_t index = 0;
    while (index + 1 < map->count && map->rows[index + 1].tick <= tick) {
        ++index;
    }
    const SongRow* const row = &map->rows[index];
    const int64_t in_row = tick - row->tick;
    const int64_t pass = in_row / row->pass_ticks;
    return bar_of(map, index, pass * row->pass_bars + pass_bar(row, in_row % row->pass_ticks));
}

uint32_t song_map_take(const SongMap* const map, const SongBar* const bar)
{
    const uint32_t first = map->rows[bar->row].take;
    const uint32_t most = (uint32_t)control_rows[CONTROL_TAKE].most;
    const uint32_t take = bar->section->take ? first : first + bar->pass;
    return (take - 1) % most + 1;
}
