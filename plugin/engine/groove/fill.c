// SPDX-License-Identifier: ISC
#include "fill.h"

#include <stddef.h>

static int64_t lesser(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* Bars from line to line. */
static int64_t bars_apart(const Selection* const selection)
{
    return selection->fill_every ? selection->fill_every : selection->phrase_bars;
}

static int64_t fill_ticks(const Selection* const selection, const Bar* const bar)
{
    const Figure* const figure = selection->turnaround;
    const bool is_for_bars = figure->bars && figure->bars < FILL_BARS_MAX;
    const int64_t bars = lesser(bars_apart(selection), is_for_bars ? figure->bars : FILL_BARS_MAX);
    const int64_t ticks = lesser(figure->cycle_ticks, bars * bar->ticks);
    const int64_t beats = selection->fill_beats;
    return beats ? lesser(ticks, beats * meter_beat_ticks(bar->meter)) : ticks;
}

Fill fill_in_bar(const Selection* const selection, const Bar* const bar)
{
    static const Fill none = {NULL, 0, 0};
    if (!selection->turnaround) {
        return none;
    }
    const int64_t end = bar->begin + bar->ticks;
    const int64_t ticks = fill_ticks(selection, bar);
    const int64_t asked = selection->fill_bar * bar->ticks;
    if (selection->fill_bar > 0 && selection->fill_bar > bar->index && asked - ticks < end) {
        return (Fill){selection->turnaround, asked - ticks, asked};
    }
    const int64_t apart = bars_apart(selection);
    const int64_t line = end + (apart - 1 - floor_mod(bar->counted, apart)) * bar->ticks;
    return line - ticks < end ? (Fill){selection->turnaround, line - ticks, line} : none;
}

bool fill_ends_before(const Selection* const selection, const Bar* const bar)
{
    const uint32_t every = selection->fill_every;
    const bool comes_round = every && bar->counted > 0 && bar->counted % every == 0;
    const bool is_asked = selection->fill_bar > 0 && selection->fill_bar == bar->index;
    return selection->turnaround && (comes_round || is_asked);
}

/* True if no fill reaches into the bars from that of a tick on to the one before `line`. */
static bool is_free(const Selection* const selection, const Meter meter, const int64_t tick,
                    const int64_t line)
{
    bool is = true;
    for (int64_t index = floor_div(tick, meter_bar_ticks(meter)); is && index < line; ++index) {
        const Bar bar = bar_at(selection, meter, index);
        is = !fill_in_bar(selection, &bar).figure;
    }
    return is;
}

int64_t fill_next_bar(const Selection* const selection, const Meter meter, const int64_t from,
                      bool* const comes)
{
    enum { TRIES = 3 * FILL_BARS_MAX }; /* one in its way, the next that is whole, and itself */
    const int64_t begin = from > 0 ? from : 0;
    Selection own = *selection;
    own.fill_bar = 0;
    *comes = false;
    if (!own.turnaround || !own.groove) {
        return 0;
    }
    const Bar first = bar_at(&own, meter, 0);
    const int64_t ticks = fill_ticks(&own, &first);
    int64_t line = floor_div(begin + ticks + first.ticks - 1, first.ticks);
    for (int try = 0; try < TRIES; ++try, ++line) {
        const Bar last = bar_at(&own, meter, line - 1);
        const Fill there = fill_in_bar(&own, &last);
        *comes = there.figure && there.end == line * last.ticks && there.begin >= begin;
        if (*comes || is_free(&own, meter, line * last.ticks - ticks, line)) {
            return line;
        }
    }
    return 0;
}

uint32_t fill_round_bars(const Selection* const selection, const uint32_t most)
{
    const int64_t phrase = selection->phrase_bars;
    const int64_t every = selection->turnaround ? bars_apart(selection) : phrase;
    const int64_t both = common_multiple(phrase, every);
    return (uint32_t)lesser(both, most > phrase ? most : phrase);
}

bool fill_fits(const Figure* const fill, const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t unit = meter_beat_ticks(meter);
    const int64_t eighth = unit < TICKS_PER_QUARTER / 2 ? unit : TICKS_PER_QUARTER / 2;
    if (fill->bars) {
        return fill->cycle_ticks == fill->bars * bar;
    }
    const bool cuts_beats =
        meter_is_compound(meter) && fill->cycle_ticks > 3 * unit && fill->cycle_ticks % (3 * unit);
    return fill->cycle_ticks % eighth == 0 && !cuts_beats &&
           fill->cycle_ticks <= FILL_BARS_MAX * bar;
}
