// SPDX-License-Identifier: ISC
/* test_song_map.c - where the sections of a song stand, counted by hand; what a section leaves
   open; and that a place is the same however it was reached. */
#include "../../plugin/engine/song/song_road.h"
#include "../../plugin/engine/song/song_settings.h"
#include "../help/check.h"
#include "written.h"

static Song song; /* too large for a stack */
static SongMap map;

/* A pickup of two quarters; 4 bars of 4/4; twice 8 bars of 7/8 7/8 7/8 8/8; a bar of 2/4; 8 bars of
   the second groove's 7/8; the verse once more. */
static void write_by_hand(Song* const to)
{
    written_begin(to, 1);
    written_add(to, "Pickup", 1, 1.0f)->beats = 2;
    written_add(to, "Intro", 4, 1.0f);
    for (int verse = 0; verse < 2; ++verse) {
        if (verse) {
            SongSection* const turn = written_add(to, "Turn", 1, 1.0f);
            turn->meter_count = 1;
            turn->meters[0] = (Meter){2.0, 4};
            written_add(to, "Chorus", 8, 2.0f);
        }
        SongSection* const section = written_add(to, "Verse", 8, 1.0f);
        song_put(section, CONTROL_FEET, 7.0f);
        section->times = verse ? 1 : 2;
        section->meter_count = 4;
        for (int i = 0; i < 4; ++i) {
            section->meters[i] = (Meter){i == 3 ? 8.0 : 7.0, 8};
        }
    }
}

static void make(void)
{
    song_map_make(&map, &song, &written_library);
}

/* In eighths: 4 of the pickup, 32, twice 58 (29 in four bars), 4, 56, and 58 once more. */
static void bars_and_ticks_are_as_counted_by_hand(void)
{
    static const int64_t bars[] = {0, 1, 5, 21, 22, 30};
    static const int64_t eighths[] = {0, 4, 36, 152, 156, 212};
    write_by_hand(&song);
    make();
    CHECK_INT(map.count, 6);
    for (uint32_t i = 0; i < map.count; ++i) {
        check_case("section %u", i);
        CHECK_INT(map.rows[i].bar, bars[i]);
        CHECK_INT(map.rows[i].tick, eighths[i] * EIGHTH);
    }
    CHECK_INT(map.bars, 38);
    CHECK_INT(map.ticks, 270 * (int64_t)EIGHTH);
}

static void a_meter_bar_by_bar_comes_round(void)
{
    static const int beats[] = {7, 7, 7, 8, 7, 7, 7, 8, 7};
    write_by_hand(&song);
    make();
    int64_t eighths = 36;
    for (int i = 0; i < 9; ++i) {
        const SongBar bar = song_map_bar(&map, 5 + i);
        check_case("bar %d of the verse", i);
        CHECK_NEAR(bar.meter.beats_per_bar, beats[i], 0);
        CHECK_INT(bar.meter.beat_unit, 8);
        CHECK_INT(bar.tick, eighths * EIGHTH);
        CHECK_INT(bar.pass, i == 8);
        CHECK_INT(bar.in_pass, i % 8);
        CHECK_INT(bar.first, i == 8 ? 13 : 5);
        eighths += beats[i];
    }
}

static void a_pickup_is_a_bar_of_its_beats(void)
{
    write_by_hand(&song);
    make();
    CHECK_NEAR(song_map_bar(&map, 0).meter.beats_per_bar, 2, 0);
    CHECK_INT(song_map_bar(&map, 0).ticks, 2 * TICKS_PER_QUARTER);
}

static void outside_the_song_there_is_no_section(void)
{
    write_by_hand(&song);
    make();
    CHECK(!song_map_bar(&map, -1).section && !song_map_bar(&map, 38).section);
    CHECK(!song_map_at(&map, -1).section && !song_map_at(&map, map.ticks).section);
    CHECK(song_map_at(&map, map.ticks - 1).section == &song.sections[5]);
}

/* The verse has other feet than intro and chorus: its passes alone count. */
static void each_pass_through_the_same_picks_is_another_take(void)
{
    write_by_hand(&song);
    make();
    static const int64_t bars[] = {1, 5, 13, 30};
    static const uint32_t takes[] = {2, 1, 2, 3};
    for (int i = 0; i < 4; ++i) {
        const SongBar bar = song_map_bar(&map, bars[i]);
        check_case("bar %d", (int)bars[i]);
        CHECK_INT(song_map_take(&map, &bar), takes[i]);
    }
    song.sections[2].take = 40;
    make();
    const SongBar second = song_map_bar(&map, 13);
    CHECK_INT(song_map_take(&map, &second), 40);
}

static void what_is_left_open_goes_on_as_it_was(void)
{
    written_begin(&song, 1);
    written_add(&song, "A", 4, 2.0f)->tempo_to = 160.0;
    written_add(&song, "B", 4, 1.0f)->ritard_beats = 4;
    written_add(&song, "C", 4, 1.0f)->level = 90.0;
    written_add(&song, "D", 2, 1.0f)->rests = true;
    make();
    CHECK_NEAR(map.rows[0].tempo, 150, 0); /* its groove's */
    CHECK_NEAR(map.rows[1].tempo, 160, 0);
    CHECK_NEAR(map.rows[1].ritard_to, 96, 1e-12);
    CHECK_NEAR(map.rows[2].tempo, 160, 0); /* a tempo */
    CHECK_NEAR(map.rows[1].level, 76, 0);  /* the control's default */
    CHECK_NEAR(map.rows[3].level, 90, 0);
    song.tempo = 100.0;
    make();
    CHECK_NEAR(map.rows[0].tempo, 100, 0);
}

