// SPDX-License-Identifier: ISC
#include "click.h"

GapReach click_gap(const ClickSettings settings, const int64_t bar)
{
    const int64_t play = settings.gap_play;
    const int64_t turn = play + settings.gap_rest;
    if (!settings.gap_rest) {
        return (GapReach){false, 0};
    }
    if (bar < 0) {
        return (GapReach){false, play - bar};
    }
    const int64_t in_turn = bar % turn;
    return in_turn < play ? (GapReach){false, play - in_turn} : (GapReach){true, turn - in_turn};
}

uint8_t click_velocity(const ClickSettings settings, const bool is_accent)
{
    return (uint8_t)(is_accent ? (settings.level + 128) / 2 : settings.level);
}

/* That of the place, to the bar's end at most. */
static StepGrid grid_at(const Selection* const selection, const ClickGrid grid, const Meter meter,
                        const int64_t tick)
{
    const int64_t bar_ticks = meter_bar_ticks(meter);
    const int64_t begin = floor_div(tick, bar_ticks) * bar_ticks;
    const int64_t until = begin + bar_ticks;
    switch (grid) {
    case CLICK_BEATS:
        break;
    case CLICK_EIGHTHS:
        return (StepGrid){begin, TICKS_PER_QUARTER / 2, until};
    case CLICK_TRIPLETS:
        return (StepGrid){begin, TICKS_PER_QUARTER / 3, until};
    case CLICK_SIXTEENTHS:
        return (StepGrid){begin, TICKS_PER_QUARTER / 4, until};
    case CLICK_FEET:
        return groove_feet_grid(selection, meter, tick);
    }
    return (StepGrid){begin, meter_beat_ticks(meter), until};
}

static void add(ClickList* const list, const Click click)
{
    if (list->count < CLICKS_MAX) {
        list->clicks[list->count++] = click;
    } else {
        ++list->dropped;
    }
}

/* The clicks of [begin, end), which lies inside a bar and on one grid. */
static void add_steps(const StepGrid grid, const int64_t bar_begin, const bool is_silent,
                      const int64_t begin, const int64_t end, ClickList* const list)
{
    if (begin == bar_begin) {
        add(list, (Click){bar_begin, true, is_silent});
    }
    const int64_t after = begin > bar_begin ? begin : bar_begin + 1;
    const int64_t steps = floor_div(after - grid.origin + grid.step - 1, grid.step);
    for (int64_t tick = grid.origin + steps * grid.step; tick < end; tick += grid.step) {
        add(list, (Click){tick, false, is_silent});
    }
}

void click_strokes(const Selection* const selection, const ClickSettings settings,
                   const Meter meter, const int64_t begin, const int64_t end, ClickList* const list)
{
    list->count = list->dropped = 0;
    const int64_t last = settings.when == CLICK_COUNT_IN && end > 0 ? 0 : end;
    if (settings.when == CLICK_OFF || begin >= last) {
        return;
    }
    const int64_t bar_ticks = meter_bar_ticks(meter);
    for (int64_t at = begin; at < last;) {
        const int64_t bar = floor_div(at, bar_ticks);
        const StepGrid grid = grid_at(selection, settings.grid, meter, at);
        const int64_t until = last < grid.until ? last : grid.until;
        add_steps(grid, bar * bar_ticks, click_gap(settings, bar).is_silent, at, until, list);
        at = until;
    }
}

/* Behind whatever is due on the same tick. */
static bool put_in(HitList* const due, const Hit hit)
{
    if (due->count == HITS_MAX) {
        return false;
    }
    uint32_t place = due->count++;
    for (; place > 0 && due->hits[place - 1].tick > hit.tick; --place) {
        due->hits[place] = due->hits[place - 1];
    }
    due->hits[place] = hit;
    return true;
}

uint32_t click_join(const ClickList* const list, const ClickSettings settings, HitList* const due)
{
    uint32_t dropped = list->dropped;
    for (uint32_t i = 0; i < list->count; ++i) {
        const Click click = list->clicks[i];
        const Hit hit = {
            .tick = click.tick,
            .written = click.tick,
            .limb = LIMB_COUNT, /* nobody's */
            .voice = click.is_accent ? VOICE_CLICK_ACCENT : VOICE_CLICK,
            .velocity = click_velocity(settings, click.is_accent),
        };
        dropped += !click.is_silent && !put_in(due, hit);
    }
    return dropped;
}
