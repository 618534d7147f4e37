// SPDX-License-Identifier: ISC
#include "position.h"

#include <math.h>

/* Rounding of reported places, as a share of a beat unit: hosts were seen to
   cut to 1/384, twice that where the fraction counts quarters of an eighth. */
static const double rounding = 1.05 / 192.0;
/* A stroke this much of a beat before the place of a jump still sounds. */
static const double look_back = 1.0 / 384.0;
/* A still host repeats its frame at once, not after a loop of a beat or more. */
static const int64_t longest_block = 8192;

void position_init(Position* const position, const double frames_per_second)
{
    *position =
        (Position){.frames_per_second = frames_per_second, .meter = {4.0, 4}, .tempo = 120.0};
}

static double beat_ticks(const Position* const position)
{
    return (double)meter_beat_ticks(position->meter);
}

static double tolerance(const Position* const position)
{
    const bool doubled =
        position->meter.beat_unit > 4 && position->habits.fraction != FRACTION_OF_BEAT;
    return beat_ticks(position) * rounding * (doubled ? position->meter.beat_unit / 4.0 : 1.0);
}

double position_tempo(const Position* const position)
{
    const double rolling = position->clock.ticks_per_frame * position->frames_per_second * 60.0 /
                           (double)TICKS_PER_QUARTER;
    const double told =
        position->tempo * habits_quarters_per_count(&position->habits, position->meter);
    return position->rolling ? rolling : told;
}

/* Ticks in one of the host's frames at speed 1. */
static double frame_ticks(const Position* const position)
{
    const double quarters = habits_quarters_per_count(&position->habits, position->meter);
    return position->tempo / 60.0 * quarters * (double)TICKS_PER_QUARTER /
           position->frames_per_second;
}

static double line_at(const Position* const position, const double frame)
{
    return position->line_tick + (frame - position->line_frame) * frame_ticks(position);
}

/* The tick here after the meter changed: same bar number, same place in it.  A
   place that is a rounding away from a bar line is on it. */
static double in_meter(const double tick, const Meter from, const Meter to, const double slack)
{
    const double from_bar = (double)meter_bar_ticks(from);
    const double bar = floor((tick + slack) / from_bar);
    return bar * (double)meter_bar_ticks(to) + (tick - bar * from_bar);
}

static void shift(Position* const position, const double delta)
{
    position->clock.anchor_tick += delta;
    position->played_until += (int64_t)llround(delta);
}

static void change_meter(Position* const position, const Meter meter)
{
    const double here = clock_tick(&position->clock, position->clock.now);
    const double there = in_meter(here, position->meter, meter, tolerance(position));
    shift(position, there - here);
    position->meter = meter;
    habits_restart(&position->habits);
}

static void set_rate(Position* const position, const double tick)
{
    const double rate = position->rolling ? frame_ticks(position) * position->speed : 0.0;
    clock_anchor(&position->clock, tick, rate);
    follow_restart(&position->follow);
}

/* From here on frames and ticks go along a new line. */
static void draw_line(Position* const position, const double tick)
{
    position->line_frame = (double)position->frame;
    position->line_tick = tick;
}

void position_fallback(Position* const position, const Meter meter, const double tempo)
{
    const bool new_tempo = !position->has_tempo && fabs(tempo - position->tempo) > 0.0;
    const bool new_meter = !position->has_meter && !meter_equal(meter, position->meter);
    if (new_meter) {
        change_meter(position, meter);
    }
    if (new_tempo) {
        position->tempo = tempo;
    }
    if (new_tempo || new_meter) {
        const double here = clock_tick(&position->clock, position->clock.now);
        const int64_t since = position->clock.now - position->reported_at;
        set_rate(position, here);
        position->line_frame = (double)position->frame + (double)since * position->speed;
        position->line_tick = here;
    }
}

typedef enum { FRAME_UNKNOWN, FRAME_EXPECTED, FRAME_JUMPED, FRAME_STUCK } Motion;

/* Frames that went through 32 bits are off by half of their last digit. */
static double frame_slack(const int64_t frame)
{
    return fmax(1.0, fabs((double)frame) / 16777216.0);
}

static Motion motion_of(const Position* const position, const Report* const report)
{
    if (!(report->has & HAS_FRAME) || !position->has_frame) {
        return FRAME_UNKNOWN;
    }
    const int64_t elapsed = position->clock.now - position->reported_at;
    const double moved = (double)elapsed * position->speed;
    if (report->frame == position->frame && moved > 1.5 && elapsed <= longest_block) {
        return FRAME_STUCK;
    }
    const double expected = (double)position->frame + (position->rolling ? moved : 0.0);
    const bool close = fabs((double)report->frame - expected) <= frame_slack(report->frame);
    return close ? FRAME_EXPECTED : FRAME_JUMPED;
}

