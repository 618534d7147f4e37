// SPDX-License-Identifier: ISC
#include "variation_faults.h"

#include "play_entry.h"

uint32_t variation_faults(const Figure* const figure, const double tempo, const double minutes,
                          const PlayLimits* const limits, Playability* const room)
{
    const double twice = 2.0 * (double)figure->cycle_ticks / (double)TICKS_PER_QUARTER;
    const double quarters = tempo * minutes > twice ? tempo * minutes : twice;
    play_entry_figure(figure, tempo, quarters, limits, room);
    return playability_faults(room, (PlayStream)RIGHT_FOOT) |
           playability_faults(room, (PlayStream)LEFT_FOOT) | playability_faults(room, PLAY_FEET);
}
