// SPDX-License-Identifier: ISC
#include "hit_test.h"

#include "../../plugin/engine/groove/groove.h"

#include <math.h>

/* True if the turnaround that takes the bar plays the feet too.  Ids are of a kind:
   feet may have the number that the turnaround has. */
static bool turn_has_feet(const Model* const model, const SeenBar* const bar)
{
    const HitTest turn = {bar, FIGURE_TURNAROUND, bar->hands, &bar->hands_turns};
    const Figure* const figure = hit_test_figure(model, &turn);
    return figure ? figure_has_feet(figure) : bar->feet == bar->hands;
}

bool hit_test_of(const Model* const model, HitTest* const hit)
{
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const bool is_feet = view->edit.pair == PAIR_FEET;
    if (!bar) {
        return false;
    }
    const bool is_turn = bar->turns && (!is_feet || turn_has_feet(model, bar));
    hit->bar = bar;
    hit->id = is_feet ? bar->feet : bar->hands;
    hit->turns = is_feet ? &bar->feet_turns : &bar->hands_turns;
    hit->kind = is_turn ? FIGURE_TURNAROUND : is_feet ? FIGURE_FEET : FIGURE_HANDS;
    return hit->id > 0;
}

const Figure* hit_test_figure(const Model* const model, const HitTest* const hit)
{
    const Library* const library = model_library(model);
    return library ? library_figure(library, hit->kind, hit->id) : NULL;
}

/* A turnaround is always played as written. */
bool hit_test_is_relaid(const Model* const model, const HitTest* const hit)
{
    static const Control regrids[FIGURE_KINDS][3] = {
        [FIGURE_HANDS] = {CONTROL_HANDS_GRID, CONTROL_HANDS_CYCLE, CONTROL_HANDS_SHIFT},
        [FIGURE_FEET] = {CONTROL_FEET_GRID, CONTROL_FEET_CYCLE, CONTROL_FEET_SHIFT},
    };
    bool is_regridded = false;
    for (int i = 0; hit->kind != FIGURE_TURNAROUND && i < 3; ++i) {
        is_regridded |= fabsf(model->view.values[regrids[hit->kind][i]]) > 0.5f;
    }
    return is_regridded;
}

/* ---- Swing */

Swing hit_test_swing(const Model* const model, const int grid)
{
    const Swing even = {1.0, TICKS_PER_QUARTER};
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    if (!bar || !model->snapshot || !figure_grid_bends(grid, 1)) {
        return even;
    }
    const Settings settings = settings_from_controls(model->view.values);
    return selection_swing(&settings, library_groove(model_library(model), bar->groove),
                           model_tempo(model));
}

/* The tick of the bar under x as it is written; before beat 1 is beat 1. */
static double bar_tick(const Model* const model, const SeenBar* const bar, const double x)
{
    const Geometry g = geometry_of(&model->view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double tick = (x - g.beat_1) / space.beat * space.ticks;
    const double bent = tick > 0.0 ? tick : 0.0;
    return swing_unbend(model->view.edit.swing, bent, meter_bar_ticks(bar->meter));
}

/* ---- Steps */

/* The nearest of even steps from 0 that is before `end`. */
static int64_t nearest(const double tick, const int64_t step, const int64_t end)
{
    const int64_t last = (end - 1) / step;
    const double wanted = floor(tick / (double)step + 0.5); /* anything, from any pointer */
    return !(wanted > 0.0) ? 0 : wanted < (double)last ? (int64_t)wanted * step : last * step;
}

int32_t hit_test_hover(const Model* const model, const SeenBar* const bar, const double x)
{
    const int grid = model->view.edit.grid > 0 ? model->view.edit.grid : 4;
    return (int32_t)nearest(bar_tick(model, bar, x), TICKS_PER_QUARTER / grid,
                            meter_bar_ticks(bar->meter));
}

/* The turn of the figure under a tick of the bar: from a start that the plugin has told,
   if the bar has one. */
static FigureCopy copy_at(const Model* const model, const HitTest* const hit, const int64_t tick)
{
    const Figure figure = edit_buffer_figure(&model->editor.buffer);
    const FigureBar at = {hit->bar->meter, hit->bar->bar, hit->bar->in_phrase,
                          model->view.place.loops, (Realign)model->view.values[CONTROL_REALIGN]};
    FigureCopy copy = groove_copy(&figure, at, tick);
    if (!figure.bars && hit->turns->count) {
        copy.begin = tick - floor_mod(tick - hit->turns->ticks[0], copy.ticks);
    }
    return copy;
}

/* Nothing is found beyond the bar line; a turn that rolls on ends with the next one's
   first. */
int64_t hit_test_tick(const Model* const model, const HitTest* const hit, const double x)
{
    const EditBuffer* const buffer = &model->editor.buffer;
    const int64_t bar_ticks = meter_bar_ticks(hit->bar->meter);
    const double tick = bar_tick(model, hit->bar, x);
    if (tick >= (double)bar_ticks) {
        return -1;
    }
    const FigureCopy copy = copy_at(model, hit, (int64_t)tick);
    const int64_t left = bar_ticks - copy.begin;
    const int64_t end = buffer->now.bars && left > copy.ticks ? copy.ticks : left;
    const int64_t found = nearest(tick - (double)copy.begin, TICKS_PER_QUARTER / buffer->grid, end);
    return found < copy.ticks ? copy.from + found : 0;
}
