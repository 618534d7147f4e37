// SPDX-License-Identifier: ISC
#include "song_road.h"

#include <stddef.h>

/* The engine calls no C library for texts. */
static bool is_called(const char* a, const char* b)
{
    while (*a && *a == *b) {
        ++a;
        ++b;
    }
    return *a == *b;
}

static uint32_t number_of(const Song* const song, const uint32_t index)
{
    uint32_t number = 0;
    uint32_t all = 0;
    for (uint32_t i = 0; i < song->section_count; ++i) {
        const bool same = is_called(song->sections[i].name, song->sections[index].name);
        all += same;
        number += same && i <= index;
    }
    return all > 1 ? number : 0;
}

static bool has_many_meters(const SongRow* const row)
{
    bool many = false;
    for (int64_t bar = 1; bar < row->pass_bars && bar < row->meter_count; ++bar) {
        many |= !meter_equal(row->meters[bar], row->meters[0]);
    }
    return many;
}

SongRoad song_road(const SongMap* const map, const uint32_t index)
{
    const Song* const song = map->song;
    const SongRow* const row = &map->rows[index];
    const SongRow* const before = index ? row - 1 : NULL;
    return (SongRoad){
        .number = number_of(song, index),
        .new_picks =
            !before || !song_picks_alike(&song->sections[index], &song->sections[index - 1]),
        .new_meter = !before || !meter_equal(row->meters[0],
                                             song_map_pass_meter(before, before->pass_bars - 1)),
        .many_meters = has_many_meters(row),
        .new_tempo = !before || differs(row->tempo, before->ritard_ticks ? before->ritard_to
                                                                         : before->tempo_to),
        .moving_tempo = differs(row->tempo, row->tempo_to) || row->ritard_ticks,
        .new_level = !before || differs(row->level, before->level_to),
        .moving_level = differs(row->level, row->level_to),
    };
}
