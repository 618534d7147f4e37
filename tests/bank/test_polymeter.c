// SPDX-License-Identifier: ISC
/* test_polymeter.c - when a figure of one length over bars of another starts on
   a bar line again, against a table of least common multiples. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

enum { SIXTEENTH = TICKS_PER_QUARTER / 4, BARS_MAX = 100 };

/* One kick, then rest until so many sixteenths are over; rolls over the bar. */
static Figure one_kick(const int sixteenths)
{
    static const Stroke kick = {0, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true};
    return (Figure){.id = 1,
                    .kind = FIGURE_FEET,
                    .cycle_ticks = sixteenths * (int64_t)SIXTEENTH,
                    .step_ticks = SIXTEENTH,
                    .stroke_count = 1,
                    .strokes = &kick,
                    .plays_limb = {[RIGHT_FOOT] = true}};
}

static uint32_t strokes_between(const Figure* const figure, const Meter meter,
                                const uint32_t phrase_bars, const int64_t begin, const int64_t end)
{
    static StrokeList list;
    const Groove groove = plain_groove(NULL, figure);
    const Selection selection = plain_choice(&groove, phrase_bars);
    groove_strokes(&selection, meter, begin, end, &list);
    return list.count;
}

/* The first bar line after the start that a stroke falls on. */
static int bar_of_realignment(const Figure* const figure, const Meter meter)
{
    const int64_t bar_ticks = meter_bar_ticks(meter);
    int bar = 1;
    while (bar < BARS_MAX &&
           !strokes_between(figure, meter, BARS_MAX + 1, bar * bar_ticks, bar * bar_ticks + 1)) {
        ++bar;
    }
    return bar;
}

/* data/polymeter-realignment.tsv */
static void figures_meet_the_bar_line_again_when_arithmetic_says(void)
{
    int rows = 0;
    Tsv table = tsv_open("polymeter-realignment.tsv");
    while (tsv_next(&table)) {
        const Figure figure = one_kick(atoi(table.fields[1]));
        const Meter meter = {atoi(table.fields[0]), 16};
        check_case("%s sixteenths over bars of %s", table.fields[1], table.fields[0]);
        CHECK_INT(bar_of_realignment(&figure, meter), atoi(table.fields[3]));
        ++rows;
    }
    check_case("rows");
    CHECK_INT(rows, 19);
}

/* The same table's last column. */
static void by_then_the_figure_was_played_as_often_as_arithmetic_says(void)
{
    Tsv table = tsv_open("polymeter-realignment.tsv");
    while (tsv_next(&table)) {
        const Figure figure = one_kick(atoi(table.fields[1]));
        const Meter meter = {atoi(table.fields[0]), 16};
        const int64_t end = atoi(table.fields[3]) * meter_bar_ticks(meter);
        check_case("%s sixteenths over bars of %s", table.fields[1], table.fields[0]);
        uint32_t strokes = 0;
        for (int64_t at = 0; at < end; at += meter_bar_ticks(meter)) {
            strokes += strokes_between(&figure, meter, BARS_MAX, at, at + meter_bar_ticks(meter));
        }
        CHECK_INT(strokes, atoi(table.fields[4]));
    }
}

/* ttl/terms.ttl: "from the first bar of the phrase". */
static void a_new_phrase_starts_the_figure_again(void)
{
    const Figure figure = one_kick(5);
    const Meter meter = {4.0, 4};
    const int64_t phrase = 2 * meter_bar_ticks(meter);
    CHECK_INT(phrase % figure.cycle_ticks != 0, 1);
    CHECK_INT(strokes_between(&figure, meter, 2, phrase, phrase + 1), 1);
    CHECK_INT(strokes_between(&figure, meter, 3, phrase, phrase + 1), 0);
}

int main(void)
{
    RUN(figures_meet_the_bar_line_again_when_arithmetic_says);
    RUN(by_then_the_figure_was_played_as_often_as_arithmetic_says);
    RUN(a_new_phrase_starts_the_figure_again);
    return tests_end();
}
