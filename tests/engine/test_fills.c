// SPDX-License-Identifier: ISC
/* test_fills.c - where fills stand, stroke by stroke: each written place of the song is held
   against a count of its own, from what a musician is told of fills: a fill ends where its
   phrase ends, or each so many bars counted from bar 0; it is at most as long as its figure
   lasts, as the bars it is written for, as so many beats, as from line to line; its end
   stands on the line; before it hands and feet go on as if there were none. */
#include "../help/check.h"
#include "library.h"

#include <stdio.h>

static const Meter meters[] = {{4.0, 4}, {3.0, 4},  {6.0, 8}, {7.0, 8}, {5.0, 4},
                               {9.0, 8}, {12.0, 8}, {2.0, 2}, {7.0, 16}};
enum { METERS = sizeof meters / sizeof *meters, FIGURES = 6, SONG_BARS = 13, FOUND_MAX = 6000 };

static OwnFigure ride, snare, threes, waltz, fills[FIGURES];

/* Figures for whole bars and such as roll; fills of a beat to five bars, with feet or without,
   one with a pedal, one in triplets. */
static void make_figures(void)
{
    static const uint32_t bars[FIGURES] = {1, 0, 2, 0, 4, 0};
    ride = snare = threes = waltz = (OwnFigure){0};
    add_line(&ride, RIGHT_HAND, VOICE_RIDE, 2, 1, "Oogoo.oO");
    ride.figure.bars = 1;
    add_line(&snare, LEFT_HAND, VOICE_SNARE, 4, 1, "..g.Og.");
    add_line(&threes, RIGHT_FOOT, VOICE_KICK, 4, 1, "Oo.");
    add_line(&threes, LEFT_FOOT, VOICE_KICK, 4, 1, "..o");
    add_line(&waltz, RIGHT_FOOT, VOICE_KICK, 2, 1, "O.o.o.O.o.oo");
    waltz.figure.bars = 2;
    for (int i = 0; i < FIGURES; ++i) {
        fills[i] = (OwnFigure){0};
        fills[i].figure.bars = bars[i];
    }
    add_line(&fills[0], LEFT_HAND, VOICE_TOM_HIGH, 4, 1, "Oogo.ogoOogogogo");
    add_line(&fills[1], RIGHT_HAND, VOICE_TOM_FLOOR, 4, 1, "Oo.O");
    add_line(&fills[2], RIGHT_HAND, VOICE_CHINA, 2, 1, "O.o.oo..OoO.ooOO");
    add_line(&fills[2], RIGHT_FOOT, VOICE_KICK, 4, 1, "O..o..o..O..o..oO..o..o..O..o..o");
    add_line(&fills[3], LEFT_HAND, VOICE_SNARE, 3, 1, "OooOoogggOoOoooO.ooo.oOo.gggoooO");
    add_line(&fills[3], LEFT_FOOT, VOICE_HAT_PEDAL, 1, 1, "oooooooooo");
    add_line(&fills[4], RIGHT_HAND, VOICE_TOM_MID, 1, 1, "OogoOo.oOogoOo.g");
    add_line(&fills[4], LEFT_FOOT, VOICE_KICK, 2, 1, "O.o.o.ogO.o.o.ogO.o.o.ogO.o.oooo");
    add_line(&fills[5], RIGHT_HAND, VOICE_TOM_LOW, 1, 1, "OogoOo.oOogoOo.gOogoOoogO");
}

static Groove two_letters(void)
{
    Groove groove = one_letter(&ride.figure, &threes.figure, meters[0], 4);
    groove.parts[1] = (Part){.hands = &snare.figure, .feet = &waltz.figure};
    groove.form[1] = groove.form[3] = 1;
    return groove;
}

/* ---- The count */

typedef struct {
    uint32_t count;
    Stroke strokes[FOUND_MAX];
} Strokes;