typedef struct {
    bool meter;
    bool tempo;
    bool speed;
    bool tempo_unit;
} Changes;

static Meter reported_meter(const Position* const position, const Report* const report)
{
    Meter meter = position->meter;
    if (report->has & HAS_BEATS_PER_BAR) {
        meter.beats_per_bar = report->beats_per_bar;
    }
    if (report->has & HAS_BEAT_UNIT) {
        meter.beat_unit = report->beat_unit;
    }
    return meter;
}

static bool differs(const double a, const double b)
{
    return a < b || a > b;
}

/* Takes over what the report says of speed, tempo and meter; whatever it leaves
   out holds on. */
static Changes take_over(Position* const position, const Report* const report)
{
    Changes changes = {0};
    const Meter meter = reported_meter(position, report);
    if (!meter_equal(meter, position->meter)) {
        change_meter(position, meter);
        changes.meter = true;
    }
    position->has_meter |= (report->has & (HAS_BEATS_PER_BAR | HAS_BEAT_UNIT)) != 0;
    if (report->has & HAS_BEATS_PER_MINUTE) {
        changes.tempo = differs(report->beats_per_minute, position->tempo);
        position->tempo = report->beats_per_minute;
        position->has_tempo = true;
    }
    if (report->has & HAS_SPEED) {
        changes.speed = differs(report->speed, position->speed);
        position->speed = report->speed;
    }
    return changes;
}

static void learn(Position* const position, const Report* const report, Changes* const changes,
                  const double old_speed)
{
    if (changes->meter || changes->tempo || !(old_speed > 0.0)) {
        habits_restart(&position->habits);
        return;
    }
    const double per_beat = 60.0 * position->frames_per_second / position->tempo / old_speed;
    changes->tempo_unit =
        habits_learn(&position->habits, report, position->meter, per_beat, position->clock.now);
}

/* Sticks to the line if the reported place is only a rounding of it. */
static bool line_agrees(const Position* const position, const double line, const double reported)
{
    return fabs(line - reported) <= tolerance(position);
}

/* A place some beats from frame 0 tells at once what the tempo counts. */
static void learn_from_frame(Position* const position, const Report* const report)
{
    Habits* const habits = &position->habits;
    const double in_quarters = (double)report->frame * frame_ticks(position);
    const double in_beats = in_quarters * 4.0 / position->meter.beat_unit;
    const double reported = report_tick(report, position->meter, FRACTION_OF_BEAT);
    if (position->meter.beat_unit <= 4 || habits->tempo_unit != TEMPO_UNKNOWN ||
        reported < beat_ticks(position)) {
        return;
    }
    if (line_agrees(position, in_quarters, reported)) {
        habits->tempo_unit = TEMPO_IN_QUARTERS;
    } else if (line_agrees(position, in_beats, reported)) {
        habits->tempo_unit = TEMPO_IN_BEATS;
    }
}

/* Where a report with bar and beat says we are, after a jump.  The line through
   the last change of tempo, or through frame 0, is exact where it agrees. */
static double place_with_beat(Position* const position, const Report* const report)
{
    const Meter meter = position->meter;
    learn_from_frame(position, report);
    const double reported = report_tick(report, meter, position->habits.fraction);
    if (!(report->has & HAS_FRAME)) {
        return reported;
    }
    const double line = line_at(position, (double)report->frame);
    const double straight = (double)report->frame * frame_ticks(position);
    const bool doubtful = meter.beat_unit > 4 && position->habits.fraction == FRACTION_UNKNOWN;
    const double other = doubtful ? report_tick(report, meter, FRACTION_OF_QUARTER) : reported;
    if (line_agrees(position, line, reported) || line_agrees(position, line, other)) {
        return line;
    }
    if (line_agrees(position, straight, reported) || line_agrees(position, straight, other)) {
        position->line_frame = position->line_tick = 0.0;
        return straight;
    }
    draw_line(position, reported);
    return reported;
}

/* Without a usable beat the frame decides, but not against the bar. */
static double place_without_beat(const Position* const position, const Report* const report)
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
    const double slack = tolerance(position);
    return line >= bar - slack && line < bar + bar_ticks + slack ? line : bar;
}

static bool has_place(const Position* const position, const Report* const report)
{
    return report_has_place(report, position->meter);
}

/* Begins anew from wherever the report says.  A jump too short to be meant, on
   the way, must not play again what has just been played. */
static void anchor(Position* const position, const Report* const report, const bool on_the_way)
{
    const double own = clock_tick(&position->clock, position->clock.now);
    const bool known = has_place(position, report);
    const double tick =
        known ? place_with_beat(position, report) : place_without_beat(position, report);
    const double back = beat_ticks(position) * look_back;
    set_rate(position, tick);
    position->provisional = !known;
    if (!on_the_way || fabs(tick - own) > back) {
        const int64_t first = clock_first_tick(&position->clock, position->clock.now);
        const int64_t seam = (int64_t)ceil(tick - back);
        position->played_until = seam < first ? seam : first;
    }
}

