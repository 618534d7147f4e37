// SPDX-License-Identifier: ISC
/* written.h - songs by chance for the tests of the song room. */
#pragma once

#include "../../plugin/engine/song/song_map.h"

#include <stdio.h>
#include <string.h>

/* Two grooves and nothing in them but meter and tempo. */
static const Groove written_grooves[] = {
    {.id = 1, .meter = {4.0, 4}, .tempo = 120.0, .form_bars = 1},
    {.id = 2, .meter = {7.0, 8}, .tempo = 150.0, .form_bars = 1},
};
static const Library written_library = {.grooves = written_grooves, .groove_count = 2};

enum { EIGHTH = TICKS_PER_QUARTER / 2 };

/* A song without sections. */
static inline void written_begin(Song* const song, const uint32_t take)
{
    memset(song, 0, sizeof *song); /* an initializer may be made on the stack first */
    song->take = take;
}

/* Adds a section that picks a groove. */
static inline SongSection* written_add(Song* const song, const char* const name,
                                       const uint32_t bars, const float groove)
{
    SongSection* const section = &song->sections[song->section_count++];
    *section = song_section();
    snprintf(section->name, sizeof section->name, "%s", name);
    section->bars = bars;
    song_put(section, CONTROL_GROOVE, groove);
    return section;
}

/* ---- By chance: xorshift64 (Marsaglia, "Xorshift RNGs", J. Stat. Software 8, 2003) */

static uint64_t written_state = 88172645463325252ULL;

static inline int32_t written_any(const int32_t least, const int32_t most)
{
    written_state ^= written_state << 13;
    written_state ^= written_state >> 7;
    written_state ^= written_state << 17;
    return least + (int32_t)(written_state % (uint64_t)(most - least + 1));
}

static inline SongSpot written_spot(const SongSection* const section)
{
    return (SongSpot){written_any(0, (int32_t)section->bars - 1), written_any(0, 2),
                      written_any(0, 3) * SONG_PARTS / 4};
}

static inline void written_beats(SongSection* const section)
{
    section->hit_count = (uint32_t)written_any(0, 3);
    for (uint32_t i = 0; i < section->hit_count; ++i) {
        section->hits[i] = (SongHit){written_spot(section), 0};
    }
    section->stop_count = (uint32_t)written_any(0, 2);
    for (uint32_t i = 0; i < section->stop_count; ++i) {
        section->stops[i] = (SongStop){written_spot(section), written_spot(section)};
    }
    section->ending = (SongEnding)written_any(0, SONG_ENDINGS - 1);
    section->ending_beats = (uint32_t)written_any(0, 4);
}

static inline void written_meters(SongSection* const section)
{
    static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {3.0, 4}, {5.0, 16}, {2.0, 4}, {12.0, 8}};
    section->meter_count = (uint32_t)written_any(0, 4);
    for (uint32_t i = 0; i < section->meter_count; ++i) {
        section->meters[i] = meters[written_any(0, 5)];
    }
}

static inline void written_by_chance(Song* const song)
{
    written_begin(song, (uint32_t)written_any(1, 9999));
    for (int i = written_any(1, 12); i > 0; --i) {
        SongSection* const section = written_add(
            song, i % 3 ? "A" : "B", (uint32_t)written_any(1, 9), (float)written_any(1, 3));
        section->times = (uint32_t)written_any(1, 3);
        section->beats = written_any(0, 5) ? 0 : (uint32_t)written_any(1, 3);
        section->bars = section->beats ? 1 : section->bars;
        section->rests = !written_any(0, 9);
        section->tempo = written_any(0, 1) * written_any(60, 240);
        section->tempo_to = written_any(0, 1) * written_any(60, 240);
        section->level = written_any(0, 1) * written_any(1, 127);
        section->level_to = written_any(0, 1) * written_any(1, 127);
        section->ritard_beats = (uint32_t)(written_any(0, 1) * written_any(0, 12));
        written_meters(section);
        written_beats(section);
    }
}
