// SPDX-License-Identifier: ISC
#include "asked.h"

#include "../../plugin/engine/writing/play_entry.h"

#include <math.h>

/* ---- Strokes a second */

static bool is_hands(const AskedEntry* const entry)
{
    return entry->kind == ENTRY_HANDS;
}

static bool look(const AskedEntry* const entry, const double tempo, const double quarters,
                 const PlayLimits* const limits, Playability* const room)
{
    if (entry->figure) {
        play_entry_figure(entry->figure, tempo, quarters, limits, room);
    } else if (entry->groove) {
        play_entry_groove(entry->groove, tempo, quarters, limits, room);
    }
    return entry->figure || entry->groove;
}

/* Once through and two seconds more: the busiest may lie across its end. */
static double once_and_more(const AskedEntry* const entry, const double tempo)
{
    const int64_t cycle = entry->figure ? entry->figure->cycle_ticks : 0;
    return (double)cycle / (double)TICKS_PER_QUARTER + tempo / 30.0;
}

AskedRates asked_rates(const AskedEntry* const entry, const double tempo, Playability* const room)
{
    const PlayLimits limits = play_limits_default();
    const int right = is_hands(entry) ? RIGHT_HAND : RIGHT_FOOT;
    const int left = is_hands(entry) ? LEFT_HAND : LEFT_FOOT;
    if (!look(entry, tempo, once_and_more(entry, tempo), &limits, room)) {
        return (AskedRates){.known = false};
    }
    return (AskedRates){true, room->found[right].rate, room->found[left].rate};
}

uint32_t asked_faults(const AskedEntry* const entry, const double tempo, const double minutes,
                      const PlayLimits* const limits, Playability* const room)
{
    const double quarters = fmax(once_and_more(entry, tempo), tempo * minutes);
    if (!look(entry, tempo, quarters, limits, room)) {
        return 0;
    }
    const bool hands = is_hands(entry);
    return playability_faults(room, (PlayStream)(hands ? RIGHT_HAND : RIGHT_FOOT)) |
           playability_faults(room, (PlayStream)(hands ? LEFT_HAND : LEFT_FOOT)) |
           playability_faults(room, hands ? PLAY_HANDS : PLAY_FEET);
}

/* ---- Meter */

bool asked_meter(const AskedEntry* const entry, const Meter meter)
{
    const Figure* const figure = entry->figure;
    if (!(meter.beats_per_bar > 0.0) || entry->kind == ENTRY_KIT) {
        return true;
    }
    return figure ? !figure->bars || figure->cycle_ticks == figure->bars * meter_bar_ticks(meter)
                  : entry->groove && meter_equal(entry->groove->meter, meter);
}

/* ---- Grid */

#define GRID_STEPS(NAME, word, other, steps) [WISH_##NAME] = (steps),
static const int grid_steps[WISH_GRID_COUNT] = {WISH_GRIDS(GRID_STEPS)};
#undef GRID_STEPS

/* Whether no stroke is on the middle third of a quarter, and some are on the last. */
static bool leaves_the_middle(const Figure* const figure)
{
    const int64_t third = TICKS_PER_QUARTER / 3;
    bool last = false;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        const int64_t at = figure->strokes[i].tick % TICKS_PER_QUARTER;
        if (at == third) {
            return false;
        }
        last |= at == 2 * third;
    }
    return last && figure->cycle_ticks % TICKS_PER_QUARTER == 0;
}

static bool figure_on(const Figure* const figure, const WishGrid grid)
{
    const int64_t step = figure ? figure->step_ticks : 0;
    if (grid == WISH_SHUFFLE) {
        return step == TICKS_PER_QUARTER / 3 && leaves_the_middle(figure);
    }
    const bool tuplet = grid_steps[grid] % 2 && grid_steps[grid] > 1;
    for (int over = 1; over <= (tuplet ? 4 : 1) && step; over *= 2) {
        if (step * grid_steps[grid] == over * TICKS_PER_QUARTER) {
            return true;
        }
    }
    return false;
}

bool asked_grid(const AskedEntry* const entry, const WishGrid grid)
{
    const Groove* const groove = entry->groove;
    if (!groove) {
        return figure_on(entry->figure, grid);
    }
    if (grid == WISH_SHUFFLE && groove->feel.swing_ratio > 1.0) {
        return true;
    }
    for (int letter = 0; letter < PARTS_MAX; ++letter) {
        if (figure_on(groove->parts[letter].hands, grid) ||
            figure_on(groove->parts[letter].feet, grid)) {
            return true;
        }
    }
    return false;
}
