// SPDX-License-Identifier: ISC
#include "position.h"

#include "limits.h"
#include "locate.h"

#include <math.h>

/* A stroke this much of a beat before the place of a jump still sounds. */
static const double look_back = 1.0 / 384.0;
/* A still host repeats its frame at once, not after a loop of a beat or more. */
static const int64_t longest_block = 8192;

void position_init(Position* const position, const double frames_per_second)
{
    *position =
        (Position){.frames_per_second = frames_per_second, .meter = {4.0, 4}, .tempo = 120.0};
}

double position_tempo(const Position* const position)
{
    const double rolling = position->clock.ticks_per_frame * position->frames_per_second * 60.0 /
                           (double)TICKS_PER_QUARTER;
    const double told =
        position->tempo * habits_quarters_per_count(&position->habits, position->meter);
    return position->rolling ? rolling : told;
}

/* The tick here after the meter changed: same bar number, same place in it.  A
   place that is a rounding away from a bar line is on it. */
static double in_meter(const double tick, const Meter from, const Meter to, const double slack)
{
    const double from_bar = (double)meter_bar_ticks(from);
    const double bar = floor((tick + slack) / from_bar);
    return locate_in_reach(bar * (double)meter_bar_ticks(to) + (tick - bar * from_bar));
}

static void shift(Position* const position, const double delta)
{
    position->clock.anchor_tick += delta;
    position->anchor_tick += delta;
    position->played_until += whole_number(round(delta));
}

static void change_meter(Position* const position, const Meter meter)
{
    const double here = clock_tick(&position->clock, position->clock.now);
    const double there = in_meter(here, position->meter, meter, locate_tolerance(position));
    shift(position, there - here);
    position->meter = meter;
}

static void set_rate(Position* const position, const double tick)
{
    /* Too fast here is only a groove's own tempo, or one whose unit isn't known yet. */
    const double most = (double)TEMPO_MOST / 60.0 * (double)TICKS_PER_QUARTER;
    const double rate =
        fmin(locate_frame_ticks(position) * position->speed, most / position->frames_per_second);
    clock_anchor(&position->clock, tick, position->rolling ? rate : 0.0);
    follow_restart(&position->follow);
}

bool position_fallback(Position* const position, const Meter meter, const double tempo)
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
        position->anchor_frame = (double)position->frame + (double)since * position->speed;
        position->anchor_tick = here;
    }
    return new_tempo || new_meter;
}

typedef enum { FRAME_UNKNOWN, FRAME_EXPECTED, FRAME_JUMPED, FRAME_STUCK } Motion;

/* Frames that went through 32 bits are off by half of their last digit, those told now
   and those before. */
static double frame_slack(const int64_t frame)
{
    return fmax(1.0, fabs((double)frame) / 8388608.0);
}

static Motion motion_of(const Position* const position, const Report* const report)
{
    if (!(report->has & HAS_FRAME) || !position->has_frame) {
        return FRAME_UNKNOWN;
    }
    const int64_t elapsed = position->clock.now - position->reported_at;
    const double moved = (double)elapsed * position->speed;
    const double slack = frame_slack(report->frame);
    if (report->frame == position->frame && moved > slack + 0.5 && elapsed <= longest_block) {
        return FRAME_STUCK;
    }
    const double expected = (double)position->frame + (position->rolling ? moved : 0.0);
    const bool close = fabs((double)report->frame - expected) <= slack;
    return close ? FRAME_EXPECTED : FRAME_JUMPED;
}

typedef struct {
    bool meter;
    bool tempo;
    bool speed;
    bool reading;
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
    const int64_t now = position->clock.now;
    if (changes->meter || changes->tempo || changes->speed || !(old_speed > 0.0)) {
        habits_begin(&position->habits, report, position->meter, now);
        return;
    }
    const double per_beat = 60.0 * position->frames_per_second / position->tempo / old_speed;
    changes->reading = habits_learn(&position->habits, report, position->meter, per_beat, now);
}

/* Learns afresh from here on: what is told at a start or jump counts as seen. */
static void learn_from_here(Position* const position, const Report* const report)
{
    habits_begin(&position->habits, report, position->meter, position->clock.now);
    locate_hint(position, report);
}

/* Begins anew from wherever the report says.  A jump too short to be meant, on
   the way, must not play again what has just been played. */
static void anchor(Position* const position, const Report* const report, const bool on_the_way)
{
    const double own = clock_tick(&position->clock, position->clock.now);
    const bool known = locate_is_told(position, report);
    const double tick = locate_find(position, report);
    const double back = locate_beat_ticks(position) * look_back;
    set_rate(position, tick);
    position->provisional = !known;
    if (!on_the_way || fabs(tick - own) > back) {
        const int64_t first = clock_first_tick(&position->clock, position->clock.now);
        const int64_t seam = whole_number(ceil(tick - back));
        position->played_until = seam < first ? seam : first;
    }
}

/* Tempo, meter or speed changed where the frame went on as expected. */
static PositionEvent go_on_changed(Position* const position, const Report* const report,
                                   const Changes changes)
{
    const double own = clock_tick(&position->clock, position->clock.now);
    double tick = own;
    if (changes.reading && !locate_is_told(position, report)) {
        anchor(position, report, true);
        return POSITION_BROKE;
    }
    if (locate_is_told(position, report)) {
        const double reported = locate_reported(position, report);
        if (fabs(reported - own) > locate_beat_ticks(position) / 2.0) {
            anchor(position, report, true);
            return POSITION_BROKE;
        }
        if (changes.reading) {
            tick = locate_find(position, report);
        } else if (!locate_agrees(position, report, own)) {
            tick = reported;
        }
        position->provisional = false;
    }
    set_rate(position, tick);
    locate_anchor(position, tick);
    return POSITION_GOES_ON;
}

