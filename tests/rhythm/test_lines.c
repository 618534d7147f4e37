// SPDX-License-Identifier: ISC
/* Lines where changes come in, counted by hand. */
#include "../../plugin/engine/groove/lines.h"
#include "../help/check.h"

static const int64_t eighth = TICKS_PER_QUARTER / 2;

/* 7/8 in quarters is 2 + 2 + 2 + 1 eighths: each bar begins anew. */
static void quarters_in_a_bar_of_sevens_begin_anew_at_its_line(void)
{
    const Meter seven_eight = {7.0, 8};
    const int lines[] = {0, 2, 4, 6, 7, 9, 11, 13, 14, 16}; /* eighths */
    for (int i = 1; i < 10; ++i) {
        for (int64_t tick = lines[i - 1] * eighth + 1; tick <= lines[i] * eighth; tick += 180179) {
            check_case("after eighth %d, tick %d", lines[i - 1], (int)tick);
            CHECK_INT(line_next(tick, seven_eight, TICKS_PER_QUARTER), lines[i] * eighth);
        }
    }
}

static void a_line_is_its_own_next(void)
{
    const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}, {3.5, 4}, {5.0, 2}, {15.0, 16}};
    for (int i = 0; i < 6; ++i) {
        const int64_t bar = meter_bar_ticks(meters[i]);
        for (ChangeAt at = CHANGE_NOW; at <= CHANGE_AT_PHRASE; ++at) {
            for (int64_t phrase = -2; phrase <= 2; ++phrase) {
                check_case("meter %d, change at %d, phrase %d", i, (int)at, (int)phrase);
                CHECK_INT(line_of_change(at, meters[i], 4, phrase * 4 * bar), phrase * 4 * bar);
            }
        }
    }
}

static void before_bar_0_phrases_are_counted_backward(void)
{
    const Meter three = {3.0, 4};
    const int64_t bar = meter_bar_ticks(three);
    CHECK_INT(line_of_change(CHANGE_AT_PHRASE, three, 4, -1), 0);
    CHECK_INT(line_of_change(CHANGE_AT_PHRASE, three, 4, -4 * bar - 1), -4 * bar);
    CHECK_INT(line_of_change(CHANGE_AT_PHRASE, three, 4, 1), 4 * bar);
    CHECK_INT(line_of_change(CHANGE_AT_BAR, three, 4, 1), bar);
    CHECK_INT(line_of_change(CHANGE_AT_BEAT, three, 4, 1), 2 * eighth);
    CHECK_INT(line_of_change(CHANGE_NOW, three, 4, 1), 1);
}

int main(void)
{
    RUN(quarters_in_a_bar_of_sevens_begin_anew_at_its_line);
    RUN(a_line_is_its_own_next);
    RUN(before_bar_0_phrases_are_counted_backward);
    return tests_end();
}
