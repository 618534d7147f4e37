// SPDX-License-Identifier: ISC
#include "song_beats.h"

/* A hand that strikes a crash has no time for anything closer: ours, common practice, no
   source. */
static const int64_t room = TICKS_PER_QUARTER / 8;

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

int64_t song_beats_tick(const SongRow* const row, const SongSpot spot)
{
    if (spot.bar < 0 || spot.bar >= row->pass_bars) {
        return row->pass_ticks;
    }
    const int64_t beat = meter_beat_ticks(song_map_pass_meter(row, spot.bar));
    const int64_t tick =
        song_map_pass_tick(row, spot.bar) + spot.beat * beat + spot.part * beat / SONG_PARTS;
    return lesser(tick, row->pass_ticks);
}

SongSpan song_beats_ending(const SongMap* const map, const uint32_t index)
{
    const SongRow* const row = &map->rows[index];
    const SongSection* const section = &map->song->sections[index];
    const Meter last = song_map_pass_meter(row, row->pass_bars - 1);
    const bool is_fill = section->ending == SONG_FILL;
    const int64_t beats = section->ending_beats * meter_beat_ticks(last);
    const int64_t ticks = section->ending == SONG_GOES_ON ? 0
                          : section->ending_beats         ? lesser(beats, row->pass_ticks)
                          : is_fill                       ? 0
                                                          : meter_bar_ticks(last);
    return (SongSpan){row->pass_ticks - ticks, row->pass_ticks};
}

/* ---- Silence */

/* Widens or narrows what is known at a tick of a pass: inside the span it is silent. */
static bool look(const SongSpan span, const int64_t tick, int64_t* const until)
{
    const bool inside = tick >= span.begin && tick < span.end;
    const int64_t next = inside ? span.end : tick < span.begin ? span.begin : INT64_MAX;
    *until = lesser(*until, next);
    return inside;
}

static bool silences(const SongEnding ending)
{
    return ending != SONG_GOES_ON && ending != SONG_FILL;
}

static bool pass_is_silent(const SongMap* const map, const uint32_t index, const int64_t tick,
                           int64_t* const until)
{
    const SongRow* const row = &map->rows[index];
    const SongSection* const section = &map->song->sections[index];
    bool silent = section->rests;
    if (silences(section->ending)) {
        silent |= look(song_beats_ending(map, index), tick, until);
    }
    for (uint32_t i = 0; i < section->stop_count; ++i) {
        const SongStop* const stop = &section->stops[i];
        const SongSpan span = {song_beats_tick(row, stop->from), song_beats_tick(row, stop->until)};
        silent |= look(span, tick, until);
    }
    return silent;
}

bool song_beats_silent(const SongMap* const map, const int64_t tick, int64_t* const until)
{
    const SongBar bar = song_map_at(map, tick);
    if (!bar.section) {
        *until = tick < 0 ? 0 : INT64_MAX;
        return true;
    }
    const SongRow* const row = &map->rows[bar.row];
    const int64_t begin = row->tick + bar.pass * row->pass_ticks;
    int64_t next = row->pass_ticks;
    const bool silent = pass_is_silent(map, bar.row, tick - begin, &next);
    *until = begin + next;
    return silent;
}

/* ---- Hits */

static bool is_struck_by_foot(const uint32_t voice)
{
    return voice == VOICE_KICK || voice == VOICE_KICK_LEFT || voice == VOICE_HAT_PEDAL;
}

/* Right ones first, but for what stands on the left. */
static uint8_t free_limb(const uint8_t voices[LIMB_COUNT], const uint32_t voice)
{
    const bool foot = is_struck_by_foot(voice);
    const bool left = voice == VOICE_SNARE || voice == VOICE_SIDE_STICK ||
                      voice == VOICE_KICK_LEFT || voice == VOICE_HAT_PEDAL;
    const uint8_t pair = foot ? RIGHT_FOOT : RIGHT_HAND;
    const uint8_t first = (uint8_t)(pair + left);
    const uint8_t other = (uint8_t)(pair + !left);
    return voices[first] == VOICE_COUNT ? first : voices[other] == VOICE_COUNT ? other : LIMB_COUNT;
}

