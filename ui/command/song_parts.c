// SPDX-License-Identifier: ISC
#include "song_parts.h"

#include "../../plugin/engine/song/song_stretch.h"
#include "song_say.h"

#include <string.h>

/* Where the walk is, and what the plugin was told last. */
typedef struct {
    const SongPlayed* played;
    Reel* song;
    int64_t line; /* the file's tick that is reached */
    ToldSection told;
} SongWalk;

/* Engine ticks are whole ticks of a file, or rounded where they aren't. */
static int64_t file_tick(const int64_t tick)
{
    return (tick * SMF_DIVISION + TICKS_PER_QUARTER / 2) / TICKS_PER_QUARTER;
}

static SongStretch stretch_at(const SongWalk* const walk, const int64_t tick)
{
    const SongPlayed* const played = walk->played;
    return song_stretch(played->map, played->library, played->controls, tick);
}

static ToldSection told_of(const SongWalk* const walk, const SongStretch* const stretch,
                           const int64_t tick)
{
    const SongBar* const bar = &stretch->bar;
    const int64_t first = bar->first + walk->played->count_in;
    ToldSection told = {.bar = first + bar->in_pass,
                        .origin = first,
                        .meter = bar->meter,
                        .tempo = stretch->tempo,
                        .tick = tick - bar->tick};
    memcpy(told.controls, stretch->controls, sizeof told.controls);
    return told;
}

/* ---- The walk */

/* Bar lines in [tick, until). */
static int64_t bars_begun(const SongMap* const map, const int64_t tick, const int64_t until)
{
    const SongBar first = song_map_at(map, tick);
    const SongBar last = song_map_at(map, until - 1);
    return last.first + last.in_pass - first.first - first.in_pass + (tick == first.tick);
}

static bool changes(const ToldSection* const told, const ToldSection* const before)
{
    bool other = told->origin != before->origin || !meter_equal(told->meter, before->meter);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        other |= differs((double)told->controls[i], (double)before->controls[i]);
    }
    return other;
}

static void add_stretch(SongWalk* const walk, const SongStretch* const stretch, const int64_t tick)
{
    const ToldSection told = told_of(walk, stretch, tick);
    const ReelPart part = {.ticks = file_tick(stretch->end) - walk->line,
                           .bars = bars_begun(walk->played->map, tick, stretch->end),
                           .clicks = {walk->played->clicks[0], walk->played->clicks[1]},
                           .tempo = stretch->tempo,
                           .meter = told.meter,
                           .is_told = tick == 0 || changes(&told, &walk->told),
                           .told = told};
    reel_add_part(walk->song, &part);
    walk->told = told;
    walk->line = file_tick(stretch->end);
}

/* A pass through a section begins. */
static void mark(const SongWalk* const walk, const SongBar* const bar)
{
    char name[SONG_SAY_ROOM];
    song_say_name(walk->played->map, bar->row, bar->pass, name);
    reel_mark(walk->song, 0, name);
    ++walk->song->phrases;
}

/* Bars of click in the first section's meter and tempo. */
static void add_count_in(SongWalk* const walk)
{
    const int bars = walk->played->count_in;
    const SongStretch first = stretch_at(walk, 0);
    ToldSection told = told_of(walk, &first, 0);
    told.bar = 0;
    const ReelPart part = {.ticks = file_tick(bars * meter_bar_ticks(told.meter)),
                           .bars = bars,
                           .clicks = {walk->played->clicks[0], walk->played->clicks[1]},
                           .tempo = told.tempo,
                           .meter = told.meter,
                           .is_told = true,
                           .told = told};
    if (bars) {
        reel_mark(walk->song, 0, "Count-in");
        reel_add_part(walk->song, &part);
    }
}

void song_parts_add(const SongPlayed* const played, Reel* const song)
{
    SongWalk walk = {.played = played, .song = song};
    song->counted = "section";
    add_count_in(&walk);
    for (int64_t tick = 0; tick < played->map->ticks;) {
        const SongStretch stretch = stretch_at(&walk, tick);
        if (tick == stretch.bar.tick && !stretch.bar.in_pass) {
            mark(&walk, &stretch.bar);
        }
        if (file_tick(stretch.end) > walk.line) {
            add_stretch(&walk, &stretch, tick);
        }
        tick = stretch.end;
    }
}
