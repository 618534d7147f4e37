// SPDX-License-Identifier: ISC
/* test_song_time.c - tempo and level along a song against closed forms.  A ramp in a straight
   line over n quarter notes from a to b lasts 60 n ln(b / a) / (b - a) seconds: the integral of
   1 / z is ln z (NIST Digital Library of Mathematical Functions, 4.10.1).  Steps at their
   middle's tempo are the midpoint rule: off by at most n h^2 / 24 of the second derivative
   (DLMF 3.5(i)).  A final ritard is (1 + (w^3 - 1) x)^(1/3) of its first tempo (Friberg and
   Sundberg, J. Acoust. Soc. Am. 105, 1999), so it lasts 3/2 (w^2 - 1) / (w^3 - 1) times what it
   would without. */
#include "../../plugin/engine/song/song_time.h"
#include "../help/check.h"
#include "written.h"

#include <math.h>

static Song song; /* too large for a stack */
static SongMap map;

static SongSection* one_section(const uint32_t bars, const double tempo, const double to)
{
    written_begin(&song, 1);
    SongSection* const section = written_add(&song, "A", bars, 1.0f);
    section->tempo = tempo;
    section->tempo_to = to;
    return section;
}

static void make(void)
{
    song_map_make(&map, &song, &written_library);
}

static void a_ramp_lasts_as_long_as_its_integral(void)
{
    static const double ramps[][3] = {{4, 140, 152}, {1, 60, 240}, {16, 200, 80}, {999, 20, 400}};
    for (int i = 0; i < 4; ++i) {
        const double n = 4.0 * ramps[i][0], a = ramps[i][1], b = ramps[i][2];
        one_section((uint32_t)ramps[i][0], a, b);
        make();
        const double slope = (b - a) / n, least = fmin(a, b), h = 1.0 / SONG_STEPS_A_QUARTER;
        const double off = 60.0 * n * h * h / 24.0 * 2.0 * slope * slope / pow(least, 3.0);
        check_case("%g to %g in %g quarters", a, b, n);
        CHECK_NEAR(song_time_seconds(&map, 0, map.ticks), 60.0 * n * log(b / a) / (b - a),
                   off + 1e-9);
        CHECK_NEAR(song_time_tempo(&map, 0), a, 0);
        CHECK_NEAR(song_time_tempo(&map, map.ticks / 2), (a + b) / 2.0, 1e-9);
    }
}

static void a_ramp_over_several_meters_is_one_line(void)
{
    SongSection* const section = one_section(4, 100.0, 129.0);
    section->meter_count = 4;
    for (int i = 0; i < 4; ++i) {
        section->meters[i] = (Meter){i == 3 ? 8.0 : 7.0, 8};
    }
    make();
    for (int eighth = 0; eighth <= 28; ++eighth) { /* 29 of them, one a minute each */
        CHECK_NEAR(song_time_tempo(&map, eighth * (int64_t)EIGHTH), 100.0 + eighth, 1e-9);
    }
}

static void passes_of_a_section_share_its_ramp(void)
{
    one_section(2, 100.0, 140.0)->times = 2;
    make();
    CHECK_NEAR(song_time_tempo(&map, map.rows[0].pass_ticks), 120.0, 1e-9);
}

static void a_ritardando_is_the_published_curve(void)
{
    SongSection* const section = one_section(4, 150.0, 0.0);
    section->ritard_beats = 8;
    section->ritard_to = 60.0;
    make();
    const int64_t begin = 8 * TICKS_PER_QUARTER;
    const double w = 60.0 / 150.0;
    for (int i = 0; i <= 16; ++i) {
        const double x = i / 16.0;
        check_case("share %g", x);
        CHECK_NEAR(song_time_tempo(&map, begin + i * (int64_t)EIGHTH),
                   150.0 * cbrt(1.0 + (w * w * w - 1.0) * x), 1e-9);
    }
    CHECK_NEAR(song_time_tempo(&map, begin - 1), 150.0, 1e-12);
    const double straight = 8.0 * 60.0 / 150.0, h = 1.0 / SONG_STEPS_A_QUARTER;
    const double bend = 60.0 / 150.0 / 64.0 * 4.0 / 9.0 * pow(1.0 - w * w * w, 2.0) * pow(w, -7.0);
    CHECK_NEAR(song_time_seconds(&map, 0, begin), straight, 1e-9);
    CHECK_NEAR(song_time_seconds(&map, begin, map.ticks),
               straight * 1.5 * (w * w - 1.0) / (w * w * w - 1.0), 8.0 * h * h / 24.0 * bend);
}

static void a_ramp_arrives_where_its_ritardando_begins(void)
{
    one_section(4, 100.0, 140.0)->ritard_beats = 4;
    make();
    CHECK_NEAR(song_time_tempo(&map, 6 * TICKS_PER_QUARTER), 120.0, 1e-9);
    CHECK_NEAR(song_time_tempo(&map, 12 * TICKS_PER_QUARTER), 140.0, 1e-9);
    CHECK_NEAR(song_time_tempo(&map, map.ticks), 140.0 * SONG_RITARD, 1e-9);
}

static void a_tempo_that_stays_is_one_step(void)
{
    one_section(40, 133.0, 0.0);
    make();
    const SongStep step = song_time_step(&map, 77);
    CHECK_INT(step.begin, 0);
    CHECK_INT(step.end, map.ticks);
    CHECK_NEAR(step.tempo, 133.0, 0);
}

static void a_crescendo_goes_in_a_straight_line(void)
{
    SongSection* const section = one_section(8, 120.0, 0.0);
    section->level = 60.0;
    section->level_to = 92.0;
    make();
    for (int bar = 0; bar <= 8; ++bar) {
        CHECK_NEAR(song_time_level(&map, bar * 4 * TICKS_PER_QUARTER), 60.0 + 4.0 * bar, 1e-9);
    }
}

/* Each tick is in one step, and no step is faster or slower than what is asked for around it. */
static void steps_follow_one_another(void)
{
    for (int round = 0; round < 500; ++round) {
        written_by_chance(&song);
        make();
        check_case("song %d", round);
        for (int64_t tick = 0; tick < map.ticks;) {
            const SongStep step = song_time_step(&map, tick);
            const double a = song_time_tempo(&map, step.begin);
            const double b = song_time_tempo(&map, step.end - 1);
            CHECK_INT(step.begin, tick);
            if (!CHECK(step.end > tick && step.end <= map.ticks)) {
                return;
            }
            CHECK(step.tempo >= fmin(a, b) - 1e-3 && step.tempo <= fmax(a, b) + 1e-3);
            const SongStep again = song_time_step(&map, (step.begin + step.end) / 2);
            CHECK_INT(again.begin, step.begin);
            tick = step.end;
        }
    }
}

int main(void)
{
    RUN(a_ramp_lasts_as_long_as_its_integral);
    RUN(a_ramp_over_several_meters_is_one_line);
    RUN(passes_of_a_section_share_its_ramp);
    RUN(a_ritardando_is_the_published_curve);
    RUN(a_ramp_arrives_where_its_ritardando_begins);
    RUN(a_tempo_that_stays_is_one_step);
    RUN(a_crescendo_goes_in_a_straight_line);
    RUN(steps_follow_one_another);
    return tests_end();
}
