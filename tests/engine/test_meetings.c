// SPDX-License-Identifier: ISC
/* Where figures start again and where they meet, as the preview says it, against
   counting on ticks, bar after bar. */
#include "../help/check.h"
#include "preview_rig.h"

static Bank* bank;
static PreviewFeed look; /* too large for a stack */

/* Both pairs on a grid and cycle of their own: then they roll over the bar lines
   from bar 0, or from where the phrase or bar begins (groove.h). */
typedef struct {
    int hands_grid, hands_cycle;
    int feet_grid, feet_cycle;
    int realign;
    int phrase;
    Meter meter;
} Polymeter;

static const Polymeter polymeters[] = {
    {4, 16, 4, 3, REALIGN_NEVER, 4, {4.0, 4}},  {4, 16, 4, 3, REALIGN_PHRASE, 4, {4.0, 4}},
    {4, 16, 4, 3, REALIGN_BAR, 4, {4.0, 4}},    {2, 8, 5, 7, REALIGN_NEVER, 1, {4.0, 4}},
    {2, 7, 4, 5, REALIGN_NEVER, 2, {7.0, 8}},   {3, 12, 3, 5, REALIGN_PHRASE, 16, {12.0, 8}},
    {4, 11, 7, 64, REALIGN_NEVER, 3, {5.0, 4}}, {4, 64, 12, 63, REALIGN_NEVER, 16, {7.0, 8}},
    {6, 5, 4, 1, REALIGN_NEVER, 8, {3.0, 4}},   {11, 13, 10, 9, REALIGN_PHRASE, 5, {4.0, 4}},
};

static void begin_polymeter(const Polymeter* const p)
{
    const Library* const library = bank_library(bank);
    look_begin(&look, library, p->meter, 120.0);
    look_set(&look, CONTROL_HANDS, (float)library->figures[FIGURE_HANDS][0].id);
    look_set(&look, CONTROL_FEET, (float)library->figures[FIGURE_FEET][0].id);
    look_set(&look, CONTROL_TURNAROUND, -1.0f);
    look_set(&look, CONTROL_HANDS_GRID, (float)p->hands_grid);
    look_set(&look, CONTROL_HANDS_CYCLE, (float)p->hands_cycle);
    look_set(&look, CONTROL_FEET_GRID, (float)p->feet_grid);
    look_set(&look, CONTROL_FEET_CYCLE, (float)p->feet_cycle);
    look_set(&look, CONTROL_REALIGN, (float)p->realign);
    look_set(&look, CONTROL_PHRASE_BARS, (float)p->phrase);
    look_play(&look, 1);
    look_report(&look, 0.0);
    look_all(&look);
    look.frames = 0;
}

/* The bar from whose line the figure is counted. */
static int64_t origin_of(const Polymeter* const p, const int64_t bar)
{
    return p->realign == REALIGN_NEVER    ? 0
           : p->realign == REALIGN_PHRASE ? bar - bar % p->phrase
                                          : bar;
}

static void check_turns(const Polymeter* const p, const int bar, const SeenTurns* const turns,
                        const int64_t cycle)
{
    const int64_t ticks = look_bar_ticks(&look);
    uint32_t count = 0;
    for (int64_t tick = origin_of(p, bar) * ticks; tick < (bar + 1) * ticks; tick += cycle) {
        if (tick >= bar * ticks) {
            CHECK(count < turns->count);
            CHECK_INT(turns->ticks[count < SEEN_TURNS_MAX ? count : 0], tick - bar * ticks);
            ++count;
        }
    }
    CHECK_INT(turns->count, count);
}

static void figures_start_again_where_counting_says(void)
{
    for (size_t i = 0; i < sizeof polymeters / sizeof *polymeters; ++i) {
        const Polymeter* const p = &polymeters[i];
        begin_polymeter(p);
        for (int bar = 0; bar <= p->phrase; ++bar) {
            check_case("polymeter %zu, bar %d", i, bar);
            CHECK(look.has[bar]);
            check_turns(p, bar, &look.bars[bar].hands_turns,
                        p->hands_cycle * TICKS_PER_QUARTER / p->hands_grid);
            check_turns(p, bar, &look.bars[bar].feet_turns,
                        p->feet_cycle * TICKS_PER_QUARTER / p->feet_grid);
            CHECK_INT(look.bars[bar].feet_step, TICKS_PER_QUARTER / p->feet_grid);
        }
    }
}

static bool starts_at(const Polymeter* const p, const int64_t bar, const int64_t cycle)
{
    return (bar - origin_of(p, bar)) * look_bar_ticks(&look) % cycle == 0;
}

/* Bar after bar until the feet start on the line; over 99 none is told. */
static uint32_t count_feet(const Polymeter* const p, const int64_t now)
{
    const int64_t cycle = p->feet_cycle * TICKS_PER_QUARTER / p->feet_grid;
    for (uint32_t ahead = 1; ahead <= 99; ++ahead) {
        if (starts_at(p, now + ahead, cycle)) {
            return ahead;
        }
    }
    return 0;
}

/* The same for both figures and the phrase, over 9999 none.  Where figures start
   again with the phrase or the bar, all meet at each phrase. */
static uint32_t count_all(const Polymeter* const p, const int64_t now)
{
    const int64_t hands = p->hands_cycle * TICKS_PER_QUARTER / p->hands_grid;
    const int64_t feet = p->feet_cycle * TICKS_PER_QUARTER / p->feet_grid;
    int64_t whole = 1;
    while (whole <= 9999 && (whole % p->phrase || (p->realign == REALIGN_NEVER &&
                                                   (whole * look_bar_ticks(&look) % hands ||
                                                    whole * look_bar_ticks(&look) % feet)))) {
        ++whole;
    }
    return whole > 9999 ? 0 : (uint32_t)(whole - now % whole);
}

static void meetings_are_where_counting_says(void)
{
    for (size_t i = 0; i < sizeof polymeters / sizeof *polymeters; ++i) {
        const Polymeter* const p = &polymeters[i];
        begin_polymeter(p);
        look_report(&look, 1.0);
        for (int bar = 0; bar < 9; ++bar) {
            look_play_to_bar(&look, bar + 0.5, 512);
            const SeenPlace place = preview_place(&look.preview, &look.engine);
            check_case("polymeter %zu, bar %d", i, bar);
            CHECK_INT(place.bar, bar);
            CHECK_INT(place.phrase, bar - bar % p->phrase);
            CHECK_INT(place.feet_meet, count_feet(p, bar));
            CHECK_INT(place.all_meet, count_all(p, bar));
        }
    }
}

int main(void)
{
    bank = factory_open();
    RUN(figures_start_again_where_counting_says);
    RUN(meetings_are_where_counting_says);
    bank_free(bank);
    return tests_end();
}
