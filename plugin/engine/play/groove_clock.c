// SPDX-License-Identifier: ISC
#include "groove_clock.h"

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

int64_t groove_clock_bars_ticks(const GrooveClock* const groove_clock, const int64_t bars,
                                const Meter meter)
{
    return stretched(bars * meter_bar_ticks(meter), groove_clock->rate);
}

Place groove_clock_place(const GrooveClock* const groove_clock, const int64_t tick)
{
    const Ratio rate = groove_clock->rate;
    const int64_t bar_ticks = meter_bar_ticks(groove_clock->meter);
    const int64_t bar = floor_div(tick * rate.under, bar_ticks * rate.over);
    return (Place){bar, tick - groove_clock_bars_ticks(groove_clock, bar, groove_clock->meter)};
}

int64_t groove_clock_tick_of(const GrooveClock* const groove_clock, const Place place)
{
    return groove_clock_bars_ticks(groove_clock, place.bar, groove_clock->meter) + place.tick;
}

double groove_clock_rate(const GrooveClock* const groove_clock)
{
    return factor(groove_clock->rate);
}

static void take_clock(GrooveClock* const groove_clock, const Clock host)
{
    const double rate = factor(groove_clock->rate);
    groove_clock->clock = host;
    groove_clock->clock.anchor_tick *= rate;
    groove_clock->clock.ticks_per_frame *= rate;
}

void groove_clock_look(GrooveClock* const groove_clock, const Position* const position)
{
    take_clock(groove_clock, position->clock);
    groove_clock->meter = position->meter;
    groove_clock->rolling = position->rolling;
    if (position->played_until != groove_clock->host_until) {
        groove_clock->host_until = position->played_until;
        groove_clock->played_until = stretched(position->played_until, groove_clock->rate);
    }
}

static void follow_host(GrooveClock* const groove_clock, const Position* const position,
                        const Ratio rate)
{
    *groove_clock = (GrooveClock){.rate = rate,
                                  .frames_per_second = position->frames_per_second,
                                  .phrase_bars = 1,
                                  .host_until = position->played_until,
                                  .played_until = stretched(position->played_until, rate),
                                  .rise_tick = INT64_MAX};
    groove_clock_look(groove_clock, position);
}

static int64_t phrase_ticks(const GrooveClock* const groove_clock)
{
    return (int64_t)groove_clock->phrase_bars * meter_bar_ticks(groove_clock->meter);
}

static double own_tempo_at(const GrooveClock* const groove_clock, const int64_t tick)
{
    const Ladder ladder = groove_clock->ladder;
    const int64_t phrase = ladder.step > 0.0 ? floor_div(tick, phrase_ticks(groove_clock)) : 0;
    return ladder_tempo(ladder, phrase) * factor(groove_clock->rate);
}

static double own_ticks_per_frame(const GrooveClock* const groove_clock, const int64_t tick)
{
    return own_tempo_at(groove_clock, tick) / 60.0 * (double)TICKS_PER_QUARTER /
           groove_clock->frames_per_second;
}

int64_t groove_clock_next_rise(const GrooveClock* const groove_clock, const int64_t tick)
{
    if (!groove_clock->own || !(groove_clock->ladder.step > 0.0)) {
        return INT64_MAX;
    }
    const int64_t phrase = phrase_ticks(groove_clock);
    const int64_t next = ladder_next_phrase(groove_clock->ladder, floor_div(tick, phrase));
    return next == LADDER_STAYS ? INT64_MAX : next * phrase;
}

/* Goes on from `tick` at the tempo it has there. */
static void anchor(GrooveClock* const groove_clock, const double tick)
{
    const int64_t here = whole_number(floor(tick));
    clock_anchor(&groove_clock->clock, tick,
                 groove_clock->rolling ? own_ticks_per_frame(groove_clock, here) : 0.0);
    groove_clock->rise_tick = groove_clock_next_rise(groove_clock, here);
}

static void begin_own(GrooveClock* const groove_clock, const Position* const position,
                      const Settings* const settings, const Meter meter, const uint32_t phrase_bars)
{
    const int64_t begin = -(int64_t)settings->count_in * meter_bar_ticks(meter);
    *groove_clock = (GrooveClock){.own = true,
                                  .rate = settings->practice_rate,
                                  .clock = {.now = position->clock.now},
                                  .meter = meter,
                                  .rolling = settings->enabled,
                                  .played_until = begin,
                                  .frames_per_second = position->frames_per_second,
                                  .ladder = settings->ladder,
                                  .phrase_bars = phrase_bars};
    anchor(groove_clock, (double)begin);
}

