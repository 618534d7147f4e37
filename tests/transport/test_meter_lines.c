// SPDX-License-Identifier: ISC
/* A meter changes on a bar line, and bar lines seldom fall on whole frames: the host says
   so at the frame nearest to it, up to half a frame before it. */
#include "../../plugin/engine/time/position.h"
#include "../help/check.h"

#include <math.h>

static const double rate = 48000.0;

/* In quarters since bar 0, as the position has it now. */
static double quarters(const Position* const position)
{
    return clock_tick(&position->clock, position->clock.now) / (double)TICKS_PER_QUARTER;
}

static Report meter_told(const double beats, const int32_t unit, const double tempo)
{
    return (Report){.has = HAS_SPEED | HAS_BEATS_PER_BAR | HAS_BEAT_UNIT | HAS_BEATS_PER_MINUTE,
                    .speed = 1.0,
                    .beats_per_bar = beats,
                    .beat_unit = unit,
                    .beats_per_minute = tempo};
}

static void a_meter_told_alone_at_the_frame_of_a_bar_line_begins_there(void)
{
    int before_the_line = 0;
    for (double tempo = 61.3; tempo < 260.0; tempo += 3.7) {
        Position position;
        position_init(&position, rate);
        const Report first = meter_told(4.0, 4, tempo), then = meter_told(7.0, 8, tempo);
        position_report(&position, &first);
        const double line = 3.0 * 4.0 * 60.0 / tempo * rate;
        position_advance(&position, (uint32_t)llround(line));
        before_the_line += quarters(&position) < 12.0;
        position_report(&position, &then);
        check_case("tempo %g, %.2f frames off the line", tempo, (double)llround(line) - line);
        CHECK_NEAR(quarters(&position), 3.0 * 3.5, tempo / 60.0 / rate); /* bar 3, in 7/8 */
    }
    CHECK(before_the_line > 10);
}

/* By frames alone: what follows is counted from the bar that it stood in. */
static void a_meter_changed_while_standing_moves_what_frames_are_counted_from(void)
{
    const double tempo = 120.0, quarter = rate / 2.0;
    Position position;
    position_init(&position, rate);
    Report report = meter_told(4.0, 4, tempo);
    report.has |= HAS_FRAME;
    position_report(&position, &report);
    position_advance(&position, (uint32_t)(8.0 * quarter));
    report = meter_told(3.0, 4, tempo);
    report.has |= HAS_FRAME;
    report.frame = (int64_t)(8.0 * quarter);
    report.speed = 0.0;
    position_report(&position, &report);
    CHECK_NEAR(quarters(&position), 2 * 3.0, 1e-6); /* bar 2 as it stands */
    report.frame = (int64_t)(9.0 * quarter);
    report.speed = 1.0;
    position_report(&position, &report);
    CHECK_NEAR(quarters(&position), 2 * 3.0 + 1.0, 1e-6);
}

int main(void)
{
    RUN(a_meter_told_alone_at_the_frame_of_a_bar_line_begins_there);
    RUN(a_meter_changed_while_standing_moves_what_frames_are_counted_from);
    return tests_end();
}
