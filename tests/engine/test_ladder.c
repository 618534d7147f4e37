// SPDX-License-Identifier: ISC
/* test_ladder.c - the own clock's tempo against a ladder climbed step by step. */
#include "../../plugin/engine/groove/ladder.h"
#include "../help/check.h"

static const Ladder ladders[] = {
    {.tempo = 60.0, .step = 5.0, .top = 120.0, .every = 4},
    {.tempo = 133.7, .step = 2.5, .top = 140.0, .every = 1}, /* the last step is cut */
    {.tempo = 20.0, .step = 20.0, .top = 400.0, .every = 64},
    {.tempo = 180.0, .step = 0.25, .top = 181.0, .every = 3},
};

enum { LADDERS = sizeof ladders / sizeof *ladders, PHRASES = 1400 };

static void it_is_climbed_by_a_step_every_so_many_phrases_up_to_the_top(void)
{
    for (int i = 0; i < LADDERS; ++i) {
        const long double step = (long double)ladders[i].step;
        const long double top = (long double)ladders[i].top;
        long double climbed = (long double)ladders[i].tempo;
        for (int64_t phrase = 0; phrase < PHRASES; ++phrase) {
            if (phrase && phrase % ladders[i].every == 0) {
                climbed += step;
                climbed = climbed > top ? top : climbed;
            }
            check_case("ladder %d, phrase %d", i, (int)phrase);
            CHECK_NEAR(ladder_tempo(ladders[i], phrase), climbed, 1e-9);
        }
    }
}

static void without_a_step_or_with_a_top_below_the_tempo_stays(void)
{
    const Ladder flat = {.tempo = 300.0, .step = 0.0, .top = 200.0, .every = 1};
    const Ladder capped = {.tempo = 300.0, .step = 5.0, .top = 200.0, .every = 1};
    for (int64_t phrase = -4; phrase < 100; ++phrase) {
        check_case("phrase %d", (int)phrase);
        CHECK_NEAR(ladder_tempo(flat, phrase), 300.0, 0.0);
        CHECK_NEAR(ladder_tempo(capped, phrase), 300.0, 0.0);
        CHECK_INT(ladder_next_phrase(flat, phrase), LADDER_STAYS);
        CHECK_INT(ladder_next_phrase(capped, phrase), LADDER_STAYS);
    }
}

static void the_count_in_goes_at_the_first_tempo(void)
{
    for (int64_t phrase = -4; phrase < 0; ++phrase) {
        CHECK_NEAR(ladder_tempo(ladders[0], phrase), 60.0, 0.0);
        CHECK_INT(ladder_next_phrase(ladders[0], phrase), 4);
    }
}

/* The first bar from here on with another tempo, looked for one by one. */
static int64_t bars_to_a_rise(const Ladder ladder, const int64_t phrase_bars, const int64_t bar)
{
    const double tempo = ladder_tempo(ladder, bar < 0 ? -1 : bar / phrase_bars);
    for (int64_t later = bar; later < bar + PHRASES * phrase_bars; ++later) {
        if (later >= 0 && ladder_tempo(ladder, later / phrase_bars) > tempo) {
            return later - bar;
        }
    }
    return 0;
}

static void it_tells_in_how_many_bars_which_tempo_comes(void)
{
    static const uint32_t phrases[] = {1, 3, 4, 16};
    for (int i = 0; i < LADDERS * 4; ++i) {
        const Ladder ladder = ladders[i / 4];
        for (int64_t bar = -4; bar < 200; ++bar) {
            const LadderReach reach = ladder_reach(ladder, phrases[i % 4], bar);
            const int64_t want = bars_to_a_rise(ladder, phrases[i % 4], bar);
            check_case("ladder %d, phrases of %u, bar %d", i / 4, phrases[i % 4], (int)bar);
            CHECK_INT(reach.bars_left, want);
            const LadderReach next = ladder_reach(ladder, phrases[i % 4], bar + want);
            CHECK_NEAR(reach.next_tempo, next.tempo, 0.0);
            CHECK(want ? reach.next_tempo > reach.tempo : !(reach.next_tempo > reach.tempo));
        }
    }
}

int main(void)
{
    RUN(it_is_climbed_by_a_step_every_so_many_phrases_up_to_the_top);
    RUN(without_a_step_or_with_a_top_below_the_tempo_stays);
    RUN(the_count_in_goes_at_the_first_tempo);
    RUN(it_tells_in_how_many_bars_which_tempo_comes);
    return tests_end();
}
