// SPDX-License-Identifier: ISC
/* test_click.c - clicks against exact fractions of a quarter note, gaps against
   patterns written out, and the feet's own grid against what the feet play. */
#include "../../plugin/engine/play/click.h"
#include "../help/check.h"
#include "../rhythm/fraction.h"

enum { BARS_BEFORE = 2, BARS_AFTER = 4, METERS = 5, GRIDS = 4, FIRST_CUT_SEED = 7 };

static const Meter meters[METERS] = {{4, 4}, {7, 8}, {5, 4}, {12, 8}, {3, 2}};

static ClickSettings always(const ClickGrid grid)
{
    return (ClickSettings){.when = CLICK_ALWAYS, .grid = grid, .gap_play = 1, .level = 90};
}

static const Selection no_groove = {.phrase_bars = 1};

/* A click so many steps into the bar: step * bar / steps quarters from bar 0. */
static void check_clicks_of_bar(const ClickList* const list, uint32_t* const next,
                                const int64_t bar, const Fraction length, const Fraction step)
{
    for (int64_t i = 0; i * step.above * length.below < length.above * step.below; ++i) {
        const Fraction place =
            fraction(bar * length.above * step.below + i * step.above * length.below,
                     length.below * step.below);
        check_case("bar %d, step %d", (int)bar, (int)i);
        CHECK(*next < list->count);
        CHECK_PLACE(list->clicks[*next].tick, place);
        CHECK_INT(list->clicks[*next].is_accent, i == 0);
        CHECK(!list->clicks[*next].is_silent);
        ++*next;
    }
}

/* Beat units, and eighths, triplets, sixteenths as parts of a quarter. */
static Fraction step_of(const ClickGrid grid, const Meter meter)
{
    const Fraction steps[GRIDS] = {{4, meter.beat_unit}, {1, 2}, {1, 3}, {1, 4}};
    return steps[grid];
}

static void clicks_stand_on_their_fraction_of_the_bar(void)
{
    ClickList list;
    for (int m = 0; m < METERS; ++m) {
        const int64_t bar_ticks = meter_bar_ticks(meters[m]);
        const Fraction length = fraction((int64_t)meters[m].beats_per_bar * 4, meters[m].beat_unit);
        for (int grid = 0; grid < GRIDS; ++grid) {
            uint32_t next = 0;
            click_strokes(&no_groove, always((ClickGrid)grid), meters[m], -BARS_BEFORE * bar_ticks,
                          BARS_AFTER * bar_ticks, &list);
            for (int64_t bar = -BARS_BEFORE; bar < BARS_AFTER; ++bar) {
                check_clicks_of_bar(&list, &next, bar, length, step_of((ClickGrid)grid, meters[m]));
            }
            CHECK_INT(list.count, next);
            CHECK_INT(list.dropped, 0);
        }
    }
}

static int64_t random_length(uint32_t* const state)
{
    *state = *state * 1664525U + 1013904223U; /* Knuth's, as in Numerical Recipes; from memory */
    return 1 + (int64_t)((*state >> 8) % 900000);
}

static void any_cut_gives_the_same_clicks(void)
{
    ClickList whole, part;
    uint32_t state = FIRST_CUT_SEED;
    const int64_t end = 6 * meter_bar_ticks(meters[1]);
    click_strokes(&no_groove, always(CLICK_TRIPLETS), meters[1], -end, end, &whole);
    uint32_t next = 0;
    for (int64_t at = -end; at < end;) {
        const int64_t to = at + random_length(&state);
        click_strokes(&no_groove, always(CLICK_TRIPLETS), meters[1], at, to < end ? to : end,
                      &part);
        for (uint32_t i = 0; i < part.count; ++i, ++next) {
            CHECK(next < whole.count);
            CHECK_INT(part.clicks[i].tick, whole.clicks[next].tick);
            CHECK_INT(part.clicks[i].is_accent, whole.clicks[next].is_accent);
        }
        at = to;
    }
    CHECK_INT(next, whole.count);
}

