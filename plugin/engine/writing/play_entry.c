// SPDX-License-Identifier: ISC
#include "play_entry.h"

#include <math.h>
#include <stddef.h>

static void play(const Groove* const groove, const Meter meter, const double tempo,
                 const double quarters, const PlayLimits* const limits, Playability* const room)
{
    const Settings settings = {.swing_ratio = 1.0};
    const double phrase = (double)(meter_bar_ticks(meter) * groove->form_bars);
    const double phrases = ceil(quarters * (double)TICKS_PER_QUARTER / phrase);
    Selection selection = selection_of_groove(groove);
    selection.swing = selection_swing(&settings, groove, tempo);
    playability_run(room, &selection, meter, tempo, (uint32_t)phrases * groove->form_bars, limits);
}

void play_entry_groove(const Groove* const groove, const double tempo, const double quarters,
                       const PlayLimits* const limits, Playability* const room)
{
    play(groove, groove->meter, tempo, quarters, limits, room);
}

void play_entry_figure(const Figure* const figure, const double tempo, const double quarters,
                       const PlayLimits* const limits, Playability* const room)
{
    const uint32_t bars = figure->bars ? figure->bars : 1;
    const double bar = (double)figure->cycle_ticks / (double)(bars * TICKS_PER_QUARTER);
    const bool are_feet = figure->kind == FIGURE_FEET;
    const Groove alone = {
        .id = 1,
        .form_bars = bars,
        .parts = {{.hands = are_feet ? NULL : figure, .feet = are_feet ? figure : NULL}}};
    play(&alone, (Meter){bar, 4}, tempo, quarters, limits, room);
}
