// SPDX-License-Identifier: ISC
/* test_fills.c - where fills stand, stroke by stroke: each written place of the song is held
   against a count of its own. */
#include "fills_counted.h"

static void every_fill_ends_on_its_line_in_every_meter(void)
{
    static const uint32_t phrases[] = {1, 2, 3, 4, 7};
    static const uint32_t everies[] = {0, 1, 2, 3, 5};
    const Groove groove = two_letters();
    for (int i = 0; i < METERS * FIGURES * 5 * 5; ++i) {
        const Meter meter = meters[i % METERS];
        Selection selection = filled(&groove, i / METERS % FIGURES);
        selection.phrase_bars = phrases[i / METERS / FIGURES % 5];
        selection.fill_every = everies[i / METERS / FIGURES / 5];
        selection.realign = (Realign)(i % 3);
        check_case("fill %d in %g/%d, phrase %u, every %u, realign %d", i / METERS % FIGURES,
                   meter.beats_per_bar, meter.beat_unit, selection.phrase_bars,
                   selection.fill_every, (int)selection.realign);
        check_song(&selection, meter, TICKS_PER_QUARTER);
    }
}

static void beats_cut_a_fill_s_beginning(void)
{
    static const uint32_t beats[] = {1, 2, 3, 5, 16};
    const Groove groove = two_letters();
    for (int i = 0; i < METERS * FIGURES * 5 * 2; ++i) {
        const Meter meter = meters[i % METERS];
        Selection selection = filled(&groove, i / METERS % FIGURES);
        selection.fill_beats = beats[i / METERS / FIGURES % 5];
        selection.fill_every = i / METERS / FIGURES / 5 ? 3 : 0;
        check_case("fill %d in %g/%d, at most %u beats, every %u", i / METERS % FIGURES,
                   meter.beats_per_bar, meter.beat_unit, selection.fill_beats,
                   selection.fill_every);
        check_song(&selection, meter, 99991); /* a prime: falls on no grid */
    }
}

/* Silent limbs, the other foot, the Rhythm controls and a shuffle: a fill is never relaid. */
static void fills_obey_limbs_lead_foot_and_swing_and_are_never_relaid(void)
{
    const Groove groove = two_letters();
    for (int i = 0; i < METERS * FIGURES * 16; ++i) {
        const Meter meter = meters[i % METERS];
        const int how = i / METERS / FIGURES;
        Selection selection = filled(&groove, i / METERS % FIGURES);
        selection.left_foot_leads = how & 1;
        selection.swing.ratio = how & 2 ? 2.0 : 1.0;
        selection.limbs[how % LIMB_COUNT] = !(how & 4);
        selection.hands_regrid = how & 8 ? (Regrid){3, 5, 1} : (Regrid){0};
        selection.feet_regrid = how & 8 ? (Regrid){5, 7, -2} : (Regrid){0};
        selection.fill_beats = how & 4 ? 2 : 0;
        check_case("fill %d in %g/%d, way %d", i / METERS % FIGURES, meter.beats_per_bar,
                   meter.beat_unit, how);
        check_song(&selection, meter, 3 * TICKS_PER_QUARTER / 2);
    }
}

/* The looped bar plays what it plays in the song, its piece of a fill included. */
static void a_looped_bar_has_its_piece_of_a_fill(void)
{
    static StrokeList want, got;
    const Groove groove = two_letters();
    for (int i = 0; i < METERS * FIGURES * 3 * 8; ++i) {
        const Meter meter = meters[i % METERS];
        const int64_t bar = meter_bar_ticks(meter);
        const int looped = i / METERS / FIGURES / 3;
        Selection whole = filled(&groove, i / METERS % FIGURES);
        whole.fill_every = (uint32_t[]){0, 3, 8}[i / METERS / FIGURES % 3];
        whole.phrase_bars = 8;
        Selection loop = whole;
        loop.loop_bar = (uint32_t)looped + 1;
        groove_strokes(&whole, meter, looped * bar, (looped + 1) * bar, &want);
        for (int index = 0; index < SONG_BARS; ++index) {
            groove_strokes(&loop, meter, index * bar, (index + 1) * bar, &got);
            check_case("fill %d in %g/%d, every %u, bar %d looped, bar %d", i / METERS % FIGURES,
                       meter.beats_per_bar, meter.beat_unit, whole.fill_every, looped, index);
            CHECK(stroke_lists_alike(&want, &got, (index - looped) * bar));
        }
    }
}

