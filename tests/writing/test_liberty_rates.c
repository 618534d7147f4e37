// SPDX-License-Identifier: ISC
/* How often liberty changes what, against the table that liberty_bits.h names: a rate holds
   where it is within a third of the table's; what comes, where few places have room for it,
   from half of it on. */
#include "liberty_bits.h"

/* Beats are the first, fifth, ninth and thirteenth sixteenth; "e" and "a" every second. */
static const uint32_t beats = 0x1111U, e_and_a = 0xAAAAU, all_steps = 0xFFFFU;

typedef struct {
    double absent; /* of the strokes written */
    double added;  /* a bar */
} Rate;

static Rate rate_of(const int part, const uint32_t where)
{
    int written = 0, gone = 0, came = 0;
    for (int bar = 0; bar < BARS; ++bar) {
        const uint32_t was = played.written.struck[part] & where;
        const uint32_t is = played.bars[bar].struck[part] & where;
        written += bits_in(was);
        gone += bits_in(was & ~is);
        came += bits_in(is & ~was);
    }
    return (Rate){written ? (double)gone / written : 0.0, (double)came / BARS};
}

enum { WRITTEN = 2, ABSENT = 3, ADDED = 4 };

static void within_a_third(const double got, const double want)
{
    CHECK(got >= want * 2.0 / 3.0 && got <= want * 4.0 / 3.0);
}

/* "e" and "a": ghosts; those that became strokes are there. */
static void ghosts_go_as_often_as_measured(void)
{
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 0.5);
        const uint32_t where = played.written.struck[1] & e_and_a;
        int gone = 0;
        for (int bar = 0; bar < BARS; ++bar) {
            gone += bits_in(where & ~(played.bars[bar].struck[1] | played.bars[bar].struck[2]));
        }
        const double got = (double)gone / BARS / (where ? bits_in(where) : 1);
        check_case("groove %d: %.3f", which, got);
        if (where) {
            within_a_third(got, table("snare ghost", "e", ABSENT));
        }
    }
}

static void kicks_off_the_beats_go_as_often_as_measured(void)
{
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 0.5);
        const double got = rate_of(0, all_steps & ~beats).absent;
        const double want = (table("kick", "and", ABSENT) + table("kick", "e", ABSENT) +
                             table("kick", "a", ABSENT)) /
                            3.0;
        check_case("groove %d: %.3f", which, got);
        within_a_third(got, want);
        CHECK_NEAR(rate_of(0, beats).absent, 0.0, 0.0);
    }
}

static void hats_off_the_beats_go_as_often_as_measured(void)
{
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 0.5);
        const double got = rate_of(3, all_steps & ~beats).absent;
        const double want =
            (2.0 * table("hat or ride", "and", ABSENT) + table("hat or ride", "e", ABSENT) +
             table("hat or ride", "a", ABSENT)) /
            4.0;
        check_case("groove %d: %.3f", which, got);
        within_a_third(got, want);
    }
}

/* Kicks a sixteenth and an eighth before others, as many as of those that are added at all. */
static void kicks_come_before_others_as_often_as_measured(void)
{
    double written = 0.0, came = 0.0;
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 0.5);
        written += bits_in(played.written.struck[0]);
        came += rate_of(0, all_steps).added;
    }
    const double want = table("kick", "all", ADDED) / table("kick", "all", WRITTEN) *
                        (table("new kick", "1", ADDED) + table("new kick", "2", ADDED));
    check_case("%.3f of %.3f", came / written, want);
    CHECK(came / written >= want / 2.0 && came / written <= want * 4.0 / 3.0);
}

/* Places where a hand is free, of the twelve off the beats that the table counts. */
static void ghosts_come_as_often_as_measured(void)
{
    double came = 0.0;
    for (int which = 0; which < GROOVES; ++which) {
        play(which, 0.5);
        came += rate_of(1, all_steps & ~beats).added / GROOVES;
    }
    const double want = table("snare ghost", "e", ADDED) + table("snare ghost", "a", ADDED) +
                        table("snare ghost", "and", ADDED);
    check_case("%.3f a bar, measured %.3f", came, want);
    CHECK(came >= want / 2.0 && came <= want * 4.0 / 3.0);
}

static void hats_open_as_often_as_measured_and_before_backbeats_and_lines_alone(void)
{
    double opened = 0.0;
    uint32_t where = 0;
    for (int which = 0; which < 2; ++which) { /* eighths */
        play(which, 0.5);
        for (int bar = 0; bar < BARS; ++bar) {
            opened += bits_in(played.bars[bar].opened) / 2.0 / BARS;
            where |= played.bars[bar].opened;
        }
    }
    check_case("%.3f a bar", opened);
    within_a_third(opened, table("hat opened", "pair", ADDED));
    CHECK_INT(where, 1U << 2 | 1U << 10 | 1U << 14); /* 3, 11 and 15 */
}

/* On the one, bars of a phrase by their number; the phrase's own first is as written. */
static void crashes_come_as_often_as_measured(void)
{
    int crashes[2] = {0, 0}, bars[2] = {0, 0};
    play(0, 0.5);
    for (int bar = 0; bar < BARS; ++bar) {
        if (bar % FORM_BARS_MAX) {
            ++bars[bar % 2];
            crashes[bar % 2] += played.bars[bar].crash == 1;
            CHECK(played.bars[bar].crash <= 1);
        }
    }
    check_case("%d of %d even bars, %d of %d odd ones", crashes[0], bars[0], crashes[1], bars[1]);
    within_a_third((double)crashes[0] / bars[0],
                   table("crash on one", "multiples of 2 only", ADDED));
    within_a_third((double)crashes[1] / bars[1],
                   table("crash on one", "multiples of 1 only", ADDED));
}

