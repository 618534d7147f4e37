// SPDX-License-Identifier: ISC
/* test_song_beats.c - hits, stops and endings, counted by hand; and that strokes are the same
   whatever pieces they are asked for in. */
#include "../../plugin/engine/song/song_beats.h"
#include "../../plugin/engine/song/song_check.h"
#include "../help/check.h"
#include "written.h"

#include <string.h>

enum { QUARTER = TICKS_PER_QUARTER, MOST = 40000 };

static Song song; /* too large for a stack */
static SongMap map;

static SongSection* one_section(const uint32_t bars)
{
    written_begin(&song, 1);
    return written_add(&song, "A", bars, 1.0f);
}

static void make(void)
{
    song_map_make(&map, &song, &written_library);
}

/* A right hand and a right foot on every eighth, as if they were written so. */
static void put_eighths(const int64_t begin, const int64_t end, StrokeList* const list)
{
    list->count = list->dropped = 0;
    for (int64_t tick = (begin + EIGHTH - 1) / EIGHTH * EIGHTH; tick < end; tick += EIGHTH) {
        stroke_list_add(list, (Stroke){tick, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL, false});
        stroke_list_add(list, (Stroke){tick, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, false});
    }
    song_beats_put(&map, begin, end, list);
}

static bool has(const StrokeList* const list, const int64_t tick, const Limb limb,
                const Voice voice)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        const Stroke stroke = list->strokes[i];
        if (stroke.tick == tick && stroke.limb == limb && stroke.voice == voice) {
            return true;
        }
    }
    return false;
}

static void a_stop_is_silent_but_for_its_hits(void)
{
    SongSection* const section = one_section(2);
    section->stop_count = section->hit_count = 1;
    section->stops[0] = (SongStop){{0, 2, 0}, {1, 0, 0}};
    section->hits[0] = (SongHit){{0, 3, SONG_PARTS / 2}, 0};
    make();
    StrokeList list;
    put_eighths(0, map.ticks, &list);
    CHECK_INT(list.count, 2 * (4 + 8) + 3); /* 4 eighths, the hit, 8 eighths */
    CHECK(has(&list, 7 * EIGHTH, RIGHT_HAND, VOICE_CRASH));
    CHECK(has(&list, 7 * EIGHTH, LEFT_HAND, VOICE_SNARE));
    CHECK(has(&list, 7 * EIGHTH, RIGHT_FOOT, VOICE_KICK));
    CHECK(!has(&list, 4 * EIGHTH, RIGHT_HAND, VOICE_HAT_CLOSED));
    CHECK(has(&list, 8 * EIGHTH, RIGHT_HAND, VOICE_HAT_CLOSED));
}

static void a_hit_takes_the_place_of_what_its_limbs_have(void)
{
    SongSection* const section = one_section(1);
    section->hit_count = 1;
    section->hits[0] = (SongHit){{0, 1, 0}, 1U << VOICE_CHINA};
    make();
    StrokeList list;
    put_eighths(0, map.ticks, &list);
    CHECK_INT(list.count, 16);
    CHECK(has(&list, QUARTER, RIGHT_HAND, VOICE_CHINA));
    CHECK(!has(&list, QUARTER, RIGHT_HAND, VOICE_HAT_CLOSED));
    CHECK(has(&list, QUARTER, RIGHT_FOOT, VOICE_KICK)); /* goes on */
}

