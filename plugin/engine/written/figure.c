// SPDX-License-Identifier: ISC
#include "figure.h"

#include "ride_on.h"

#include <stddef.h>

int64_t figure_step_ticks(const int grid, const int over)
{
    if (grid < 1 || grid > 16 || over < 1 || over > 16) {
        return 0;
    }
    const int64_t all = TICKS_PER_QUARTER * over;
    return all % grid ? 0 : all / grid;
}

static bool power_of_two(const int number)
{
    return number > 0 && (number & (number - 1)) == 0;
}

bool figure_grid_bends(const int grid, const int over)
{
    return power_of_two(grid) && power_of_two(over);
}

static bool stroke_valid(const Figure* const figure, const uint32_t index)
{
    const Stroke stroke = figure->strokes[index];
    const bool ordered = index == 0 || !stroke_before(stroke, figure->strokes[index - 1]);
    return ordered && stroke.tick >= 0 && stroke.tick < figure->cycle_ticks &&
           stroke.tick % figure->step_ticks == 0 && stroke.limb < LIMB_COUNT &&
           stroke.voice < VOICE_COUNT && stroke.level > LEVEL_REST && stroke.level <= LEVEL_DRAG;
}

bool figure_valid(const Figure* const figure)
{
    if (!figure || !figure->id || !figure->strokes || figure->cycle_ticks <= 0 ||
        figure->step_ticks <= 0 || figure->cycle_ticks % figure->step_ticks != 0 ||
        figure->stroke_count > FIGURE_STROKES_MAX || !figure->stroke_count) {
        return false;
    }
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (!stroke_valid(figure, i)) {
            return false;
        }
    }
    return true;
}

void figure_note(Figure* const figure)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        figure->plays_limb[limb] = false;
    }
    figure->plays_pedal = false;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        figure->plays_limb[figure->strokes[i].limb] = true;
        figure->plays_pedal |= figure->strokes[i].voice == VOICE_HAT_PEDAL;
    }
    const bool has_hands = figure->plays_limb[RIGHT_HAND] || figure->plays_limb[LEFT_HAND];
    figure->keeps_time =
        has_hands ? ride_on_timekeeper(figure->strokes, figure->stroke_count) : (uint8_t)VOICE_KICK;
}

bool figure_has_feet(const Figure* const figure)
{
    return figure->plays_limb[RIGHT_FOOT] || figure->plays_limb[LEFT_FOOT];
}

uint8_t figure_mirrored(const Figure* const figure, const uint8_t limb)
{
    return limb_is_foot(limb) && !figure->plays_pedal ? (uint8_t)(RIGHT_FOOT + LEFT_FOOT - limb)
                                                      : limb;
}

uint32_t figure_first_from(const Figure* const figure, const int64_t tick)
{
    uint32_t low = 0;
    uint32_t high = figure->stroke_count;
    while (low < high) {
        const uint32_t middle = low + (high - low) / 2;
        if (figure->strokes[middle].tick < tick) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}