/* C a bar with clicks, . one without, from bar 0 on. */
static void check_gap(const uint32_t play, const uint32_t rest, const char* const pattern)
{
    ClickSettings settings = always(CLICK_BEATS);
    settings.gap_play = play;
    settings.gap_rest = rest;
    ClickList list;
    for (int64_t bar = 0; pattern[bar]; ++bar) {
        const GapReach reach = click_gap(settings, bar);
        const int64_t begin = bar * meter_bar_ticks(meters[0]);
        click_strokes(&no_groove, settings, meters[0], begin, begin + 1, &list);
        check_case("%u with, %u without, bar %d", play, rest, (int)bar);
        CHECK_INT(list.clicks[0].is_silent, pattern[bar] == '.');
        CHECK_INT(reach.is_silent, pattern[bar] == '.');
        const char* const same = pattern[bar] == '.' ? "." : "C";
        const int64_t left = (int64_t)strspn(pattern + bar, same);
        if (pattern[bar + left]) {
            CHECK_INT(reach.bars_left, left);
        }
    }
}

static void gaps_come_round_by_the_bar(void)
{
    check_gap(2, 1, "CC.CC.CC.CC.");
    check_gap(1, 1, "C.C.C.C.");
    check_gap(4, 4, "CCCC....CCCC....C");
    check_gap(1, 3, "C...C...C...");
    check_gap(3, 0, "CCCCCCCCCCCC");
    CHECK_INT(click_gap(always(CLICK_BEATS), 5).bars_left, 0);
}

static void the_gap_never_silences_the_count_in(void)
{
    ClickSettings settings = always(CLICK_BEATS);
    settings.gap_play = 3;
    settings.gap_rest = 9;
    for (int64_t bar = -9; bar < 0; ++bar) {
        CHECK(!click_gap(settings, bar).is_silent);
        CHECK_INT(click_gap(settings, bar).bars_left, 3 - bar);
    }
}

static void in_the_count_in_only_it_ends_at_bar_0(void)
{
    ClickSettings settings = always(CLICK_BEATS);
    settings.when = CLICK_COUNT_IN;
    const int64_t bar = meter_bar_ticks(meters[0]);
    ClickList list;
    click_strokes(&no_groove, settings, meters[0], -2 * bar, 2 * bar, &list);
    CHECK_INT(list.count, 8);
    CHECK_INT(list.clicks[7].tick, -TICKS_PER_QUARTER);
    click_strokes(&no_groove, settings, meters[0], 0, bar, &list);
    CHECK_INT(list.count, 0);
    settings.when = CLICK_OFF;
    click_strokes(&no_groove, settings, meters[0], -bar, bar, &list);
    CHECK_INT(list.count, 0);
}

/* Every stroke of feet that play on all their steps is a click, and the other way
   round but for bar lines. */
static void check_feet(const int grid, const int over, const char* const steps, const Meter meter,
                       const uint32_t bars)
{
    static OwnFigure feet;
    static StrokeList strokes;
    static ClickList clicks;
    feet = (OwnFigure){0};
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, grid, over, steps);
    feet.figure.bars = bars;
    const Groove groove = one_letter(NULL, &feet.figure, meter, 4);
    const Selection selection = selection_of_groove(&groove);
    const int64_t end = 8 * meter_bar_ticks(meter);
    uint32_t found = 0;
    groove_strokes(&selection, meter, 0, end, &strokes);
    click_strokes(&selection, always(CLICK_FEET), meter, 0, end, &clicks);
    check_case("%d over %d, %s", grid, over, steps);
    for (uint32_t i = 0; i < clicks.count; ++i) {
        const bool meets =
            found < strokes.count && strokes.strokes[found].tick == clicks.clicks[i].tick;
        CHECK(meets || clicks.clicks[i].is_accent);
        found += meets;
    }
    CHECK_INT(found, strokes.count);
    CHECK_INT(clicks.dropped, 0);
}

static void the_feet_s_own_grid_is_where_their_steps_are(void)
{
    check_feet(5, 1, "ooooo", meters[0], 0);
    check_feet(5, 4, "ooooo", meters[0], 1);
    check_feet(3, 1, "ooo", meters[1], 0); /* rolls over bar lines between its steps */
    check_feet(4, 1, "oooo", meters[1], 0);
    check_feet(7, 4, "ooooooo", meters[0], 1);
}

