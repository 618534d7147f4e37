// SPDX-License-Identifier: ISC
/* test_loop_bar.c - a repeated bar against that bar of the first phrase, as it is
   played where nothing is repeated. */
#include "../help/check.h"
#include "library.h"

enum { PHRASE = 4, LOOPED = 9, ALIGNS = 3 };

static const Meter seven_eight = {7, 8};

static OwnFigure hands, threes, other_threes, turn;

/* Threes roll over the bar line; the last bar turns; the first has a crash. */
static Groove make_groove(void)
{
    hands = threes = other_threes = turn = (OwnFigure){0};
    add_line(&hands, RIGHT_HAND, VOICE_RIDE, 2, 1, "o.O.o");
    add_line(&threes, RIGHT_FOOT, VOICE_KICK, 4, 1, "O..");
    add_line(&other_threes, LEFT_FOOT, VOICE_KICK, 3, 1, ".oo.g");
    add_line(&turn, LEFT_HAND, VOICE_SNARE, 4, 1, "oooo");
    turn.figure.bars = 1;
    Groove groove = one_letter(&hands.figure, &threes.figure, seven_eight, PHRASE);
    groove.parts[1] = (Part){.hands = &hands.figure, .feet = &other_threes.figure};
    groove.form[2] = 1;
    groove.turnaround = &turn.figure;
    groove.crash_start = true;
    return groove;
}

static StrokeList bar_of(const Selection* const selection, const int64_t bar)
{
    static StrokeList list;
    const int64_t ticks = meter_bar_ticks(seven_eight);
    groove_strokes(selection, seven_eight, bar * ticks, (bar + 1) * ticks, &list);
    return list;
}

static void check_loop(const Groove* const groove, const Realign realign, const uint32_t loop_bar)
{
    const int64_t ticks = meter_bar_ticks(seven_eight);
    const int64_t from = (loop_bar - 1) % PHRASE;
    Selection whole = selection_of_groove(groove);
    whole.realign = realign;
    whole.swing.ratio = 2.0;
    Selection loop = whole;
    loop.loop_bar = loop_bar;
    const StrokeList want = bar_of(&whole, from);
    for (int64_t bar = 0; bar < LOOPED; ++bar) {
        const StrokeList got = bar_of(&loop, bar);
        check_case("bar %u repeated, realign %d, bar %d", loop_bar, (int)realign, (int)bar);
        CHECK(want.count > 0);
        CHECK(stroke_lists_alike(&want, &got, (bar - from) * ticks));
    }
    CHECK_INT(bar_of(&loop, -1).count, 0);
    CHECK_INT(groove_realign_bars(&loop, seven_eight), 1);
}

static void every_bar_is_that_bar_of_the_first_phrase(void)
{
    const Groove groove = make_groove();
    for (int realign = 0; realign < ALIGNS; ++realign) {
        for (uint32_t loop_bar = 1; loop_bar <= PHRASE; ++loop_bar) {
            check_loop(&groove, (Realign)realign, loop_bar);
        }
    }
}

static void beyond_the_phrase_its_bars_are_counted_on(void)
{
    const Groove groove = make_groove();
    for (uint32_t loop_bar = PHRASE + 1; loop_bar <= 16; ++loop_bar) {
        check_loop(&groove, REALIGN_NEVER, loop_bar);
    }
}

static void any_cut_of_a_repeated_bar_gives_the_same_strokes(void)
{
    const Groove groove = make_groove();
    static StrokeList whole, part;
    Selection loop = selection_of_groove(&groove);
    loop.loop_bar = 3;
    const int64_t end = LOOPED * meter_bar_ticks(seven_eight);
    groove_strokes(&loop, seven_eight, 0, end, &whole);
    CHECK_INT(whole.dropped, 0);
    uint32_t next = 0;
    for (int64_t at = 0; at < end; at += 100003) { /* a prime: falls on no grid */
        groove_strokes(&loop, seven_eight, at, at + 100003 < end ? at + 100003 : end, &part);
        for (uint32_t i = 0; i < part.count; ++i, ++next) {
            CHECK(next < whole.count);
            CHECK_INT(part.strokes[i].tick, whole.strokes[next].tick);
            CHECK_INT(part.strokes[i].voice, whole.strokes[next].voice);
        }
    }
    CHECK_INT(next, whole.count);
}

int main(void)
{
    RUN(every_bar_is_that_bar_of_the_first_phrase);
    RUN(beyond_the_phrase_its_bars_are_counted_on);
    RUN(any_cut_of_a_repeated_bar_gives_the_same_strokes);
    return tests_end();
}
