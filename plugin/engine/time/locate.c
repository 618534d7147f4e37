// SPDX-License-Identifier: ISC
#include "locate.h"

#include <math.h>

/* Beats come as floats, and what adds up of a float tempo is as little. */
static const double float_digits = 1.0 / 8388608.0;
static const double least_frames = 0.02;

/* A place that only one in so many others would agree with by chance. */
static const double by_chance = 1.0 / 4000.0;

/* So far from bar 0 nobody plays; what ticks are multiplied by still fits. */
static const double most_ticks = 1e18;

double locate_in_reach(const double tick)
{
    return fmin(fmax(tick, -most_ticks), most_ticks);
}

double locate_beat_ticks(const Position* const position)
{
    return (double)meter_beat_ticks(position->meter);
}

/* Ticks in a frame at speed 1 if the tempo counts so many quarters. */
static double frame_ticks(const Position* const position, const double quarters)
{
    return position->tempo / 60.0 * quarters * (double)TICKS_PER_QUARTER /
           position->frames_per_second;
}

double locate_frame_ticks(const Position* const position)
{
    return frame_ticks(position, habits_quarters_per_count(&position->habits, position->meter));
}

/* The same if the host counts inside its beats that way. */
static double tolerance(const Position* const position, const FractionKind kind)
{
    const Meter meter = position->meter;
    const bool doubled = meter.beat_unit > 4 && kind == FRACTION_OF_QUARTER;
    const double beats =
        grain_rounding(&position->habits.grain) + float_digits * meter.beats_per_bar;
    return locate_beat_ticks(position) * beats * (doubled ? meter.beat_unit / 4.0 : 1.0) +
           least_frames * locate_frame_ticks(position);
}

double locate_tolerance(const Position* const position)
{
    const bool known = position->habits.fraction == FRACTION_OF_BEAT;
    return tolerance(position, known ? FRACTION_OF_BEAT : FRACTION_OF_QUARTER);
}

bool locate_is_exact(const Position* const position)
{
    return locate_tolerance(position) < locate_frame_ticks(position) / 4.0;
}

static double anchored_at(const Position* const position, const double frame)
{
    return position->anchor_tick + (frame - position->anchor_frame) * locate_frame_ticks(position);
}

void locate_anchor(Position* const position, const double tick)
{
    position->anchor_frame = (double)position->frame;
    position->anchor_tick = tick;
}

bool locate_is_told(const Position* const position, const Report* const report)
{
    return report_has_place(report, position->meter);
}

double locate_reported(const Position* const position, const Report* const report)
{
    return report_tick(report, position->meter, position->habits.fraction);
}

static bool is_doubtful(const Position* const position)
{
    return position->meter.beat_unit > 4 && position->habits.fraction == FRACTION_UNKNOWN;
}

/* The reading of what is told that is nearest to a tick: either, while it isn't
   known how this host counts inside its beats. */
static double nearest_reading(const Position* const position, const Report* const report,
                              const double tick)
{
    const double told = locate_reported(position, report);
    const double other = report_tick(report, position->meter, FRACTION_OF_QUARTER);
    return is_doubtful(position) && fabs(tick - other) < fabs(tick - told) ? other : told;
}

/* True if the tick is what is told, but for rounding and `more`. */
static bool agrees(const Position* const position, const Report* const report, const double tick,
                   const double more)
{
    const FractionKind known = position->habits.fraction;
    const FractionKind kinds[] = {is_doubtful(position) ? FRACTION_OF_BEAT : known,
                                  is_doubtful(position) ? FRACTION_OF_QUARTER : known};
    bool found = false;
    for (int i = 0; i < 2; ++i) {
        const double told = report_tick(report, position->meter, kinds[i]);
        found |= fabs(tick - told) <= tolerance(position, kinds[i]) + more;
    }
    return found;
}

bool locate_agrees(const Position* const position, const Report* const report, const double tick)
{
    return agrees(position, report, tick, 0.0);
}

/* A tempo that was cut to a float adds up on the way from frame 0. */
static double hint_slack(const double tick)
{
    return fabs(tick) * float_digits;
}

void locate_hint(Position* const position, const Report* const report)
{
    const double beat = locate_beat_ticks(position);
    if (!(report->has & HAS_FRAME) || position->meter.beat_unit == 4 ||
        !locate_is_told(position, report) || locate_reported(position, report) < beat) {
        return;
    }
    const double in_quarters = (double)report->frame * frame_ticks(position, 1.0);
    const double in_beats = in_quarters * 4.0 / position->meter.beat_unit;
    const bool quarters = agrees(position, report, in_quarters, hint_slack(in_quarters));
    const bool beats = agrees(position, report, in_beats, hint_slack(in_beats));
    if (quarters != beats) {
        habits_hint(&position->habits, beats ? TEMPO_IN_BEATS : TEMPO_IN_QUARTERS,
                    report_whole_beats(report, position->meter),
                    locate_tolerance(position) + hint_slack(in_quarters) < beat * by_chance);
    } else if (!quarters) {
        habits_no_hint(&position->habits);
    }
}

/* A line is more exact than what is rounded, and less than what isn't. */
static double by_beat(Position* const position, const Report* const report)
{
    const double reported = locate_reported(position, report);
    if (!(report->has & HAS_FRAME)) {
        return reported;
    }
    const double straight = (double)report->frame * locate_frame_ticks(position);
    const double line = anchored_at(position, (double)report->frame);
    const bool from_zero = agrees(position, report, straight, 0.0);
    const bool from_change = !from_zero && agrees(position, report, line, 0.0);
    const double drawn = from_zero ? straight : line;
    if (locate_is_exact(position) || !(from_zero || from_change)) {
        const double tick =
            from_zero || from_change ? nearest_reading(position, report, drawn) : reported;
        locate_anchor(position, tick);
        return tick;
    }
    if (from_zero) {
        position->anchor_frame = position->anchor_tick = 0.0;
    }
    return drawn;
}

/* Without a usable beat the frame decides, but not against the bar. */
static double by_frame(const Position* const position, const Report* const report)
{
    if (!(report->has & HAS_FRAME)) {
        return clock_tick(&position->clock, position->clock.now);
    }
    const double line = anchored_at(position, (double)report->frame);
    if (!(report->has & HAS_BAR)) {
        return line;
    }
    const double bar_ticks = (double)meter_bar_ticks(position->meter);
    const double bar = (double)report->bar * bar_ticks;
    const double slack = locate_tolerance(position);
    return line >= bar - slack && line < bar + bar_ticks + slack ? line : bar;
}

double locate_find(Position* const position, const Report* const report)
{
    const bool told = locate_is_told(position, report);
    const double tick = told ? by_beat(position, report) : by_frame(position, report);
    return locate_in_reach(tick);
}
