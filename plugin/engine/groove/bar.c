// SPDX-License-Identifier: ISC
#include "bar.h"

Bar bar_in_phrase(const Meter meter, const int64_t index, const int64_t in_phrase, const bool loops)
{
    const int64_t ticks = meter_bar_ticks(meter);
    const int64_t phrase_begin = (index - in_phrase) * ticks;
    return (Bar){.meter = meter,
                 .index = index,
                 .begin = index * ticks,
                 .ticks = ticks,
                 .counted = index,
                 .in_phrase = in_phrase,
                 .phrase_begin = phrase_begin,
                 .song_begin = loops ? phrase_begin : 0};
}

Bar bar_at(const Selection* const selection, const Meter meter, const int64_t index)
{
    const int64_t counted = selection->loop_bar ? (int64_t)selection->loop_bar - 1 : index;
    Bar bar = bar_in_phrase(meter, index, floor_mod(counted, selection->phrase_bars),
                            selection->loop_bar);
    bar.counted = counted;
    return bar;
}

Part bar_part(const Selection* const selection, const Bar* const bar)
{
    const Groove* const groove = selection->groove;
    Part part = groove->parts[groove->form[bar->in_phrase % groove->form_bars]];
    if (selection->hands) { /* other hands are played as they are written */
        part.hands = selection->hands;
        part.ride_on = RIDE_ON_AS_WRITTEN;
    }
    part.ride_on = selection->ride_on ? selection->ride_on : part.ride_on;
    part.feet = selection->feet ? selection->feet : part.feet;
    return part;
}

static int64_t rolling_origin(const Bar* const bar, const Realign realign)
{
    switch (realign) {
    case REALIGN_NEVER:
        return bar->song_begin;
    case REALIGN_PHRASE:
        return bar->phrase_begin;
    case REALIGN_BAR:
        return bar->begin;
    }
    return 0;
}

Tiling bar_tiling(const Bar* const bar, const Layout* const layout, const Realign realign)
{
    const int64_t cycle = layout_ticks(layout);
    if (!layout->bars) {
        return (Tiling){rolling_origin(bar, realign), cycle, 0};
    }
    const int64_t period = cycle / layout->bars;
    return (Tiling){bar->begin, period, bar->in_phrase % layout->bars * period};
}