/* A crash that a fill in the midst of a phrase leads to. */
static void a_crash_is_left_out_as_often_as_measured(void)
{
    static const Stroke roll = {0, LEFT_HAND, VOICE_SNARE, LEVEL_NORMAL, true};
    static const Figure fill = {.id = 1,
                                .kind = FIGURE_TURNAROUND,
                                .cycle_ticks = TICKS_PER_QUARTER,
                                .step_ticks = TICKS_PER_QUARTER,
                                .stroke_count = 1,
                                .strokes = &roll,
                                .plays_limb = {false, true, false, false}};
    int bars = 0, crashes = 0;
    write_groove(&grooves[0]);
    groove.turnaround = &fill;
    groove.crash_start = true;
    for (int bar = 2; bar < BARS; bar += 2) {
        const LibertyCase what = {&groove, 9, 0.5, 105.0};
        Selection selection = liberty_selection(&what);
        static StrokeList work, list;
        const int64_t ticks = meter_bar_ticks(groove.meter);
        selection.fill_every = 2;
        liberty_strokes(&(LibertyPlace){&selection, groove.meter, 105.0, 0}, bar * ticks,
                        (bar + 1) * ticks, &work, &list);
        const Bits bits = bits_of(&list, bar * ticks);
        bars += bar % FORM_BARS_MAX != 0;
        crashes += bar % FORM_BARS_MAX && bits.crash == 1;
        CHECK(bar % FORM_BARS_MAX || bits.crash == 1);
    }
    check_case("%d crashes in %d bars", crashes, bars);
    within_a_third(1.0 - (double)crashes / bars, table("crash left out", "pair", ADDED));
}

/* Strokes off the beats that are no ghosts: of each whether it goes, or is a ghost. */
static void the_snare_off_the_beats_goes_and_softens_as_often_as_measured(void)
{
    static const Written off = {"O.......O.......", "....O..o....O...", "o.o.o.o.o.o.o.o."};
    int gone = 0, soft = 0;
    write_groove(&off);
    const LibertyCase what = {&groove, 12, 0.5, 105.0};
    for (int bar = 1; bar < BARS; ++bar) {
        const int64_t ticks = meter_bar_ticks(groove.meter);
        const StrokeList list = liberty_bar_of(&what, bar);
        const Bits bits = bits_of(&list, bar * ticks);
        gone += !((bits.struck[1] | bits.struck[2]) & 1U << 7);
        soft += (bits.struck[1] & 1U << 7) != 0;
    }
    const double want = (table("snare", "and", ABSENT) * table("snare", "and", WRITTEN) +
                         table("snare", "e", ABSENT) * table("snare", "e", WRITTEN) +
                         table("snare", "a", ABSENT) * table("snare", "a", WRITTEN)) /
                        (table("snare", "and", WRITTEN) + table("snare", "e", WRITTEN) +
                         table("snare", "a", WRITTEN));
    const double off_beats = table("snare", "and", WRITTEN) + table("snare", "e", WRITTEN) +
                             table("snare", "a", WRITTEN);
    check_case("%d gone, %d soft of %d", gone, soft, BARS);
    within_a_third((double)gone / BARS, want);
    within_a_third((double)soft / BARS, table("stroke became a ghost", "pair", ADDED) / off_beats);
}

/* Three within a quarter note, the last two closer; and two that one kick could come before
   for either: one comes. */
static void kicks_that_run_stay_and_one_comes_at_a_place(void)
{
    static const Written runs = {"O.oo....O.......", "....O.......O...", "o.o.o.o.o.o.o.o."};
    static const Written pair = {"O.......Oo......", "....O.......O...", "o.o.o.o.o.o.o.o."};
    const int64_t ticks = 4 * TICKS_PER_QUARTER;
    write_groove(&runs);
    const LibertyCase what = {&groove, 21, 1.0, 105.0};
    for (int bar = 1; bar < BARS; ++bar) {
        const StrokeList list = liberty_bar_of(&what, bar);
        check_case("bar %d", bar);
        CHECK_INT(bits_of(&list, bar * ticks).struck[0] & 0xFU, 0xDU);
    }
    write_groove(&pair);
    int came = 0;
    for (int bar = 1; bar < BARS; ++bar) {
        const StrokeList list = liberty_bar_of(&what, bar);
        int here = 0;
        for (uint32_t i = 0; i < list.count; ++i) {
            here += list.strokes[i].voice == VOICE_KICK &&
                    list.strokes[i].tick == bar * ticks + 7 * (TICKS_PER_QUARTER / 4);
        }
        check_case("bar %d", bar);
        CHECK(here <= 1);
        came += here;
    }
    CHECK(came > 20);
}

int main(void)
{
    RUN(ghosts_go_as_often_as_measured);
    RUN(kicks_off_the_beats_go_as_often_as_measured);
    RUN(hats_off_the_beats_go_as_often_as_measured);
    RUN(kicks_come_before_others_as_often_as_measured);
    RUN(ghosts_come_as_often_as_measured);
    RUN(hats_open_as_often_as_measured_and_before_backbeats_and_lines_alone);
    RUN(crashes_come_as_often_as_measured);
    RUN(a_crash_is_left_out_as_often_as_measured);
    RUN(the_snare_off_the_beats_goes_and_softens_as_often_as_measured);
    RUN(kicks_that_run_stay_and_one_comes_at_a_place);
    return tests_end();
}