void groove_clock_go(GrooveClock* const groove_clock, const Position* const position,
                     const Settings* const settings, const Meter meter, const uint32_t phrase_bars)
{
    if (settings->clock == CLOCK_OWN) {
        begin_own(groove_clock, position, settings, meter, phrase_bars);
    } else {
        follow_host(groove_clock, position, settings->practice_rate);
    }
}

static bool ratio_equal(const Ratio a, const Ratio b)
{
    return a.over == b.over && a.under == b.under;
}

bool groove_clock_holds(const GrooveClock* const groove_clock, const Settings* const settings)
{
    const bool own = settings->clock == CLOCK_OWN;
    return groove_clock->own == own &&
           (own ? groove_clock->rolling == settings->enabled
                : ratio_equal(groove_clock->rate, settings->practice_rate));
}

static bool ladders_alike(const Ladder a, const Ladder b)
{
    return a.every == b.every && !differs(a.tempo, b.tempo) && !differs(a.step, b.step) &&
           !differs(a.top, b.top);
}

void groove_clock_pace(GrooveClock* const groove_clock, const Settings* const settings,
                       const uint32_t phrase_bars)
{
    const Ratio rate = settings->practice_rate;
    const bool alike = ladders_alike(groove_clock->ladder, settings->ladder) &&
                       groove_clock->phrase_bars == phrase_bars &&
                       ratio_equal(groove_clock->rate, rate);
    if (!groove_clock->own || alike) {
        return;
    }
    groove_clock->ladder = settings->ladder;
    groove_clock->phrase_bars = phrase_bars;
    groove_clock->rate = rate;
    anchor(groove_clock, clock_tick(&groove_clock->clock, groove_clock->clock.now));
}

void groove_clock_change_meter(GrooveClock* const groove_clock, const Meter meter)
{
    const double here = clock_tick(&groove_clock->clock, groove_clock->clock.now);
    const int64_t from = meter_bar_ticks(groove_clock->meter);
    const double slack = groove_clock->clock.ticks_per_frame; /* a line's frame is rounded */
    const int64_t bar = whole_number(floor((here + slack) / (double)from));
    const int64_t delta = bar * (meter_bar_ticks(meter) - from);
    groove_clock->meter = meter;
    groove_clock->played_until += delta;
    anchor(groove_clock, here + (double)delta);
}

double groove_clock_tempo_at(const GrooveClock* const groove_clock, const Position* const position,
                             const int64_t tick)
{
    return groove_clock->own ? own_tempo_at(groove_clock, tick)
                             : position_tempo(position) * factor(groove_clock->rate);
}

double groove_clock_tempo(const GrooveClock* const groove_clock, const Position* const position)
{
    return groove_clock_tempo_at(groove_clock, position, groove_clock->played_until);
}

static double rise_frame(const GrooveClock* const groove_clock)
{
    const Clock* const clock = &groove_clock->clock;
    return (double)clock->anchor_frame +
           ((double)groove_clock->rise_tick - clock->anchor_tick) / clock->ticks_per_frame;
}

void groove_clock_rise(GrooveClock* const groove_clock)
{
    if (groove_clock->rise_tick == INT64_MAX || !groove_clock->rolling) {
        return;
    }
    const double frame = rise_frame(groove_clock);
    const int64_t nearest = whole_number(floor(frame + 0.5));
    if (nearest > groove_clock->clock.now) {
        return;
    }
    const int64_t line = groove_clock->rise_tick;
    const double rate = own_ticks_per_frame(groove_clock, line);
    groove_clock->clock.anchor_frame = nearest;
    groove_clock->clock.anchor_tick = (double)line - (frame - (double)nearest) * rate;
    groove_clock->clock.ticks_per_frame = rate;
    groove_clock->rise_tick = groove_clock_next_rise(groove_clock, line);
}

uint32_t groove_clock_frames_to_rise(const GrooveClock* const groove_clock, const uint32_t frames)
{
    if (groove_clock->rise_tick == INT64_MAX || !groove_clock->rolling) {
        return frames;
    }
    const double left = floor(rise_frame(groove_clock) + 0.5) - (double)groove_clock->clock.now;
    return left > 0.0 && left < (double)frames ? (uint32_t)left : frames;
}

Span groove_clock_advance(GrooveClock* const groove_clock, Position* const position,
                          const uint32_t frames)
{
    position_advance(position, frames);
    groove_clock->clock.now = position->clock.now;
    groove_clock->host_until = position->played_until;
    if (!groove_clock->rolling) {
        return (Span){0, 0};
    }
    const int64_t end = clock_first_tick(&groove_clock->clock, groove_clock->clock.now);
    const Span span = {groove_clock->played_until, end};
    if (end > groove_clock->played_until) {
        groove_clock->played_until = end;
    }
    return span;
}
