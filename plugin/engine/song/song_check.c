// SPDX-License-Identifier: ISC
#include "song_check.h"

#include "../groove/selection.h"
#include "song_beats.h"

#include <stddef.h>

/* On a beat of a bar that the section has; a stop's end may also be the next bar's line. */
static bool is_inside(const SongRow* const row, const SongSpot spot)
{
    if (spot.bar < 0 || spot.bar >= row->pass_bars) {
        return false;
    }
    const Meter meter = song_map_pass_meter(row, spot.bar);
    return spot.beat >= 0 && spot.part >= 0 && spot.part < SONG_PARTS &&
           (double)spot.beat + (double)spot.part / SONG_PARTS < meter.beats_per_bar;
}

static bool is_end(const SongRow* const row, const SongSpot spot)
{
    return spot.bar == SONG_TO_THE_END || is_inside(row, spot) ||
           (spot.bar == row->pass_bars && spot.beat == 0 && spot.part == 0);
}

static SongFault check_hits(const SongRow* const row, const SongSection* const section,
                            uint32_t* const which)
{
    for (*which = 0; *which < section->hit_count; ++*which) {
        uint8_t voices[LIMB_COUNT];
        if (!is_inside(row, section->hits[*which].at)) {
            return SONG_HIT_OUTSIDE;
        }
        if (!song_beats_limbs(section->hits[*which].voices, voices)) {
            return SONG_HIT_LIMBS;
        }
    }
    return SONG_RIGHT;
}

static SongFault check_stops(const SongRow* const row, const SongSection* const section,
                             uint32_t* const which)
{
    for (*which = 0; *which < section->stop_count; ++*which) {
        const SongStop* const stop = &section->stops[*which];
        if (!is_inside(row, stop->from) || !is_end(row, stop->until)) {
            return SONG_STOP_OUTSIDE;
        }
        if (song_beats_tick(row, stop->until) <= song_beats_tick(row, stop->from)) {
            return SONG_STOP_EMPTY;
        }
    }
    return SONG_RIGHT;
}

static bool has_fill(const SongSection* const section, const Library* const library)
{
    Settings settings = {.groove = 0};
    const float* const groove = song_value(section, CONTROL_GROOVE);
    const float* const turnaround = song_value(section, CONTROL_TURNAROUND);
    settings.groove = groove ? (uint32_t)*groove : (uint32_t)control_rows[CONTROL_GROOVE].normal;
    settings.turnaround = section->fill ? (int32_t)section->fill
                          : turnaround  ? (int32_t)*turnaround
                                        : AS_WRITTEN;
    return selection_make(library, &settings, 120.0).turnaround;
}

static SongFault check_ends(const SongRow* const row, const SongSection* const section,
                            const Library* const library)
{
    const int64_t beat = meter_beat_ticks(song_map_pass_meter(row, row->pass_bars - 1));
    if (section->ending != SONG_GOES_ON && section->ending_beats * beat > row->pass_ticks) {
        return SONG_ENDING_LONG;
    }
    if (section->ritard_beats * beat > row->pass_ticks * section->times) {
        return SONG_RITARD_LONG;
    }
    if (section->ending == SONG_FILL && !has_fill(section, library)) {
        return SONG_NO_FILL;
    }
    return row->bar + row->pass_bars * section->times > SONG_LONGEST ? SONG_TOO_LONG : SONG_RIGHT;
}

SongFault song_check(const SongMap* const map, const uint32_t index, const Library* const library,
                     uint32_t* const which)
{
    const SongRow* const row = &map->rows[index];
    const SongSection* const section = &map->song->sections[index];
    SongFault fault = check_hits(row, section, which);
    fault = fault ? fault : check_stops(row, section, which);
    return fault ? fault : check_ends(row, section, library);
}