static void each_ending_is_what_it_is_called(void)
{
    static const struct {
        SongEnding ending;
        uint32_t beats;
        int eighths, others; /* of what is written, and what is struck besides */
    } rows[] = {{SONG_GOES_ON, 0, 16, 0}, {SONG_FILL, 2, 16, 0},  {SONG_STOP, 0, 8, 0},
                {SONG_STOP, 3, 10, 0},    {SONG_CHOKE, 1, 14, 2}, {SONG_HIT, 0, 8, 3},
                {SONG_RING, 4, 8, 3},     {SONG_STOP, 99, 0, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        SongSection* const section = one_section(2);
        section->ending = rows[i].ending;
        section->ending_beats = rows[i].beats;
        make();
        StrokeList list;
        put_eighths(0, map.ticks, &list);
        check_case("row %d", (int)i);
        CHECK_INT(list.count, 2 * rows[i].eighths + rows[i].others);
    }
}

static void what_is_repeated_has_its_stops_each_time(void)
{
    SongSection* const section = one_section(1);
    section->times = 3;
    section->stop_count = 1;
    section->stops[0] = (SongStop){{0, 3, 0}, {SONG_TO_THE_END, 0, 0}};
    make();
    StrokeList list;
    put_eighths(0, map.ticks, &list);
    CHECK_INT(list.count, 2 * 6 * 3);
}

static void a_beat_is_what_the_meter_counts(void)
{
    SongSection* const section = one_section(2);
    section->meter_count = 2;
    section->meters[0] = (Meter){7.0, 8};
    section->meters[1] = (Meter){5.0, 16};
    make();
    const SongRow* const row = &map.rows[0];
    CHECK_INT(song_beats_tick(row, (SongSpot){0, 3, 0}), 3 * EIGHTH);
    CHECK_INT(song_beats_tick(row, (SongSpot){1, 2, SONG_PARTS / 3}),
              7 * EIGHTH + 7 * (EIGHTH / 2) / 3); /* two sixteenths and a third of one */
    CHECK_INT(song_beats_tick(row, (SongSpot){SONG_TO_THE_END, 0, 0}), row->pass_ticks);
}

static void nobody_strikes_with_three_hands(void)
{
    uint8_t voices[LIMB_COUNT];
    CHECK(song_beats_limbs(1U << VOICE_CRASH | 1U << VOICE_CHINA, voices));
    CHECK_INT(voices[LEFT_HAND], VOICE_CHINA);
    CHECK(song_beats_limbs(1U << VOICE_TOM_FLOOR | 1U << VOICE_SNARE, voices));
    CHECK_INT(voices[LEFT_HAND], VOICE_SNARE);
    CHECK_INT(voices[RIGHT_HAND], VOICE_TOM_FLOOR);
    CHECK(!song_beats_limbs(1U << VOICE_CRASH | 1U << VOICE_CHINA | 1U << VOICE_SNARE, voices));
    CHECK(!song_beats_limbs(1U << VOICE_KICK | 1U << VOICE_KICK_LEFT | 1U << VOICE_HAT_PEDAL,
                            voices));
    CHECK(!song_beats_limbs(1U << VOICE_CLICK, voices));
}

/* One fault each, planted. */
static void what_reaches_beyond_a_section_is_found(void)
{
    uint32_t which = 9;
    SongSection* const section = one_section(2);
    make();
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_RIGHT);
    section->hit_count = 2;
    section->hits[1] = (SongHit){{1, 4, 0}, 0};
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_HIT_OUTSIDE);
    CHECK_INT(which, 1);
    section->hits[1] = (SongHit){{1, 3, 0}, 7U << VOICE_CRASH};
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_HIT_LIMBS);
    section->hit_count = 0;
    section->stop_count = 1;
    section->stops[0] = (SongStop){{0, 0, 0}, {2, 1, 0}};
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_STOP_OUTSIDE);
    section->stops[0] = (SongStop){{1, 0, 0}, {1, 0, 0}};
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_STOP_EMPTY);
    section->stop_count = 0;
    section->ending = SONG_STOP;
    section->ending_beats = 9;
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_ENDING_LONG);
    section->ending = SONG_FILL;
    section->ending_beats = 0;
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_NO_FILL);
    section->ending = SONG_GOES_ON;
    section->ritard_beats = 9;
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_RITARD_LONG);
    section->ritard_beats = 0;
    section->bars = 999;
    section->times = 11;
    make();
    CHECK_INT(song_check(&map, 0, &written_library, &which), SONG_TOO_LONG);
}

/* ---- By chance */

static Stroke whole[MOST], pieces[MOST];

static uint32_t gather(Stroke* const all, const int32_t least, const int32_t most)
{
    uint32_t count = 0;
    for (int64_t tick = 0; tick < map.ticks;) {
        const int64_t end = tick + written_any(least, most);
        StrokeList list;
        put_eighths(tick, end < map.ticks ? end : map.ticks, &list);
        CHECK_INT(list.dropped, 0);
        if (count + list.count <= MOST) {
            memcpy(&all[count], list.strokes, list.count * sizeof *all);
        }
        count += list.count;
        tick = end;
    }
    return count;
}

static void strokes_are_the_same_in_pieces_of_any_size(void)
{
    for (int round = 0; round < 300; ++round) {
        written_by_chance(&song);
        make();
        check_case("song %d", round);
        const uint32_t count = gather(whole, 16 * QUARTER, 16 * QUARTER);
        CHECK_INT(gather(pieces, 1 + QUARTER / 9, 3 * QUARTER), count);
        for (uint32_t i = 0; i < count && i < MOST; ++i) {
            if (!CHECK(whole[i].tick == pieces[i].tick && whole[i].limb == pieces[i].limb &&
                       whole[i].voice == pieces[i].voice)) {
                return;
            }
        }
    }
}

static void silence_lasts_until_it_is_said_to(void)
{
    for (int round = 0; round < 300; ++round) {
        written_by_chance(&song);
        make();
        check_case("song %d", round);
        for (int64_t tick = 0; tick < map.ticks;) {
            int64_t until = 0;
            int64_t other = 0;
            const bool silent = song_beats_silent(&map, tick, &until);
            if (!CHECK(until > tick && until <= map.ticks)) {
                return;
            }
            CHECK_INT(song_beats_silent(&map, (tick + until) / 2, &other), silent);
            CHECK_INT(song_beats_silent(&map, until - 1, &other), silent);
            tick = until;
        }
    }
}

int main(void)
{
    RUN(a_stop_is_silent_but_for_its_hits);
    RUN(a_hit_takes_the_place_of_what_its_limbs_have);
    RUN(each_ending_is_what_it_is_called);
    RUN(what_is_repeated_has_its_stops_each_time);
    RUN(a_beat_is_what_the_meter_counts);
    RUN(nobody_strikes_with_three_hands);
    RUN(what_reaches_beyond_a_section_is_found);
    RUN(strokes_are_the_same_in_pieces_of_any_size);
    RUN(silence_lasts_until_it_is_said_to);
    return tests_end();
}
