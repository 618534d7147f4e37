// SPDX-License-Identifier: ISC
#include "course.h"

#include <math.h>

static double factor(const Ratio rate)
{
    return (double)rate.over / (double)rate.under;
}

/* The first of the groove's ticks at or after one of the host's. */
static int64_t stretched(const int64_t tick, const Ratio rate)
{
    return floor_div(tick * rate.over + rate.under - 1, rate.under);
}

int64_t course_stretched(const Course* const course, const int64_t host_tick)
{
    return stretched(host_tick, course->rate);
}

double course_rate(const Course* const course)
{
    return factor(course->rate);
}

static void take_clock(Course* const course, const Clock host)
{
    const double rate = factor(course->rate);
    course->clock = host;
    course->clock.anchor_tick *= rate;
    course->clock.ticks_per_frame *= rate;
}

void course_look(Course* const course, const Position* const position)
{
    take_clock(course, position->clock);
    course->meter = position->meter;
    course->rolling = position->rolling;
    if (position->played_until != course->host_until) {
        course->host_until = position->played_until;
        course->played_until = stretched(position->played_until, course->rate);
    }
}

static void follow_host(Course* const course, const Position* const position, const Ratio rate)
{
    *course = (Course){.rate = rate,
                       .frames_per_second = position->frames_per_second,
                       .phrase_bars = 1,
                       .host_until = position->played_until,
                       .played_until = stretched(position->played_until, rate),
                       .rise_tick = INT64_MAX};
    course_look(course, position);
}

static int64_t phrase_ticks(const Course* const course)
{
    return (int64_t)course->phrase_bars * meter_bar_ticks(course->meter);
}

static double own_tempo_at(const Course* const course, const int64_t tick)
{
    const Ladder ladder = course->ladder;
    const int64_t phrase = ladder.step > 0.0 ? floor_div(tick, phrase_ticks(course)) : 0;
    return ladder_tempo(ladder, phrase) * factor(course->rate);
}

static double own_ticks_per_frame(const Course* const course, const int64_t tick)
{
    return own_tempo_at(course, tick) / 60.0 * (double)TICKS_PER_QUARTER /
           course->frames_per_second;
}

int64_t course_next_rise(const Course* const course, const int64_t tick)
{
    if (!course->own || !(course->ladder.step > 0.0)) {
        return INT64_MAX;
    }
    const int64_t phrase = phrase_ticks(course);
    const int64_t next = ladder_next_phrase(course->ladder, floor_div(tick, phrase));
    return next == LADDER_STAYS ? INT64_MAX : next * phrase;
}

/* Goes on from `tick` at the tempo it has there. */
static void anchor(Course* const course, const double tick)
{
    const int64_t here = whole_number(floor(tick));
    clock_anchor(&course->clock, tick, course->rolling ? own_ticks_per_frame(course, here) : 0.0);
    course->rise_tick = course_next_rise(course, here);
}

static void begin_own(Course* const course, const Position* const position,
                      const Settings* const settings, const Meter meter, const uint32_t phrase_bars)
{
    const int64_t begin = -(int64_t)settings->count_in * meter_bar_ticks(meter);
    *course = (Course){.own = true,
                       .rate = settings->practice_rate,
                       .clock = {.now = position->clock.now},
                       .meter = meter,
                       .rolling = settings->enabled,
                       .played_until = begin,
                       .frames_per_second = position->frames_per_second,
                       .ladder = settings->ladder,
                       .phrase_bars = phrase_bars};
    anchor(course, (double)begin);
}

void course_go(Course* const course, const Position* const position, const Settings* const settings,
               const Meter meter, const uint32_t phrase_bars)
{
    if (settings->clock == CLOCK_OWN) {
        begin_own(course, position, settings, meter, phrase_bars);
    } else {
        follow_host(course, position, settings->practice_rate);
    }
}

static bool ratio_equal(const Ratio a, const Ratio b)
{
    return a.over == b.over && a.under == b.under;
}

bool course_holds(const Course* const course, const Settings* const settings)
{
    const bool own = settings->clock == CLOCK_OWN;
    return course->own == own && (own ? course->rolling == settings->enabled
                                      : ratio_equal(course->rate, settings->practice_rate));
}

static bool differs(const double a, const double b)
{
    return a < b || a > b;
}

static bool ladders_alike(const Ladder a, const Ladder b)
{
    return a.every == b.every && !differs(a.tempo, b.tempo) && !differs(a.step, b.step) &&
           !differs(a.top, b.top);
}

void course_pace(Course* const course, const Settings* const settings, const uint32_t phrase_bars)
{
    const Ratio rate = settings->practice_rate;
    const bool alike = ladders_alike(course->ladder, settings->ladder) &&
                       course->phrase_bars == phrase_bars && ratio_equal(course->rate, rate);
    if (!course->own || alike) {
        return;
    }
    course->ladder = settings->ladder;
    course->phrase_bars = phrase_bars;
    course->rate = rate;
    anchor(course, clock_tick(&course->clock, course->clock.now));
}

void course_change_meter(Course* const course, const Meter meter)
{
    const double here = clock_tick(&course->clock, course->clock.now);
    const int64_t from = meter_bar_ticks(course->meter);
    const double slack = course->clock.ticks_per_frame; /* a line's frame is rounded */
    const int64_t bar = whole_number(floor((here + slack) / (double)from));
    const int64_t delta = bar * (meter_bar_ticks(meter) - from);
    course->meter = meter;
    course->played_until += delta;
    anchor(course, here + (double)delta);
}

double course_tempo_at(const Course* const course, const Position* const position,
                       const int64_t tick)
{
    return course->own ? own_tempo_at(course, tick)
                       : position_tempo(position) * factor(course->rate);
}

double course_tempo(const Course* const course, const Position* const position)
{
    return course_tempo_at(course, position, course->played_until);
}

static double rise_frame(const Course* const course)
{
    const Clock* const clock = &course->clock;
    return (double)clock->anchor_frame +
           ((double)course->rise_tick - clock->anchor_tick) / clock->ticks_per_frame;
}

void course_rise(Course* const course)
{
    if (course->rise_tick == INT64_MAX || !course->rolling) {
        return;
    }
    const double frame = rise_frame(course);
    const int64_t nearest = whole_number(floor(frame + 0.5));
    if (nearest > course->clock.now) {
        return;
    }
    const int64_t line = course->rise_tick;
    const double rate = own_ticks_per_frame(course, line);
    course->clock.anchor_frame = nearest;
    course->clock.anchor_tick = (double)line - (frame - (double)nearest) * rate;
    course->clock.ticks_per_frame = rate;
    course->rise_tick = course_next_rise(course, line);
}

uint32_t course_frames_to_rise(const Course* const course, const uint32_t frames)
{
    if (course->rise_tick == INT64_MAX || !course->rolling) {
        return frames;
    }
    const double left = floor(rise_frame(course) + 0.5) - (double)course->clock.now;
    return left > 0.0 && left < (double)frames ? (uint32_t)left : frames;
}

Span course_advance(Course* const course, Position* const position, const uint32_t frames)
{
    position_advance(position, frames);
    course->clock.now = position->clock.now;
    course->host_until = position->played_until;
    if (!course->rolling) {
        return (Span){0, 0};
    }
    const int64_t end = clock_first_tick(&course->clock, course->clock.now);
    const Span span = {course->played_until, end};
    if (end > course->played_until) {
        course->played_until = end;
    }
    return span;
}