static void a_rest_that_picks_nothing_has_the_meter_before_it(void)
{
    written_begin(&song, 1);
    written_add(&song, "A", 4, 2.0f);
    SongSection* const rest = written_add(&song, "B", 4, 1.0f);
    rest->rests = true;
    rest->control_count = 0;
    make();
    CHECK_NEAR(map.rows[1].meters[0].beats_per_bar, 7, 0);
    CHECK_INT(map.rows[1].meters[0].beat_unit, 8);
}

static void a_sections_picks_are_whole_and_the_rest_is_the_ports(void)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].most;
    }
    write_by_hand(&song);
    song.sections[2].level = 70.0;
    song.sections[2].level_to = 80.0;
    song.sections[2].crash = CRASH_SECTION;
    make();
    const SongRow* const verse = &map.rows[2];
    song_settings_controls(&map, verse->tick + verse->pass_ticks, values); /* half-way */
    CHECK_NEAR(values[CONTROL_FEET], 7, 0);
    CHECK_NEAR(values[CONTROL_HANDS], AS_WRITTEN, 0);
    CHECK_NEAR(values[CONTROL_TURNAROUND], AS_WRITTEN, 0);
    CHECK_NEAR(values[CONTROL_CRASH], CRASH_SECTION, 0);
    CHECK_NEAR(values[CONTROL_LEVEL], 75, 0);
    CHECK_NEAR(values[CONTROL_TAKE], 2, 0);
    CHECK_NEAR(values[CONTROL_TOUCH], control_rows[CONTROL_TOUCH].most, 0);
}

/* An accent is level + 1 + depth (126 - level) by feel/loudness.c: at the ports' 76 and a depth of
   0.85 it is 119.5, which at half the level is to be half. */
static void accents_go_with_the_level(void)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    written_begin(&song, 1);
    written_add(&song, "A", 1, 1.0f)->level = 38.0;
    written_add(&song, "B", 1, 1.0f)->level = 76.0;
    written_add(&song, "C", 1, 1.0f)->level = 127.0;
    make();
    song_settings_controls(&map, 0, values);
    const double accent = 39.0 + (double)values[CONTROL_ACCENT] / 100.0 * (126.0 - 38.0);
    CHECK_NEAR(values[CONTROL_LEVEL], 38, 0);
    CHECK_NEAR(accent, 119.5 / 2.0, 1e-4);
    values[CONTROL_LEVEL] = 76.0f;
    values[CONTROL_ACCENT] = 85.0f;
    song_settings_controls(&map, map.rows[1].tick, values);
    CHECK_NEAR(values[CONTROL_ACCENT], 85, 0);
    song_settings_controls(&map, map.rows[2].tick, values);
    CHECK_NEAR(values[CONTROL_ACCENT], 100, 0);
}

static void the_road_map_numbers_what_comes_again_and_says_what_changes(void)
{
    write_by_hand(&song);
    make();
    CHECK_INT(song_road(&map, 1).number, 0);
    CHECK_INT(song_road(&map, 2).number, 1);
    CHECK_INT(song_road(&map, 5).number, 2);
    CHECK(song_road(&map, 2).many_meters && !song_road(&map, 4).many_meters);
    CHECK(song_road(&map, 3).new_meter && !song_road(&map, 0).moving_tempo);
    CHECK(!song_road(&map, 1).new_picks && song_road(&map, 2).new_picks);
}

/* Played through bar by bar, then asked for from anywhere. */
static void a_place_is_the_same_however_it_was_reached(void)
{
    for (int round = 0; round < 500; ++round) {
        written_by_chance(&song);
        make();
        check_case("song %d", round);
        int64_t tick = 0;
        int64_t bar = 0;
        for (uint32_t i = 0; i < song.section_count; ++i) {
            const SongSection* const section = &song.sections[i];
            for (uint32_t played = 0; played < section->bars * section->times; ++played, ++bar) {
                const SongBar there = song_map_bar(&map, bar);
                CHECK(there.section == section);
                CHECK_INT(there.tick, tick);
                CHECK_INT(there.pass, played / section->bars);
                CHECK_INT(there.ticks, meter_bar_ticks(there.meter));
                tick += there.ticks;
            }
        }
        CHECK_INT(map.bars, bar);
        CHECK_INT(map.ticks, tick);
        for (int i = 0; i < 50; ++i) {
            const SongBar there = song_map_bar(&map, written_any(0, (int32_t)map.bars - 1));
            const SongBar last = song_map_at(&map, there.tick + there.ticks - 1);
            const SongBar first = song_map_at(&map, there.tick);
            CHECK_INT(last.tick, there.tick);
            CHECK_INT(first.first + first.in_pass, there.first + there.in_pass);
        }
    }
}

int main(void)
{
    RUN(bars_and_ticks_are_as_counted_by_hand);
    RUN(a_meter_bar_by_bar_comes_round);
    RUN(a_pickup_is_a_bar_of_its_beats);
    RUN(outside_the_song_there_is_no_section);
    RUN(each_pass_through_the_same_picks_is_another_take);
    RUN(what_is_left_open_goes_on_as_it_was);
    RUN(a_rest_that_picks_nothing_has_the_meter_before_it);
    RUN(a_sections_picks_are_whole_and_the_rest_is_the_ports);
    RUN(accents_go_with_the_level);
    RUN(the_road_map_numbers_what_comes_again_and_says_what_changes);
    RUN(a_place_is_the_same_however_it_was_reached);
    return tests_end();
}