static PositionEvent go_on(Position* const position, const Report* const report)
{
    const bool unsure =
        position->meter.beat_unit > 4 && position->habits.fraction == FRACTION_UNKNOWN;
    if (!locate_is_told(position, report) || unsure) {
        return POSITION_GOES_ON;
    }
    const double own = clock_tick(&position->clock, position->clock.now);
    const Difference difference = {
        .frame = position->clock.now,
        .reported = locate_reported(position, report),
        .own = own,
        .tolerance = locate_tolerance(position),
        .beat = locate_beat_ticks(position),
        .nominal = locate_frame_ticks(position) * position->speed,
        .rate = position->clock.ticks_per_frame,
        .exact = locate_is_exact(position),
    };
    double rate = difference.nominal;
    switch (follow_report(&position->follow, &difference, &rate)) {
    case FOLLOW_KEEP:
        break;
    case FOLLOW_STEP:
        set_rate(position, difference.reported);
        locate_anchor(position, difference.reported);
        break;
    case FOLLOW_RELEASE:
        set_rate(position, locate_find(position, report));
        break;
    case FOLLOW_STEER:
        clock_anchor(&position->clock, own, rate);
        locate_anchor(position, own);
        break;
    case FOLLOW_LEAP:
        anchor(position, report, true);
        return POSITION_BROKE;
    }
    return POSITION_GOES_ON;
}

/* True if the place told is where we are but for rounding, or for less than a start
   looks back for a stroke: that would play it twice. */
static bool is_here(const Position* const position, const Report* const report)
{
    const double own = clock_tick(&position->clock, position->clock.now);
    const double off = fabs(own - locate_reported(position, report));
    return locate_agrees(position, report, own) || off <= locate_beat_ticks(position) * look_back;
}

/* Whether a report of no motion names another place than ours: by its frame, or, once
   we stand, by its bar and beat, which JACK's hosts tell a cycle after the frame. */
static bool moves_standing(const Position* const position, const Report* const report,
                           const Motion motion)
{
    return motion == FRAME_JUMPED ||
           (!position->rolling && locate_is_told(position, report) && !is_here(position, report));
}

/* A jump while standing, or to another place by stopping, moves the place that a
   window shows; what plays is decided at the start. */
static PositionEvent stop(Position* const position, const Report* const report, const Motion motion)
{
    const bool moved = moves_standing(position, report, motion);
    const double here = !moved ? clock_tick(&position->clock, position->clock.now)
                        : locate_is_told(position, report) ? locate_reported(position, report)
                                                           : locate_find(position, report);
    const bool was_rolling = position->rolling;
    position->rolling = false;
    position->may_resume = (was_rolling || position->may_resume) && !moved &&
                           (motion == FRAME_EXPECTED || motion == FRAME_UNKNOWN);
    clock_anchor(&position->clock, here, 0.0);
    return was_rolling ? POSITION_BROKE : POSITION_GOES_ON;
}

/* Goes on from where we stopped if the host says the same place, so that what
   was rounded in the report doesn't move it, nor a stroke is played again. */
static void start(Position* const position, const Report* const report, const bool same_frame)
{
    const double here = clock_tick(&position->clock, position->clock.now);
    const bool resumes = position->may_resume && same_frame;
    position->rolling = true;
    position->may_resume = false;
    learn_from_here(position, report);
    const bool told = locate_is_told(position, report);
    if (!resumes || (told && !is_here(position, report))) {
        anchor(position, report, false);
    } else {
        const bool same = !told || locate_agrees(position, report, here);
        set_rate(position, same ? here : locate_reported(position, report));
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
        learn_from_here(position, report);
        anchor(position, report, true);
        return POSITION_BROKE;
    }
    const bool found = position->provisional && locate_is_told(position, report);
    if (changes.meter || changes.tempo || changes.speed || changes.reading || found) {
        return go_on_changed(position, report, changes);
    }
    return go_on(position, report);
}

/* What stands, runs backward or is wound faster than any groove isn't played.  Where
   the tempo may count beats of a sixteenth it is taken for the slower. */
static bool is_played(const Position* const position)
{
    const double quarters = habits_quarters_per_count(&position->habits, position->meter);
    const double in_beats = 4.0 / position->meter.beat_unit;
    const double least = habits_know_unit(&position->habits) ? quarters : fmin(quarters, in_beats);
    return position->speed > 0.0 && position->speed * position->tempo * least <= (double)TEMPO_MOST;
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
    if (motion != FRAME_JUMPED && motion != FRAME_STUCK) {
        learn(position, &report, &changes, old_speed);
    }
    if (!is_played(position) || motion == FRAME_STUCK) {
        return stop(position, &report, motion);
    }
    return roll(position, &report, motion, changes);
}

void position_locate(Position* const position, const Meter meter, const double tempo,
                     const double tick)
{
    position->meter = meter;
    position->tempo = tempo;
    position->has_meter = position->has_tempo = true;
    position->habits = (Habits){.tempo_unit = TEMPO_IN_QUARTERS, .fraction = FRACTION_OF_BEAT};
    position->speed = 1.0;
    position->rolling = true;
    position->has_frame = position->provisional = position->may_resume = false;
    position->reported_at = position->clock.now;
    set_rate(position, tick);
    position->played_until = (int64_t)ceil(tick);
}

void position_stop(Position* const position)
{
    position->rolling = position->may_resume = false;
    clock_anchor(&position->clock, clock_tick(&position->clock, position->clock.now), 0.0);
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
