// SPDX-License-Identifier: ISC
/* test_song_stretch.c - a song cut wherever something changes: stretches follow one another, each is
   the same from anywhere within it, and what is silent, a fill or louder is so from its tick on,
   counted by hand. */
#include "../../plugin/engine/song/song_beats.h"
#include "../../plugin/engine/song/song_fill.h"
#include "../../plugin/engine/song/song_stretch.h"
#include "../help/check.h"
#include "written.h"

enum { QUARTER = TICKS_PER_QUARTER };

static Song song; /* too large for a stack */
static SongMap map;
static float ports[CONTROL_COUNT];

/* A turnaround of four quarters that is written for any bars. */
static const Figure turnaround = {
    .id = 7, .kind = FIGURE_TURNAROUND, .cycle_ticks = 4 * (int64_t)QUARTER};
static const Groove grooves[] = {
    {.id = 1, .meter = {4.0, 4}, .tempo = 120.0, .form_bars = 1, .turnaround = &turnaround},
    {.id = 2, .meter = {7.0, 8}, .tempo = 150.0, .form_bars = 1, .turnaround = &turnaround},
};
static const Library library = {.grooves = grooves, .groove_count = 2};

static void make(void)
{
    song_map_make(&map, &song, &library);
}

static SongStretch at(const int64_t tick)
{
    return song_stretch(&map, &library, ports, tick);
}

static void a_stop_has_its_limbs_off_between_its_ticks(void)
{
    written_begin(&song, 1);
    SongSection* const section = written_add(&song, "A", 4, 1.0f);
    section->stop_count = 1;
    section->stops[0] = (SongStop){{1, 2, 0}, {2, 1, 0}};
    make();
    CHECK_INT(at(0).end, 6 * QUARTER);
    CHECK_NEAR(at(6 * QUARTER - 1).controls[CONTROL_LEFT_FOOT], 1, 0);
    CHECK_NEAR(at(6 * QUARTER).controls[CONTROL_LEFT_FOOT], 0, 0);
    CHECK_NEAR(at(6 * QUARTER).controls[CONTROL_RIGHT_HAND], 0, 0);
    CHECK_INT(at(6 * QUARTER).end, 9 * QUARTER);
    CHECK_NEAR(at(9 * QUARTER).controls[CONTROL_RIGHT_HAND], 1, 0);
    CHECK_INT(at(9 * QUARTER).end, 16 * QUARTER);
}

/* Two quarters of seven bars: from the seventh on. */
static void a_fill_is_asked_for_in_the_bars_that_it_reaches_into(void)
{
    written_begin(&song, 1);
    SongSection* const section = written_add(&song, "A", 7, 1.0f);
    section->ending = SONG_FILL;
    section->ending_beats = 2;
    make();
    CHECK_INT(at(0).end, 24 * QUARTER);
    CHECK_NEAR(at(0).controls[CONTROL_FILL_EVERY], 0, 0);
    CHECK_NEAR(at(24 * QUARTER).controls[CONTROL_FILL_EVERY], 7, 0);
    CHECK_NEAR(at(24 * QUARTER).controls[CONTROL_FILL_BEATS], 2, 0);
}

/* As it is written it is four quarters: of 7/8, more than a bar. */
static void a_fill_reaches_into_as_many_bars_as_it_is_long(void)
{
    written_begin(&song, 1);
    written_add(&song, "A", 8, 2.0f)->ending = SONG_FILL;
    make();
    const SongFill fill = song_fill(&map, 0, &library, ports);
    CHECK_INT(fill.bars, 2);
    CHECK_INT(fill.from, 6);
    CHECK_INT(fill.every, 8);
    CHECK_INT(fill.why, SONG_FILL_WHOLE);
}

static void what_no_control_can_ask_for_is_told(void)
{
    written_begin(&song, 1);
    SongSection* const section = written_add(&song, "A", 8, 2.0f);
    section->ending = SONG_FILL;
    section->meter_count = 2;
    section->meters[0] = (Meter){7.0, 8};
    section->meters[1] = (Meter){6.0, 8};
    make();
    SongFill fill = song_fill(&map, 0, &library, ports);
    CHECK_INT(fill.why, SONG_FILL_METERS);
    CHECK_INT(fill.bars, 1);
    CHECK_INT(fill.beats, 6);
    section->meter_count = 0;
    section->bars = 67; /* a prime beyond 64: one bar comes round, two never */
    make();
    fill = song_fill(&map, 0, &library, ports);
    CHECK_INT(fill.why, SONG_FILL_NEVER);
    CHECK_INT(fill.bars, 0);
    section->ending_beats = 1;
    make();
    CHECK_INT(song_fill(&map, 0, &library, ports).every, 1);
    section->bars = 8;
    section->ending_beats = 17;
    make();
    CHECK_INT(song_fill(&map, 0, &library, ports).why, SONG_FILL_LONG);
}

static void a_level_that_moves_has_a_step_each_beat(void)
{
    written_begin(&song, 1);
    SongSection* const section = written_add(&song, "A", 2, 1.0f);
    section->level = 60.0;
    section->level_to = 76.0;
    make();
    for (int beat = 0; beat < 8; ++beat) {
        CHECK_NEAR(at(beat * QUARTER).controls[CONTROL_LEVEL], 60 + 2 * beat, 0);
        CHECK_INT(at(beat * QUARTER + 1).end, (beat + 1) * QUARTER);
    }
}

static bool alike(const SongStretch* const a, const SongStretch* const b)
{
    bool same = true;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        same &= !differs((double)a->controls[i], (double)b->controls[i]);
    }
    return same && a->end == b->end && !differs(a->tempo, b->tempo) && a->bar.row == b->bar.row &&
           a->bar.pass == b->bar.pass && meter_equal(a->bar.meter, b->bar.meter);
}

static void a_stretch_is_the_same_from_anywhere_within(void)
{
    for (int round = 0; round < 300; ++round) {
        written_by_chance(&song);
        make();
        check_case("song %d", round);
        for (int64_t tick = 0; tick < map.ticks;) {
            const SongStretch stretch = at(tick);
            int64_t until = 0;
            if (!CHECK(stretch.end > tick && stretch.end <= map.ticks)) {
                return;
            }
            const SongStretch middle = at((tick + stretch.end) / 2);
            const SongStretch last = at(stretch.end - 1);
            CHECK(alike(&stretch, &middle) && alike(&stretch, &last));
            CHECK_INT(song_beats_silent(&map, tick, &until),
                      !(stretch.controls[CONTROL_RIGHT_FOOT] > 0.0f));
            tick = stretch.end;
        }
    }
}

int main(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        ports[i] = control_rows[i].normal;
    }
    RUN(a_stop_has_its_limbs_off_between_its_ticks);
    RUN(a_fill_is_asked_for_in_the_bars_that_it_reaches_into);
    RUN(a_fill_reaches_into_as_many_bars_as_it_is_long);
    RUN(what_no_control_can_ask_for_is_told);
    RUN(a_level_that_moves_has_a_step_each_beat);
    RUN(a_stretch_is_the_same_from_anywhere_within);
    return tests_end();
}