static int64_t least(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* Ticks from a place to the fill's line if it lies in the fill, else 0.  `every`: bars. */
static int64_t left_of_fill(const Selection* const selection, const Meter meter, const int64_t tick)
{
    const Figure* const fill = selection->turnaround;
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t every = selection->fill_every ? selection->fill_every : selection->phrase_bars;
    int64_t line = 0;
    while (line <= tick) {
        line += every * bar; /* the next line of all that there are */
    }
    int64_t length = least(fill->cycle_ticks, every * bar);
    length = least(length, (fill->bars ? fill->bars : 4) * bar);
    if (selection->fill_beats) {
        length = least(length, selection->fill_beats * 4 * TICKS_PER_QUARTER / meter.beat_unit);
    }
    return line - tick <= length ? line - tick : 0;
}

/* A shuffle of two to one moves the middle of a quarter note to two thirds of it; where the
   bar has no whole quarter left nothing moves. */
static int64_t shuffled(const Stroke stroke, const int64_t bar)
{
    const int64_t q = TICKS_PER_QUARTER;
    const int64_t in_bar = stroke.tick % bar;
    const int64_t in_pair = in_bar % q;
    if (!stroke.bends || in_bar - in_pair + q > bar) {
        return stroke.tick;
    }
    const int64_t moved = in_pair < q / 2 ? in_pair * 4 / 3 : q * 2 / 3 + (in_pair - q / 2) * 2 / 3;
    return stroke.tick - in_pair + moved;
}

static void put(Strokes* const strokes, const Stroke stroke)
{
    strokes->strokes[strokes->count++] = stroke;
}

/* What the groove plays where no fill is: as if there were none. */
static void count_groove(const Selection* const selection, const Meter meter,
                         Strokes* const expected)
{
    static StrokeList list;
    const int64_t bar = meter_bar_ticks(meter);
    const Figure* const fill = selection->turnaround;
    Selection without = *selection;
    without.turnaround = NULL;
    without.swing.ratio = 1.0;
    for (int index = 0; index < SONG_BARS; ++index) {
        groove_strokes(&without, meter, index * bar, (index + 1) * bar, &list);
        for (uint32_t i = 0; i < list.count; ++i) {
            const Stroke stroke = list.strokes[i];
            const bool is_left = !limb_is_foot(stroke.limb) || figure_has_feet(fill);
            if (!is_left || !left_of_fill(selection, meter, stroke.tick)) {
                put(expected, stroke);
            }
        }
    }
}

/* A fill's stroke stands as far before the line as it is written before the fill's end. */
static void count_fills(const Selection* const selection, const Meter meter,
                        Strokes* const expected)
{
    const Figure* const fill = selection->turnaround;
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t every = selection->fill_every ? selection->fill_every : selection->phrase_bars;
    for (int64_t line = every * bar; line - every * bar < SONG_BARS * bar; line += every * bar) {
        for (uint32_t i = 0; i < fill->stroke_count; ++i) {
            Stroke stroke = fill->strokes[i];
            stroke.tick += line - fill->cycle_ticks;
            const bool is_mirrored =
                selection->left_foot_leads && limb_is_foot(stroke.limb) && !fill->plays_pedal;
            stroke.limb = is_mirrored ? RIGHT_FOOT + LEFT_FOOT - stroke.limb : stroke.limb;
            const bool is_its = stroke.tick >= 0 && stroke.tick < SONG_BARS * bar &&
                                left_of_fill(selection, meter, stroke.tick) == line - stroke.tick;
            if (is_its && selection->limbs[stroke.limb]) {
                put(expected, stroke);
            }
        }
    }
}

static void count_song(const Selection* const selection, const Meter meter, Strokes* const expected)
{
    expected->count = 0;
    count_groove(selection, meter, expected);
    count_fills(selection, meter, expected);
    for (uint32_t i = 0; selection->swing.ratio > 1.0 && i < expected->count; ++i) {
        expected->strokes[i].tick = shuffled(expected->strokes[i], meter_bar_ticks(meter));
    }
    strokes_sort(expected->strokes, expected->count);
}

/* ---- Against it */

static Strokes expected, played;

/* In spans of any length. */
static void play_song(const Selection* const selection, const Meter meter, const int64_t span)
{
    static StrokeList list;
    const int64_t end = SONG_BARS * meter_bar_ticks(meter);
    played.count = 0;
    for (int64_t at = 0; at < end; at += span) {
        groove_strokes(selection, meter, at, least(at + span, end), &list);
        CHECK_INT(list.dropped, 0);
        for (uint32_t i = 0; i < list.count; ++i) {
            put(&played, list.strokes[i]);
        }
    }
}

static bool is_same(const Stroke a, const Stroke b)
{
    return a.tick == b.tick && a.limb == b.limb && a.voice == b.voice && a.level == b.level;
}

static void check_song(const Selection* const selection, const Meter meter, const int64_t span)
{
    count_song(selection, meter, &expected);
    play_song(selection, meter, span);
    CHECK(expected.count > 0);
    CHECK_INT(played.count, expected.count);
    for (uint32_t i = 0; i < expected.count && i < played.count; ++i) {
        if (!CHECK(is_same(played.strokes[i], expected.strokes[i]))) {
            printf("# stroke %u: got tick %lld limb %d voice %d, want tick %lld limb %d voice %d\n",
                   i, (long long)played.strokes[i].tick, played.strokes[i].limb,
                   played.strokes[i].voice, (long long)expected.strokes[i].tick,
                   expected.strokes[i].limb, expected.strokes[i].voice);
            return;
        }
    }
}

static Selection filled(const Groove* const groove, const int fill)
{
    Selection selection = play_as_written(groove);
    selection.turnaround = &fills[fill].figure;
    return selection;
}

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
    const Selection plain = play_as_written(&groove);
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

/* ---- Crashes */

/* As many crashes of the right hand as bars begin with: a set of bits. */
static unsigned crashes(const Selection* const selection, const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    unsigned found = 0;
    play_song(selection, meter, bar);
    for (uint32_t i = 0; i < played.count; ++i) {
        const Stroke stroke = played.strokes[i];
        if (stroke.voice == VOICE_CRASH) {
            CHECK(stroke.tick % bar == 0 && stroke.limb == RIGHT_HAND);
            CHECK(i + 1 == played.count || played.strokes[i + 1].tick > stroke.tick ||
                  played.strokes[i + 1].limb != RIGHT_HAND);
            found |= 1U << (stroke.tick / bar);
        }
    }
    return found;
}

static unsigned each(const int every, const int first)
{
    unsigned bars = 0;
    for (int bar = first; every && bar < SONG_BARS; bar += every) {
        bars |= 1U << bar;
    }
    return bars;
}

static void crashes_fall_where_they_are_asked_for(void)
{
    Groove groove = two_letters();
    for (int i = 0; i < METERS * 4 * 2 * 3 * 2; ++i) {
        const Meter meter = meters[i % METERS];
        const int every = (int[]){0, 3, 6}[i / METERS / 8 % 3];
        const bool has_fills = i / METERS / 24;
        groove.crash_start = i / METERS / 4 % 2;
        Selection selection = filled(&groove, 1);
        selection.crash = (CrashWhen)(i / METERS % 4);
        selection.fill_every = (uint32_t)every;
        selection.turnaround = has_fills ? selection.turnaround : NULL;
        const unsigned lines = each(4, 0) | (has_fills ? each(every, every) : 0);
        const unsigned want[] = {groove.crash_start ? lines : 0, 0, lines, 1};
        check_case("crash %d, written %d, every %d, fills %d, %g/%d", (int)selection.crash,
                   groove.crash_start, every, has_fills, meter.beats_per_bar, meter.beat_unit);
        CHECK_INT(crashes(&selection, meter), want[selection.crash]);
        selection.limbs[RIGHT_HAND] = false;
        CHECK_INT(crashes(&selection, meter), 0);
    }
}

/* Four bars of fill end on bar 6; the phrase begins anew on bar 4. */
static void no_crash_falls_into_the_midst_of_a_fill(void)
{
    const Groove groove = two_letters();
    Selection selection = filled(&groove, 4);
    selection.fill_every = 6;
    selection.crash = CRASH_PHRASE;
    CHECK_INT(crashes(&selection, meters[0]), each(6, 0) | 1U << 8);
}

static void one_more_fill_ends_where_it_was_asked_for(void)
{
    const Groove groove = two_letters();
    static StrokeList want, got;
    for (int m = 0; m < METERS; ++m) {
        const int64_t bar = meter_bar_ticks(meters[m]);
        const Selection plain = filled(&groove, 0);
        Selection asked = plain;
        asked.fill_bar = 7;
        asked.crash = CRASH_PHRASE;
        const int64_t length = least(fills[0].figure.cycle_ticks, bar);
        check_case("%g/%d", meters[m].beats_per_bar, meters[m].beat_unit);
        groove_strokes(&plain, meters[m], bar, 7 * bar - length, &want);
        Selection uncrashed = asked;
        uncrashed.crash = CRASH_NEVER;
        groove_strokes(&uncrashed, meters[m], bar, 7 * bar - length, &got);
        CHECK(stroke_lists_alike(&want, &got, 0));
        groove_strokes(&plain, meters[m], 4 * bar - length, 4 * bar, &want);
        groove_strokes(&asked, meters[m], 7 * bar - length, 7 * bar, &got);
        uint32_t hands[2] = {0, 0};
        for (uint32_t i = 0; i < want.count; ++i) {
            hands[0] += !limb_is_foot(want.strokes[i].limb);
        }
        for (uint32_t i = 0; i < got.count; ++i) {
            hands[1] += got.strokes[i].voice == VOICE_TOM_HIGH;
        }
        CHECK_INT(hands[1], hands[0]);
        CHECK_INT(crashes(&asked, meters[m]), each(4, 0) | 1U << 7);
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
    RUN(crashes_fall_where_they_are_asked_for);
    RUN(no_crash_falls_into_the_midst_of_a_fill);
    RUN(one_more_fill_ends_where_it_was_asked_for);
    return tests_end();
}