static void without_a_turnaround_nothing_is_a_fill(void)
{
    static StrokeList want, got;
    const Groove groove = two_letters();
    const Selection plain = selection_of_groove(&groove);
    Selection asked = plain;
    asked.fill_every = 2;
    asked.fill_beats = 3;
    asked.fill_bar = 3;
    const int64_t end = 5 * meter_bar_ticks(meters[0]);
    groove_strokes(&plain, meters[0], 0, end, &want);
    groove_strokes(&asked, meters[0], 0, end, &got);
    CHECK(want.count > 0 && stroke_lists_alike(&want, &got, 0));
}

/* ---- What is told of bars */

static void a_bar_tells_where_in_it_the_fill_begins(void)
{
    const Groove groove = two_letters();
    for (int i = 0; i < METERS * FIGURES * SONG_BARS; ++i) {
        const Meter meter = meters[i % METERS];
        const int64_t bar = meter_bar_ticks(meter);
        const int64_t index = i / METERS / FIGURES;
        Selection selection = filled(&groove, i / METERS % FIGURES);
        selection.fill_every = i % 2 ? 3 : 0;
        selection.fill_beats = i % 3 ? 0 : 5;
        int64_t begin = 0; /* the first tick of the bar in a fill, by halving: a fill goes on */
        int64_t plain = -1;
        for (int64_t apart = bar; apart; apart /= 2) {
            while (plain + apart < bar &&
                   !left_of_fill(&selection, meter, index * bar + plain + apart)) {
                plain += apart;
            }
        }
        begin = plain + 1;
        const BarParts parts = groove_bar(&selection, meter, index);
        check_case("fill %d in %g/%d, bar %d", i / METERS % FIGURES, meter.beats_per_bar,
                   meter.beat_unit, (int)index);
        CHECK(parts.hands == groove.parts[parts.part].hands);
        CHECK(parts.feet == groove.parts[parts.part].feet);
        CHECK((parts.fill != NULL) == (begin < bar));
        if (parts.fill) {
            const int64_t left = left_of_fill(&selection, meter, index * bar + begin);
            CHECK_INT(parts.fill_begin, begin);
            CHECK_INT(parts.fill_end, begin + left);
        }
    }
}

/* Until the fill that of the feet's sixteenths, in it that of its own feet. */
static void the_feet_s_grid_changes_where_a_fill_with_feet_begins(void)
{
    const Groove groove = two_letters();
    for (int fill = 0; fill < FIGURES; ++fill) {
        Selection selection = filled(&groove, fill);
        const Figure* const figure = &fills[fill].figure;
        selection.fill_beats = 1;
        selection.phrase_bars = 3; /* of the letters A, B, A */
        for (int m = 0; m < METERS; ++m) {
            const int64_t bar = meter_bar_ticks(meters[m]);
            const int64_t length =
                least(figure->cycle_ticks, 4 * TICKS_PER_QUARTER / meters[m].beat_unit);
            const StepGrid before = groove_feet_grid(&selection, meters[m], 3 * bar - length - 1);
            const StepGrid in = groove_feet_grid(&selection, meters[m], 3 * bar - length);
            check_case("fill %d in %g/%d", fill, meters[m].beats_per_bar, meters[m].beat_unit);
            CHECK_INT(before.step, TICKS_PER_QUARTER / 4);
            CHECK_INT(before.until, figure_has_feet(figure) ? 3 * bar - length : 3 * bar);
            CHECK_INT(in.step,
                      figure_has_feet(figure) ? figure->step_ticks : TICKS_PER_QUARTER / 4);
            CHECK(!figure_has_feet(figure) || floor_mod(3 * bar - in.origin, in.step) == 0);
            CHECK_INT(in.until, 3 * bar);
        }
    }
}

int main(void)
{
    make_figures();
    RUN(every_fill_ends_on_its_line_in_every_meter);
    RUN(beats_cut_a_fill_s_beginning);
    RUN(fills_obey_limbs_lead_foot_and_swing_and_are_never_relaid);
    RUN(a_looped_bar_has_its_piece_of_a_fill);
    RUN(without_a_turnaround_nothing_is_a_fill);
    RUN(a_bar_tells_where_in_it_the_fill_begins);
    RUN(the_feet_s_grid_changes_where_a_fill_with_feet_begins);
    return tests_end();
}
