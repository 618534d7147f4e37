// SPDX-License-Identifier: ISC
#include "song_parts.h"

#include "../../plugin/engine/song/song_beats.h"
#include "../../plugin/engine/song/song_road.h"
#include "../../plugin/engine/song/song_settings.h"
#include "song_fill.h"
#include "song_say.h"

#include <string.h>

/* Where the walk is, and what the plugin was told last. */
typedef struct {
    const SongPlayed* played;
    Reel* song;
    SongFill fill;
    uint32_t row;
    int64_t begin; /* of the pass */
    int64_t end;
    int64_t line; /* the file's tick that is reached */
    ToldSection told;
} SongWalk;

/* Engine ticks are whole ticks of a file, or rounded where they aren't. */
static int64_t file_tick(const int64_t tick)
{
    return (tick * SMF_DIVISION + TICKS_PER_QUARTER / 2) / TICKS_PER_QUARTER;
}

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* ---- What holds at a tick */

static void silence(float values[CONTROL_COUNT])
{
    values[CONTROL_RIGHT_HAND] = values[CONTROL_LEFT_HAND] = 0.0f;
    values[CONTROL_RIGHT_FOOT] = values[CONTROL_LEFT_FOOT] = 0.0f;
}

static void find_controls(const SongWalk* const walk, const SongBar* const bar, const int64_t tick,
                          float values[CONTROL_COUNT])
{
    const SongMap* const map = walk->played->map;
    int64_t until = 0;
    memcpy(values, walk->played->controls, sizeof walk->played->controls);
    song_settings_controls(map, tick, values);
    values[CONTROL_CLOCK] = CLOCK_HOST;
    values[CONTROL_ENABLED] = 1.0f;
    if (song_road(map, walk->row).many_meters && !song_value(bar->section, CONTROL_REALIGN)) {
        values[CONTROL_REALIGN] = REALIGN_BAR;
    }
    if (walk->fill.bars && bar->in_pass >= walk->fill.from) {
        song_fill_controls(&walk->fill, values);
    }
    if (song_beats_silent(map, tick, &until)) {
        silence(values);
    }
}

static ToldSection told_at(const SongWalk* const walk, const int64_t tick, const double tempo)
{
    const SongBar bar = song_map_at(walk->played->map, tick);
    const int64_t first = bar.first + walk->played->count_in;
    ToldSection told = {.bar = first + bar.in_pass,
                        .origin = first,
                        .meter = bar.meter,
                        .tempo = tempo,
                        .tick = tick - bar.tick};
    find_controls(walk, &bar, tick, told.controls);
    return told;
}

/* The next tick at which something may be otherwise. */
static int64_t next_change(const SongWalk* const walk, const SongBar* const bar, const int64_t tick)
{
    const SongMap* const map = walk->played->map;
    const SongRow* const row = &map->rows[walk->row];
    int64_t next = 0;
    song_beats_silent(map, tick, &next);
    next = lesser(lesser(next, walk->end), song_time_step(map, tick).end);
    if (song_road(map, walk->row).many_meters) {
        next = lesser(next, bar->tick + bar->ticks);
    }
    const int64_t fill = walk->begin + song_map_pass_tick(row, walk->fill.from);
    if (walk->fill.bars && tick < fill) {
        next = lesser(next, fill);
    }
    if (differs(row->level, row->level_to)) {
        const int64_t beat = meter_beat_ticks(bar->meter);
        const int64_t line = bar->tick + ((tick - bar->tick) / beat + 1) * beat;
        next = lesser(next, lesser(line, bar->tick + bar->ticks));
    }
    return next;
}

/* ---- The walk */

/* Bar lines in [tick, until). */
static int64_t bars_begun(const SongMap* const map, const int64_t tick, const int64_t until)
{
    const SongBar first = song_map_at(map, tick);
    const SongBar last = song_map_at(map, until - 1);
    return last.first + last.in_pass - first.first - first.in_pass + (tick == first.tick);
}

static void add_piece(SongWalk* const walk, const int64_t tick, const int64_t until)
{
    const double tempo = song_time_step(walk->played->map, tick).tempo;
    const ToldSection told = told_at(walk, tick, tempo);
    const bool is_told = tick == walk->begin || !meter_equal(told.meter, walk->told.meter) ||
                         memcmp(told.controls, walk->told.controls, sizeof told.controls) != 0;
    const ReelPart part = {.ticks = file_tick(until) - walk->line,
                           .bars = bars_begun(walk->played->map, tick, until),
                           .clicks = {walk->played->clicks[0], walk->played->clicks[1]},
                           .tempo = tempo,
                           .meter = told.meter,
                           .is_told = is_told,
                           .told = told};
    reel_add_part(walk->song, &part);
    walk->told = told;
    walk->line = file_tick(until);
}

static void add_pass(SongWalk* const walk, const uint32_t pass)
{
    char name[SONG_SAY_ROOM];
    song_say_name(walk->played->map, walk->row, pass, name);
    reel_mark(walk->song, 0, name);
    ++walk->song->phrases;
    for (int64_t tick = walk->begin; tick < walk->end;) {
        const SongBar bar = song_map_at(walk->played->map, tick);
        const int64_t until = next_change(walk, &bar, tick);
        if (file_tick(until) > walk->line) {
            add_piece(walk, tick, until);
        }
        tick = until;
    }
}

/* Bars of click in the first section's meter and tempo. */
static void add_count_in(SongWalk* const walk)
{
    const int bars = walk->played->count_in;
    const SongMap* const map = walk->played->map;
    const double tempo = song_time_step(map, 0).tempo;
    ToldSection told = told_at(walk, 0, tempo);
    told.bar = 0;
    const ReelPart part = {.ticks = file_tick(bars * meter_bar_ticks(told.meter)),
                           .bars = bars,
                           .clicks = {walk->played->clicks[0], walk->played->clicks[1]},
                           .tempo = tempo,
                           .meter = told.meter,
                           .is_told = true,
                           .told = told};
    if (bars) {
        reel_mark(walk->song, 0, "Count-in");
        reel_add_part(walk->song, &part);
    }
}

static void begin_row(SongWalk* const walk, const uint32_t row)
{
    walk->row = row;
    walk->begin = walk->played->map->rows[row].tick;
    walk->fill = song_fill(walk->played->map, row, walk->played->library, walk->played->controls);
}

void song_parts_add(const SongPlayed* const played, Reel* const song)
{
    SongWalk walk = {.played = played, .song = song};
    song->counted = "section";
    begin_row(&walk, 0);
    add_count_in(&walk);
    for (uint32_t row = 0; row < played->map->count; ++row) {
        begin_row(&walk, row);
        for (uint32_t pass = 0; pass < played->map->song->sections[row].times; ++pass) {
            walk.end = walk.begin + played->map->rows[row].pass_ticks;
            add_pass(&walk, pass);
            walk.begin = walk.end;
        }
    }
}