/* Tempo, meter or speed changed where the frame went on as expected. */
static PositionEvent go_on_changed(Position* const position, const Report* const report,
                                   const Changes changes)
{
    const double own = clock_tick(&position->clock, position->clock.now);
    double tick = own;
    if (has_place(position, report)) {
        const double reported = report_tick(report, position->meter, position->habits.fraction);
        if (fabs(reported - own) > beat_ticks(position) / 2.0) {
            anchor(position, report, true);
            return POSITION_BROKE;
        }
        tick = changes.tempo_unit                     ? place_with_beat(position, report)
               : line_agrees(position, own, reported) ? own
                                                      : reported;
        position->provisional = false;
    }
    set_rate(position, tick);
    draw_line(position, tick);
    return POSITION_GOES_ON;
}

static PositionEvent go_on(Position* const position, const Report* const report)
{
    const bool unsure =
        position->meter.beat_unit > 4 && position->habits.fraction == FRACTION_UNKNOWN;
    if (!has_place(position, report) || unsure) {
        return POSITION_GOES_ON;
    }
    const double own = clock_tick(&position->clock, position->clock.now);
    const Difference difference = {
        .frame = position->clock.now,
        .reported = report_tick(report, position->meter, position->habits.fraction),
        .own = own,
        .tolerance = tolerance(position),
        .beat = beat_ticks(position),
        .nominal = frame_ticks(position) * position->speed,
    };
    double rate = difference.nominal;
    switch (follow_report(&position->follow, &difference, &rate)) {
    case FOLLOW_KEEP:
        break;
    case FOLLOW_RELEASE:
    case FOLLOW_STEER:
        clock_anchor(&position->clock, own, rate);
        draw_line(position, own);
        break;
    case FOLLOW_LEAP:
        anchor(position, report, true);
        return POSITION_BROKE;
    }
    return POSITION_GOES_ON;
}

static PositionEvent stop(Position* const position, const Motion motion)
{
    const double here = clock_tick(&position->clock, position->clock.now);
    const bool was_rolling = position->rolling;
    position->rolling = false;
    position->may_resume = (was_rolling || position->may_resume) &&
                           (motion == FRAME_EXPECTED || motion == FRAME_UNKNOWN);
    clock_anchor(&position->clock, here, 0.0);
    return was_rolling ? POSITION_BROKE : POSITION_GOES_ON;
}

/* Goes on from where we stopped if the host says the same place, so that what
   was rounded in the report doesn't move it. */
static void start(Position* const position, const Report* const report, const bool same_frame)
{
    const double here = clock_tick(&position->clock, position->clock.now);
    const double reported = report_tick(report, position->meter, position->habits.fraction);
    const bool same = position->may_resume && same_frame &&
                      (!has_place(position, report) || line_agrees(position, here, reported));
    position->rolling = true;
    position->may_resume = false;
    habits_restart(&position->habits);
    if (same) {
        set_rate(position, here);
    } else {
        anchor(position, report, false);
    }
}

static PositionEvent roll(Position* const position, const Report* const report, const Motion motion,
                          const Changes changes)
{
    if (!position->rolling) {
        start(position, report, motion == FRAME_EXPECTED);
        return POSITION_BROKE;
    }
    if (motion == FRAME_JUMPED) {
        habits_restart(&position->habits);
        anchor(position, report, true);
        return POSITION_BROKE;
    }
    const bool found = position->provisional && has_place(position, report);
    if (changes.meter || changes.tempo || changes.speed || changes.tempo_unit || found) {
        return go_on_changed(position, report, changes);
    }
    return go_on(position, report);
}

PositionEvent position_report(Position* const position, const Report* const raw)
{
    Report report = *raw;
    report_clean(&report);
    const Motion motion = motion_of(position, &report);
    const double old_speed = position->rolling ? position->speed : 0.0;
    Changes changes = take_over(position, &report);
    if (report.has & HAS_FRAME) {
        position->frame = report.frame;
        position->has_frame = true;
        position->reported_at = position->clock.now;
    }
    if (motion != FRAME_JUMPED) {
        learn(position, &report, &changes, old_speed);
    }
    if (!(position->speed > 0.0) || motion == FRAME_STUCK) {
        return stop(position, motion);
    }
    return roll(position, &report, motion, changes);
}

Span position_advance(Position* const position, const uint32_t frames)
{
    Clock* const clock = &position->clock;
    clock->now += frames;
    if (!position->rolling) {
        return (Span){0, 0};
    }
    const int64_t end = clock_first_tick(clock, clock->now);
    const Span span = {position->played_until, end};
    if (end > position->played_until) {
        position->played_until = end;
    }
    return span;
}