bool song_beats_limbs(const uint32_t hit_voices, uint8_t voices[LIMB_COUNT])
{
    const uint32_t whole = 1U << VOICE_CRASH | 1U << VOICE_SNARE | 1U << VOICE_KICK;
    const uint32_t struck = hit_voices ? hit_voices : whole;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        voices[limb] = VOICE_COUNT;
    }
    bool good = struck < 1U << VOICE_CHOKE;
    for (uint32_t voice = 0; good && voice < VOICE_CHOKE; ++voice) {
        if (struck & 1U << voice) {
            const uint8_t limb = free_limb(voices, voice);
            good = limb < LIMB_COUNT;
            if (good) {
                voices[limb] = (uint8_t)voice;
            }
        }
    }
    return good;
}

/* One stroke of each limb that has a voice. */
static void strike(const uint8_t voices[LIMB_COUNT], const int64_t tick, StrokeList* const list)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        if (voices[limb] != VOICE_COUNT) {
            stroke_list_add(list, (Stroke){tick, (uint8_t)limb, voices[limb], LEVEL_ACCENT, false});
        }
    }
}

/* What strikes or grips where the section's ending begins; false: nothing does. */
static bool ending_voices(const SongEnding ending, uint8_t voices[LIMB_COUNT])
{
    static const uint8_t grip[LIMB_COUNT] = {VOICE_CHOKE, VOICE_CHOKE, VOICE_COUNT, VOICE_COUNT};
    if (ending == SONG_CHOKE) {
        for (int limb = 0; limb < LIMB_COUNT; ++limb) {
            voices[limb] = grip[limb];
        }
        return true;
    }
    return (ending == SONG_HIT || ending == SONG_RING) && song_beats_limbs(0, voices);
}

static void pass_strokes(const SongMap* const map, const SongBar* const bar, const SongSpan span,
                         StrokeList* const list)
{
    const SongRow* const row = &map->rows[bar->row];
    const SongSection* const section = bar->section;
    const int64_t begin = row->tick + bar->pass * row->pass_ticks;
    const int64_t end = begin + song_beats_ending(map, bar->row).begin;
    uint8_t voices[LIMB_COUNT];
    if (end >= span.begin && end < span.end && ending_voices(section->ending, voices)) {
        strike(voices, end, list);
    }
    for (uint32_t i = 0; i < section->hit_count; ++i) {
        const int64_t tick = begin + song_beats_tick(row, section->hits[i].at);
        if (tick >= span.begin && tick < span.end &&
            song_beats_limbs(section->hits[i].voices, voices)) {
            strike(voices, tick, list);
        }
    }
}

void song_beats_strokes(const SongMap* const map, const int64_t begin, const int64_t end,
                        StrokeList* const list)
{
    const int64_t last = lesser(end, map->ticks);
    for (int64_t tick = begin > 0 ? begin : 0; tick < last;) {
        const SongBar bar = song_map_at(map, tick);
        const int64_t until = lesser(bar.tick + bar.ticks, last);
        pass_strokes(map, &bar, (SongSpan){tick, until}, list);
        tick = until;
    }
    strokes_sort(list->strokes, list->count);
}

/* ---- Among what is written */

static bool makes_room(const StrokeList* const hits, const Stroke stroke)
{
    for (uint32_t i = 0; i < hits->count; ++i) {
        const int64_t apart = stroke.tick - hits->strokes[i].tick;
        if (hits->strokes[i].limb == stroke.limb && apart <= room && apart >= -room) {
            return true;
        }
    }
    return false;
}

void song_beats_put(const SongMap* const map, const int64_t begin, const int64_t end,
                    StrokeList* const list)
{
    StrokeList hits;
    hits.count = hits.dropped = 0;
    song_beats_strokes(map, begin - room, end + room, &hits);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < list->count; ++i) {
        int64_t until = 0;
        const Stroke stroke = list->strokes[i];
        if (!song_beats_silent(map, stroke.tick, &until) && !makes_room(&hits, stroke)) {
            list->strokes[kept++] = stroke;
        }
    }
    list->count = kept;
    for (uint32_t i = 0; i < hits.count; ++i) {
        if (hits.strokes[i].tick >= begin && hits.strokes[i].tick < end) {
            stroke_list_add(list, hits.strokes[i]);
        }
    }
    strokes_sort(list->strokes, list->count);
}
