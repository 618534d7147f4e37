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

int64_t bar_turn(const Selection* const selection, const Bar* const bar)
{
    if (!selection->grow_every || selection->grow_turn != VARIED_STAYS) {
        return selection->grow_turn;
    }
    return floor_div(bar->counted, (int64_t)selection->phrase_bars * selection->grow_every);
}

static uint8_t letter_of(const Selection* const selection, const Bar* const bar)
{
    return selection->groove->form[bar->in_phrase % selection->groove->form_bars];
}

/* As it is picked or written. */
static Part chosen_part(const Selection* const selection, const uint8_t letter)
{
    Part part = selection->groove->parts[letter];
    if (selection->hands) { /* other hands are played as they are written */
        part.hands = selection->hands;
        part.ride_on = RIDE_ON_AS_WRITTEN;
    }
    part.ride_on = selection->ride_on ? selection->ride_on : part.ride_on;
    part.feet = selection->feet ? selection->feet : part.feet;
    return part;
}

VariedAsk bar_ask(const Selection* const selection, const Meter meter, const uint8_t letter,
                  const int64_t turn)
{
    const Part part = chosen_part(selection, letter);
    return (VariedAsk){part.feet,
                       part.hands,
                       meter,
                       selection->variation,
                       selection->variation_then,
                       selection->grow_every ? turn : VARIED_STAYS};
}

VariedFeet bar_feet(const Selection* const selection, const Bar* const bar)
{
    const VariedAsk ask =
        bar_ask(selection, bar->meter, letter_of(selection, bar), bar_turn(selection, bar));
    const bool is_varied = ask.first || ask.second || ask.turn != VARIED_STAYS;
    return is_varied && ask.feet && selection->varied ? varied_find(selection->varied, &ask)
                                                      : (VariedFeet){.figure = ask.feet};
}

Part bar_part(const Selection* const selection, const Bar* const bar)
{
    Part part = chosen_part(selection, letter_of(selection, bar));
    part.feet = bar_feet(selection, bar).figure;
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
