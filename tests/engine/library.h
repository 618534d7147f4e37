// SPDX-License-Identifier: ISC
/* library.h - small libraries for tests, made from steps as written in a bank. */
#pragma once

#include "../../plugin/bank/steps.h"
#include "../../plugin/engine/groove/groove.h"

#include <string.h>

/* A figure with room for its own strokes. */
typedef struct {
    Figure figure;
    Stroke strokes[FIGURE_STROKES_MAX];
} OwnFigure;

/* Adds a line to a figure that was begun with {0}. */
static inline void add_line(OwnFigure* const own, const Limb limb, const Voice voice,
                            const int grid, const int over, const char* const steps)
{
    Figure* const figure = &own->figure;
    char wrong = 0;
    const int64_t step = figure_step_ticks(grid, over);
    const int64_t length = step * steps_count(steps, &wrong);
    const Stroke stroke = {
        .limb = (uint8_t)limb, .voice = (uint8_t)voice, .bends = figure_grid_bends(grid, over)};
    steps_read(steps, step, stroke, own->strokes, FIGURE_STROKES_MAX, &figure->stroke_count);
    figure->cycle_ticks = length > figure->cycle_ticks ? length : figure->cycle_ticks;
    figure->step_ticks = common_divisor(step, figure->step_ticks);
    figure->strokes = own->strokes;
    strokes_sort(own->strokes, figure->stroke_count);
    figure_note(figure);
}

/* A groove of one letter in the given meter. */
static inline Groove one_letter(const Figure* const hands, const Figure* const feet,
                                const Meter meter, const uint32_t bars)
{
    return (Groove){.id = 1,
                    .meter = meter,
                    .tempo = 120.0,
                    .form_bars = bars,
                    .parts = {{.hands = hands, .feet = feet}}};
}
