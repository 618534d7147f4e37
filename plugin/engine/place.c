// SPDX-License-Identifier: ISC
#include "place.h"

#include <math.h>

/* Rounding of reported places, as a share of a beat unit: hosts were seen to
   cut to 1/384, twice that where the fraction counts quarters of an eighth. */
static const double rounding = 1.05 / 192.0;

double place_beat_ticks(const Position* const position)
{
    return (double)meter_beat_ticks(position->meter);
}

double place_tolerance(const Position* const position)
{
    const bool doubled =
        position->meter.beat_unit > 4 && position->habits.fraction != FRACTION_OF_BEAT;
    return place_beat_ticks(position) * rounding *
           (doubled ? position->meter.beat_unit / 4.0 : 1.0);
}

double place_frame_ticks(const Position* const position)
{
    const double quarters = habits_quarters_per_count(&position->habits, position->meter);
    return position->tempo / 60.0 * quarters * (double)TICKS_PER_QUARTER /
           position->frames_per_second;
}

static double line_at(const Position* const position, const double frame)
{
    return position->line_tick + (frame - position->line_frame) * place_frame_ticks(position);
}

void place_draw_line(Position* const position, const double tick)
{
    position->line_frame = (double)position->frame;
    position->line_tick = tick;
}

bool place_agrees(const Position* const position, const double line, const double reported)
{
    return fabs(line - reported) <= place_tolerance(position);
}

bool place_is_told(const Position* const position, const Report* const report)
{
    return report_has_place(report, position->meter);
}

double place_reported(const Position* const position, const Report* const report)
{
    return report_tick(report, position->meter, position->habits.fraction);
}

/* A place some beats from frame 0 tells at once what the tempo counts. */
static void learn_from_frame(Position* const position, const Report* const report)
{
    Habits* const habits = &position->habits;
    const double in_quarters = (double)report->frame * place_frame_ticks(position);
    const double in_beats = in_quarters * 4.0 / position->meter.beat_unit;
    const double reported = report_tick(report, position->meter, FRACTION_OF_BEAT);
    if (position->meter.beat_unit <= 4 || habits->tempo_unit != TEMPO_UNKNOWN ||
        reported < place_beat_ticks(position)) {
        return;
    }
    if (place_agrees(position, in_quarters, reported)) {
        habits->tempo_unit = TEMPO_IN_QUARTERS;
    } else if (place_agrees(position, in_beats, reported)) {
        habits->tempo_unit = TEMPO_IN_BEATS;
    }
}

/* True if a tick is a rounding of what is told, read in either way while it
   isn't known how this host counts inside its beats. */
static bool agrees_somehow(const Position* const position, const Report* const report,
                           const double tick)
{
    const bool doubtful =
        position->meter.beat_unit > 4 && position->habits.fraction == FRACTION_UNKNOWN;
    return place_agrees(position, tick, place_reported(position, report)) ||
           (doubtful && place_agrees(position, tick,
                                     report_tick(report, position->meter, FRACTION_OF_QUARTER)));
}

static double by_beat(Position* const position, const Report* const report)
{
    learn_from_frame(position, report);
    const double reported = place_reported(position, report);
    if (!(report->has & HAS_FRAME)) {
        return reported;
    }
    const double line = line_at(position, (double)report->frame);
    if (agrees_somehow(position, report, line)) {
        return line;
    }
    const double straight = (double)report->frame * place_frame_ticks(position);
    if (agrees_somehow(position, report, straight)) {
        position->line_frame = position->line_tick = 0.0;
        return straight;
    }
    place_draw_line(position, reported);
    return reported;
}

/* Without a usable beat the frame decides, but not against the bar. */
static double by_frame(const Position* const position, const Report* const report)
{
    if (!(report->has & HAS_FRAME)) {
        return clock_tick(&position->clock, position->clock.now);
    }
    const double line = line_at(position, (double)report->frame);
    if (!(report->has & HAS_BAR)) {
        return line;
    }
    const double bar_ticks = (double)meter_bar_ticks(position->meter);
    const double bar = (double)report->bar * bar_ticks;
    const double slack = place_tolerance(position);
    return line >= bar - slack && line < bar + bar_ticks + slack ? line : bar;
}

double place_find(Position* const position, const Report* const report)
{
    return place_is_told(position, report) ? by_beat(position, report) : by_frame(position, report);
}