static void feet_on_another_grid_are_clicked_on_it(void)
{
    static OwnFigure feet;
    ClickList clicks;
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "o.o.");
    const Groove groove = one_letter(NULL, &feet.figure, meters[0], 4);
    Selection selection = selection_of_groove(&groove);
    selection.feet_regrid.grid = 6;
    click_strokes(&selection, always(CLICK_FEET), meters[0], 0, meter_bar_ticks(meters[0]),
                  &clicks);
    CHECK_INT(clicks.count, 24);
    CHECK_INT(clicks.clicks[1].tick, TICKS_PER_QUARTER / 6);
}

static void feet_too_fine_to_count_by_and_no_feet_are_clicked_on_beats(void)
{
    static OwnFigure feet;
    ClickList clicks;
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "o.o.");
    add_line(&feet, LEFT_FOOT, VOICE_KICK, 3, 1, ".oo");
    const Groove groove = one_letter(NULL, &feet.figure, meters[0], 4);
    const Selection selection = selection_of_groove(&groove);
    const int64_t bar = meter_bar_ticks(meters[0]);
    click_strokes(&selection, always(CLICK_FEET), meters[0], 0, bar, &clicks);
    CHECK_INT(clicks.count, 4);
    click_strokes(&no_groove, always(CLICK_FEET), meters[0], 0, bar, &clicks);
    CHECK_INT(clicks.count, 4);
}

static void swing_and_feel_leave_the_click_where_it_is(void)
{
    static OwnFigure feet;
    ClickList clicks;
    add_line(&feet, RIGHT_FOOT, VOICE_KICK, 4, 1, "oooo");
    const Groove groove = one_letter(NULL, &feet.figure, meters[0], 4);
    Selection selection = selection_of_groove(&groove);
    selection.swing.ratio = 3.0;
    selection.feel.looseness_ms = 30.0;
    click_strokes(&selection, always(CLICK_EIGHTHS), meters[0], 0, TICKS_PER_QUARTER, &clicks);
    CHECK_INT(clicks.count, 2);
    CHECK_INT(clicks.clicks[1].tick, TICKS_PER_QUARTER / 2);
}

static void an_accent_is_louder_than_any_click_but_the_loudest(void)
{
    ClickSettings settings = always(CLICK_BEATS);
    for (int level = 1; level <= 127; ++level) {
        settings.level = (uint8_t)level;
        check_case("level %d", level);
        CHECK_INT(click_velocity(settings, false), level);
        CHECK(click_velocity(settings, true) > level || level == 127);
        CHECK(click_velocity(settings, true) <= 127);
    }
}

static void what_finds_no_room_is_counted(void)
{
    ClickList list;
    const int64_t bar = meter_bar_ticks(meters[0]);
    click_strokes(&no_groove, always(CLICK_SIXTEENTHS), meters[0], 0, 16 * bar, &list);
    CHECK_INT(list.count, 256);
    CHECK_INT(list.dropped, 0);
    click_strokes(&no_groove, always(CLICK_SIXTEENTHS), meters[0], 0, 17 * bar, &list);
    CHECK_INT(list.count, 256);
    CHECK_INT(list.dropped, 16);
    static HitList due;
    due.count = HITS_MAX - 100;
    CHECK_INT(click_join(&list, always(CLICK_SIXTEENTHS), &due), 16 + 156);
}

int main(void)
{
    RUN(clicks_stand_on_their_fraction_of_the_bar);
    RUN(any_cut_gives_the_same_clicks);
    RUN(gaps_come_round_by_the_bar);
    RUN(the_gap_never_silences_the_count_in);
    RUN(in_the_count_in_only_it_ends_at_bar_0);
    RUN(the_feet_s_own_grid_is_where_their_steps_are);
    RUN(feet_on_another_grid_are_clicked_on_it);
    RUN(feet_too_fine_to_count_by_and_no_feet_are_clicked_on_beats);
    RUN(swing_and_feel_leave_the_click_where_it_is);
    RUN(an_accent_is_louder_than_any_click_but_the_loudest);
    RUN(what_finds_no_room_is_counted);
    return tests_end();
}
